"""A draft as frozen rows: its groups of entries, and the fields of one entry; and typed edits."""

import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from armorplan.app.draft import Draft, Refused, refused
from armorplan.app.draft_keys import Key, Kind, TableKeys, editable_tables
from armorplan.app.draft_sources import Word, words_of
from armorplan.app.draft_words import TypedWronglyError, changes, other_unit, typed
from armorplan.files.toml_lines import KeyPath

SHAPES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("one step before another", ("first", "then")),
    ("one step before the last of several", ("first", "before_all_of")),
    ("one step once one of several is done", ("then", "after_any_of")),
    ("several steps in one go", ("together",)),
    ("several steps not at once", ("apart", "on")),
)
"""What a reason of one's own can say, and the keys that say it."""
_LONGEST_ID = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryRow:
    """One entry of a table; ``id`` is empty where the table is itself the entry."""

    table: str
    id: str
    title: str
    can_drop: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupRow:
    """A table with its entries; ``one`` is what one of them is called."""

    table: str
    title: str
    one: str
    help: str
    grows: bool
    entries: tuple[EntryRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldRow:
    """One field: where it stands, how it is written, what it holds as one would type it.

    Attributes:
        section: the heading it stands under, where an entry has several.
        words: what it may hold, each with its meaning, where that can be listed.
        also: the same in another unit.
    """

    path: KeyPath
    key: Key
    typed: str
    words: tuple[Word, ...] = ()
    also: str = ""
    section: str = ""

    @property
    def is_on(self) -> bool:
        """Of a flag, whether it holds."""
        return (self.typed or self.key.usual) == "true"


def group_rows(draft: Draft) -> tuple[GroupRow, ...]:
    """Return the tables that are written or can grow, each with its entries in their order."""
    found = []
    for table, keys in editable_tables().items():
        if keys.within or not (keys.grows or draft.entry(table, "")):
            continue
        ids = ("",) if table == "pattern" else tuple(draft.entry(table, ""))
        entries = tuple(_entry_row(draft, table, keys, entry) for entry in ids)
        found.append(
            GroupRow(
                table=table,
                title=keys.title,
                one=keys.one,
                help=keys.help,
                grows=keys.grows,
                entries=entries,
            )
        )
    return tuple(found)


def _entry_row(draft: Draft, table: str, keys: TableKeys, entry: str) -> EntryRow:
    told = draft.entry(table, entry).get(keys.called) if keys.called else None
    title = told.strip() if isinstance(told, str) else ""
    title = title or entry.replace("_", " ")
    return EntryRow(table=table, id=entry, title=title, can_drop=keys.grows)


def heading(draft: Draft, table: str, entry: str) -> tuple[str, str]:
    """Return what an entry is called with what it is, and what its table is for."""
    keys = editable_tables()[table]
    title = _entry_row(draft, table, keys, entry).title
    return f"{title} – {keys.one}" if title != keys.one else title, keys.help


def field_rows(draft: Draft, table: str, entry: str) -> tuple[FieldRow, ...]:
    """Return the fields of an entry; none where it is not written."""
    values = draft.entry(table, entry)
    if not values:
        return ()
    head = (table, entry) if entry else (table,)
    rows = _fields(draft, editable_tables()[table], values, head=head)
    found = [row for row in rows if not row.key.names_it]
    inner = [(name, keys) for name, keys in editable_tables().items() if keys.within == table]
    for name, keys in inner:
        told = values.get(name)
        for one, held in told.items() if isinstance(told, dict) else ():
            if isinstance(held, dict):
                section = f"{keys.one.capitalize()}: {held.get('name', one)}"
                found += _fields(draft, keys, held, head=(*head, name, one), section=section)
    return tuple(found)


def blank_rows(
    draft: Draft, table: str, *, shape: tuple[str, ...] = (), held: Mapping[str, Any] | None = None
) -> tuple[FieldRow, ...]:
    """Return the fields of an entry that is yet to be added.

    Args:
        draft: the pattern.
        table: one that grows.
        shape: of a reason of one's own, the keys that say what it says.
        held: what they hold to begin with.
    """
    values = dict(held or {})
    rows = _fields(draft, editable_tables()[table], values, head=(table, ""), also=shape)
    return tuple(_only_one(row) for row in rows)


def _only_one(row: FieldRow) -> FieldRow:
    """Return a field that must be chosen with its one choice, where there is but one."""
    is_plain = row.key.kind is Kind.CHOICE and row.key.needed and not row.typed
    return replace(row, typed=row.words[0][0]) if is_plain and len(row.words) == 1 else row


def _fields(
    draft: Draft,
    keys: TableKeys,
    values: Mapping[str, Any],
    *,
    head: KeyPath,
    section: str = "",
    also: tuple[str, ...] = (),
) -> list[FieldRow]:
    return [
        FieldRow(
            path=(*head, key.name),
            key=key,
            typed=typed(key, values),
            words=words_of(key, draft, values),
            also=other_unit(values) if key.kind is Kind.THICKNESS else "",
            section=section,
        )
        for key in keys.keys
        if not key.only_written or key.name in values or key.name in also
    ]


def typed_in(draft: Draft, field: FieldRow, text: str) -> Draft | Refused:
    """Return the draft with what was typed into a field; the same draft where it says the same."""
    values: Any = draft.values
    for name in field.path[:-1]:
        values = values.get(name, {})
    try:
        told = changes(field.key, text, values)
    except TypedWronglyError as error:
        return refused(str(error), code="typed-wrongly")
    head = field.path[:-1]
    puts = [put for name, value in told for put in _puts((*head, name), value, values.get(name))]
    return draft.put(*puts) if puts else draft


def _puts(path: KeyPath, value: Any, former: Any) -> Iterator[tuple[KeyPath, Any]]:
    """Yield what is to be put: of a table that is there key by key, however it is written."""
    if isinstance(value, dict) and isinstance(former, dict):
        for key in (*former, *(key for key in value if key not in former)):
            if value.get(key) != former.get(key):
                yield (*path, key), value.get(key)
    else:
        yield path, value


def with_entry(draft: Draft, table: str, told: Mapping[str, str]) -> tuple[Draft | Refused, str]:
    """Return the draft with a new entry of what was typed, and the entry's id."""
    keys = editable_tables()[table]
    values: dict[str, Any] = {}
    try:
        for key in keys.keys:
            values.update(changes(key, told.get(key.name, ""), {}))
    except TypedWronglyError as error:
        return refused(str(error), code="typed-wrongly"), ""
    named_by = next((key for key in keys.keys if key.names_it), None)
    chosen = str(values.pop(named_by.name, "") or "") if named_by else ""
    values = {name: value for name, value in values.items() if value is not None}
    if named_by is not None:
        if not chosen:
            return refused(f"{named_by.label}: choose one.", code="typed-wrongly"), ""
        return draft.add_entry(table, chosen, values), chosen
    named = told.get(keys.called, "") or told.get("first", "") or keys.one
    entry = free_id(named, draft.entry(table, ""))
    return draft.add_entry(table, entry, values), entry


def free_id(words: str, taken: Collection[str]) -> str:
    """Return an id made of the first words, with a number where it is taken."""
    plain = re.sub(r"[^\w-]+", "_", words.strip().casefold()).strip("_-")[:_LONGEST_ID]
    plain = plain.rstrip("_-") or "entry"
    numbered = (f"{plain}_{number}" for number in range(2, len(taken) + 3))
    return plain if plain not in taken else next(one for one in numbered if one not in taken)
