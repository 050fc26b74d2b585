"""Checks ids that name something else: each has to be there, and each list names it once."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from heapq import nsmallest

from armorplan.files.faults import brief, listed
from armorplan.files.tables import Table
from armorplan.files.values import text, texts

_FEW, _MOST_SORTED = 6, 500


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """The ids that a reference may name, what they are called and where they are."""

    what: str
    ids: Collection[str]
    where: str = ""


def ref(table: Table, key: str, names: Names) -> str:
    """Return a required id that has to be among the names."""
    value = text(table, key)
    if value:
        check_ref(table, key, value=value, names=names)
    return value


def refs(table: Table, key: str, names: Names, *, required: bool = False) -> tuple[str, ...]:
    """Return a list of ids that have to be among the names, each once."""
    values = texts(table, key, required=required)
    for value in dict.fromkeys(values):
        check_ref(table, key, value=value, names=names)
    check_once(table, key, values)
    return tuple(dict.fromkeys(values))


def check_ref(table: Table, key: str, *, value: str, names: Names) -> None:
    """Tell where an id is not among the names, with the nearest one that is."""
    if value in names.ids:
        return
    near = table.faults.nearest(value, names.ids)
    where = f" {names.where}" if names.where else ""
    table.fault(
        key,
        "unknown-id",
        f'There is no {names.what} "{brief(value)}"{where}.',
        mend=f'Perhaps "{near}" is meant.'
        if near
        else f"There are: {_some(table, value, names)}.",
    )


def _some(table: Table, value: str, names: Names) -> str:
    if len(names.ids) > _MOST_SORTED:  # Thousands of references may fail among thousands of ids.
        few = ", ".join(brief(known) for known in nsmallest(_FEW, names.ids))
        return f"{few} and {len(names.ids) - _FEW} more"
    return listed(table.faults.nearest_first(value, names.ids))


def check_once(table: Table, key: str, values: Sequence[str]) -> None:
    """Tell which entries of a list are written twice."""
    seen: set[str] = set()
    for value in values:
        if value in seen:
            table.fault(
                key,
                "named-twice",
                f'{table.name_of(key)} names "{brief(value)}" twice.',
                mend="Name it once.",
            )
        seen.add(value)
