"""Reads a size of pin for the dry fit, and how many of it the maker has."""

from armorplan.files.limits import LENGTH_OR_NONE, OVER_STACK
from armorplan.files.tables import Table
from armorplan.files.values import number, text, whole
from armorplan.files.words import pair
from armorplan.workshop.pins import PinEntry

_MOST_OWNED = 10_000


def read_pin(key: str, row: Table) -> PinEntry:
    """Read pins of one size; how many there are is the maker's to say, in a file of their own."""
    owned = whole(row, "owned", least=0, most=_MOST_OWNED, default=0)
    return PinEntry(
        id=key,
        name=text(row, "name"),
        diameter_mm=number(row, "diameter_mm", LENGTH_OR_NONE),
        length_mm=number(row, "length_mm", LENGTH_OR_NONE),
        over_stack_mm=pair(row, "over_stack_mm", OVER_STACK),
        source=text(row, "source"),
        owned=owned if row.has("owned") else None,
    )
