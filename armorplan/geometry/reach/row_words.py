"""What of a row is set, in words."""

from collections.abc import Collection, Iterator, Sequence

from armorplan.geometry.reach.model import Row
from armorplan.geometry.told import listed

_RUN = 3
"""From so many that follow on each other on, the first and the last are named."""


def some_set(row: Row, joints: Collection[str], name: str) -> str:
    """Say what of a row is set: all the rest, or some joints by their places; ``name``: of the row."""
    if len(joints) == len(row.joints) - 1:
        return f"all the rest of {name} is set"
    are = "is" if len(joints) == 1 else "are"
    return f"{places(row.joints, joints)} of {name} {are} set"


def some_of(row: Row, joints: Collection[str], name: str) -> str:
    """Name some joints of a row by their places, or all the rest of it; ``name``: of the row."""
    if len(joints) == len(row.joints) - 1:
        return f"the rest of {name}"
    return f"{places(row.joints, joints)} of {name}"


def places(row: Sequence[str], joints: Collection[str]) -> str:
    """Name joints by their places in a row: ``numbers 1, 2 and 4 to 7``."""
    found = sorted(row.index(each) + 1 for each in joints)
    if len(found) == 1:
        return f"number {found[0]}"
    return f"numbers {listed(list(_stretches(found)), named=len(found))}"


def _stretches(places: Sequence[int]) -> Iterator[str]:
    """Yield numbers in a row as one, those that follow on each other from three on."""
    start = 0
    for at in range(1, len(places) + 1):
        if at < len(places) and places[at] == places[at - 1] + 1:
            continue
        run = places[start:at]
        yield from (f"{run[0]} to {run[-1]}",) if len(run) >= _RUN else map(str, run)
        start = at
