"""What an order by reach names: a joint by its place in its row, and what it comes before."""

from collections.abc import Iterable

from armorplan.geometry.reach.model import Row
from armorplan.geometry.reach.row_words import places, some_of
from armorplan.geometry.told import listed


def title_of(rows: Iterable[Row], joint: str) -> str:
    """Name a joint by its place in its row: ``number 3 of back row``; empty: it lies in none."""
    own = next((row for row in rows if joint in row.joints), None)
    return "" if own is None else f"{places(own.joints, (joint,))} of {own.name}"


def before_words(rows: Iterable[Row], names: tuple[str, ...], own: tuple[str, ...]) -> str:
    """Name what a joint comes before: ``the last of left row``.

    Args:
        rows: of all shells.
        names: of the rows that are shut.
        own: joints of its own row.
    """
    said = [*names]
    said += [some_of(row, own, row.name) for row in rows if own and own[0] in row.joints]
    return f"the last of {listed(said, named=len(said))}"
