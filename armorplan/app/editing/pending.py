"""Changes of a draft's tables and drawings that are made in one go, and taken or refused as one."""

from collections.abc import Callable, Collection, Mapping
from copy import deepcopy
from functools import wraps
from typing import Any, Concatenate, ParamSpec, TypeVar

from armorplan.app.draft import Draft, Refused, refused
from armorplan.app.draft_rows import free_id
from armorplan.app.editing.drawings import Drawings
from armorplan.app.editing.references import (
    TABLES,
    Naming,
    What,
    step_called,
    step_names,
    step_users,
    users,
)
from armorplan.files.source import PATTERN_FILE
from armorplan.files.toml_lines import KeyPath
from armorplan.files.toml_patch import Change, UnpatchableError, all_patched
from armorplan.kernel.errors import ArmorplanError
from armorplan.pattern.parts import Hole, Part, Point
from armorplan.pattern.pattern import Pattern

_Told = ParamSpec("_Told")
_Found = TypeVar("_Found")


class NotTakenError(ArmorplanError):
    """An edit that cannot be made, and how it could be; never leaves this package."""

    def __init__(self, text: str, remedy: str = "") -> None:
        self.text = text
        self.remedy = remedy
        super().__init__(text)


class Pending:
    """What an edit has changed so far; ``values`` are the tables with that in them.

    ``drawings`` are its drawings, to be changed.

    Raises:
        NotTakenError: the pattern cannot be read as it stands.
    """

    def __init__(self, draft: Draft) -> None:
        pattern = draft.pattern
        if pattern is None:
            text = "The pattern cannot be read as it stands, so its shapes cannot be changed."
            raise NotTakenError(text, "Mend what its findings tell first.")
        self.draft = draft
        self.pattern: Pattern = pattern
        self.values: dict[str, Any] = deepcopy(dict(draft.values))
        self._changes: list[Change] = []
        self.drawings = Drawings(dict(draft.texts))
        self._told: list[str] = []

    # --- what is there ------------------------------------------------------------------------

    def part(self, part: str) -> Part:
        """Return a part; NotTakenError where there is none."""
        return _found(self.pattern.part, part, "part")

    def has_hole(self, hole: str) -> bool:
        """Tell whether the pattern has a hole of this id."""
        return any(each.id == hole for part in self.pattern.parts for each in part.holes)

    def hole(self, hole: str) -> Hole:
        """Return a hole; NotTakenError where there is none."""
        return _found(self.pattern.hole, hole, "hole")

    def entry(self, table: str, entry: str) -> Mapping[str, Any]:
        """Return what an entry holds by now; NotTakenError where it is not written."""
        found = self.values.get(table, {}).get(entry)
        if not isinstance(found, dict):
            text = f"There is no [{table}.{entry}] in the pattern."
            raise NotTakenError(text, "Choose one that is there.")
        return found

    def shift_mm(self, hole: str) -> Point:
        """Return how far corrections move a hole from where it is drawn."""
        moves = [c.move_mm for c in self.pattern.corrections if hole in c.holes]
        return sum(x for x, _ in moves), sum(y for _, y in moves)

    def free_id(self, table: str, wanted: str) -> str:
        """Return an id of the words wanted that no entry of a table has."""
        return free_id(wanted, self.values.get(table, {}))

    # --- tables -------------------------------------------------------------------------------

    def put(self, path: KeyPath, value: Any) -> None:
        """Set a key, or take it out with ``None``; a list that becomes empty goes."""
        value = None if value in ([], ()) else value
        value = list(value) if isinstance(value, tuple) else value
        inner: Any = self.values
        for key in path[:-1]:
            inner = inner.setdefault(key, {})
        if value is None and path[-1] not in inner:
            return
        inner[path[-1]] = value
        if value is None:
            del inner[path[-1]]
        self._changes.append(Change(path=path, value=value))

    def add(self, table: str, entry: str, values: Mapping[str, Any]) -> None:
        """Add an entry at the end of its table; what is ``None`` or an empty list is left out."""
        told = {
            key: list(value) if isinstance(value, tuple) else value
            for key, value in values.items()
            if value is not None and value not in ([], ())
        }
        if entry in self.values.get(table, {}):
            text = f"There is a [{table}.{entry}] already."
            raise NotTakenError(text, "Give it another id.")
        self.values.setdefault(table, {})[entry] = deepcopy(told)
        self._changes.append(Change(path=(table, entry), value=told, is_new=True))

    def rename(self, table: str, entry: str, name: str) -> None:
        """Give an entry another id, and write that wherever it is named."""
        self.entry(table, entry)
        if name in self.values[table]:
            text = f"There is a [{table}.{name}] already."
            raise NotTakenError(text, "Give it another id.")
        held = self.values[table]
        self.values[table] = {name if key == entry else key: told for key, told in held.items()}
        self._changes.append(Change(path=(table, entry), value=name, is_name=True))
        if table in TABLES:
            self.call_anew(TABLES[table], entry, name)

    def drop(self, table: str, entry: str, *, words: str = "") -> None:
        """Take an entry out, and with it what is nothing without it; ``words`` tell of it."""
        if entry not in self.values.get(table, {}):
            return
        self.put((table, entry), None)
        if words:
            self.tell(words)
        if table in TABLES:
            self.forget(TABLES[table], (entry,))

    def forget(self, what: What, names: Collection[str]) -> None:
        """Take names out wherever they are written; what is nothing without them goes, and is told."""
        for name in names:
            for naming, entry, held in list(users(self.values, what, name)):
                self._without(naming, entry, [each for each in held if each != name])
            for naming, entry, held in list(step_users(self.values, what, name)):
                left = [each for each in held if not step_names(each, what, name)]
                self._without(naming, entry, left)

    def _without(self, naming: Naming, entry: str, left: list[str]) -> None:
        if entry not in self.values.get(naming.table, {}):
            return
        other = naming.unless and naming.unless in self.values[naming.table][entry]
        if len(left) >= naming.least or other:
            self.put((naming.table, entry, naming.key), left)
        else:
            kind = _CALLED.get(naming.table, naming.table)
            self.drop(naming.table, entry, words=f'The {kind} "{entry}" went with it.')

    def call_anew(self, what: What, former: str, name: str) -> None:
        """Write another name wherever a thing is named, its steps among it."""
        for naming, entry, held in list(users(self.values, what, former)):
            self._write(naming, entry, [name if each == former else each for each in held])
        for naming, entry, held in list(step_users(self.values, what, former)):
            new = [
                step_called(each, what, former, name) if step_names(each, what, former) else each
                for each in held
            ]
            self._write(naming, entry, new)

    def _write(self, naming: Naming, entry: str, held: list[str]) -> None:
        was = self.values[naming.table][entry][naming.key]
        self.put((naming.table, entry, naming.key), held[0] if isinstance(was, str) else held)

    # --- the end ------------------------------------------------------------------------------

    def tell(self, words: str) -> None:
        """Tell what else the edit does, once."""
        if words not in self._told:
            self._told.append(words)

    def taken(self) -> Draft | Refused:
        """Return the draft with all changes, or why it is not taken."""
        texts = self.drawings.texts
        if self._changes:
            texts[PATTERN_FILE] = all_patched(self.draft.text, self._changes)
        return self.draft.with_files(texts, told=self._told)


_CALLED = {
    "joints": "joint",
    "seams": "row",
    "forms": "form",
    "threads": "threaded strap",
    "relations": "reason",
    "overruled": "overruling",
    "corrections": "correction",
    "own_steps": "step",
    "treatments": "treatment",
    "movements": "movement",
    "fit_checks": "check",
    "suspensions": "suspension",
    "strap_places": "strap place",
    "hardware": "buckle or ring",
    "parts": "part",
    "holes": "note on the hole",
    "scalings": "scaling",
}


def _found(look: Callable[[str], _Found], name: str, what: str) -> _Found:
    try:
        return look(name)
    except KeyError:
        text = f'There is no {what} "{name}" in the pattern.'
        raise NotTakenError(text, "Choose one that is there.") from None


def an_edit(
    edit: Callable[Concatenate[Draft, _Told], Draft | Refused],
) -> Callable[Concatenate[Draft, _Told], Draft | Refused]:
    """Make what an edit raises a refusal in the same words."""

    @wraps(edit)
    def refusing(draft: Draft, /, *told: _Told.args, **named: _Told.kwargs) -> Draft | Refused:
        try:
            return edit(draft, *told, **named)
        except NotTakenError as error:
            return refused(error.text, error.remedy)
        except UnpatchableError as error:
            return refused(str(error), "Change it in the file itself.", code="cannot-patch")

    return refusing


def check_id(name: str) -> None:
    """Raise NotTakenError where an id could not stand in the files."""
    if not name or not all(each.isalnum() or each in "_-" for each in name):
        text = f'"{name}" cannot be an id.'
        raise NotTakenError(text, "Write it of letters, digits, _ and -, without blanks.")
