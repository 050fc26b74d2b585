"""How far a tool gets, in a maker's words."""

from collections.abc import Iterable

from armorplan.geometry.reach.model import Margin, Standing, Through, Way
from armorplan.geometry.told import listed
from armorplan.workshop.shelf import Shelf

_JUST = 0.8
"""Beyond this share of a tool's reach it 'just reaches'."""
_NAMED = 3


def shut(names: Iterable[str]) -> str:
    """Say that rows are set: ``left row and right row are shut``."""
    rows = list(names)
    return f"{listed(rows, named=_NAMED)} {'is' if len(rows) == 1 else 'are'} shut"


def tool_name(shelf: Shelf, tool: str) -> str:
    """Return a tool's name as it stands within a sentence; its id where the shelf lacks it."""
    name = next((each.name for each in shelf.tools if each.id == tool), tool)
    return f"{name[:1].lower()}{name[1:]}"


def way_words(way: Way, rows: dict[str, str]) -> str:
    """Say where a tool goes in, after 'in': ``by the mouth`` or ``by the open left row``."""
    if way.through is Through.RIM:
        return "by the mouth"
    return f"by the open {rows.get(way.row, way.row)}"


def standing_words(shelf: Shelf, margin: Margin) -> str:
    """Say how a joint can be set, with the numbers: a clause that follows 'once the row is shut,'."""
    way = margin.way
    if margin.standing is Standing.FLAT:
        return "its leather lies flat and any tool serves"
    if margin.standing is Standing.CANNOT:
        return _cannot(shelf, margin)
    if way is None or margin.reach_mm is None:
        return "it is set on a shaped part, as at hand"
    if margin.standing is Standing.CURVED:
        return f"it sits on a shaped part {way.along_mm:.0f} mm in, as at hand"
    reached = (tool_name(shelf, margin.tool), way.along_mm, margin.reach_mm)
    if margin.standing is Standing.END:
        return _at_the_end(reached, way.least_mm, margin.opening_mm or 0.0)
    return _inside(*reached)


def _inside(name: str, along_mm: float, reach_mm: float) -> str:
    if along_mm >= _JUST * reach_mm:
        return f"it is just within reach of the {name} ({along_mm:.0f} of {reach_mm:.0f} mm)"
    return f"it is within reach of the {name}, {along_mm:.0f} of its {reach_mm:.0f} mm in"


def _at_the_end(reached: tuple[str, float, float], least_mm: float, opening_mm: float) -> str:
    name, along_mm, reach_mm = reached
    if along_mm <= reach_mm:
        return (
            f"the {name} goes in only where the opening of {opening_mm:.0f} mm is squashed wider, "
            f"{along_mm:.0f} mm deep"
        )
    return (
        f"it lies at the end of reach: between {least_mm:.0f} and {along_mm:.0f} mm in, for the "
        f"{name} of {reach_mm:.0f} mm"
    )


def _cannot(shelf: Shelf, margin: Margin) -> str:
    way = margin.way
    if way is None or margin.reach_mm is None or way.least_mm <= margin.reach_mm:
        return "no opening is left that a tool for it goes in through"
    return (
        f"a straight tool has to get in at least {way.least_mm:.0f} mm, and the one that gets "
        f"furthest is the {tool_name(shelf, margin.tool)}, of {margin.reach_mm:.0f} mm"
    )
