"""How far a tool gets, in a maker's words."""

from collections.abc import Iterable, Iterator
from math import pi

from armorplan.geometry.reach.margins import IN_MM, needed_mm
from armorplan.geometry.reach.model import Margin, Rim, Shell, Standing, Through, Way
from armorplan.geometry.told import listed
from armorplan.workshop.shelf import Shelf

_JUST = 0.8
"""Beyond this share of a tool's reach it 'just reaches'."""
_NAMED = 3
_FINEST = 2
_OUTSIDE = "it is closed on a shaped part, from outside"
_NOT_KNOWN = "it is set on a shaped part, and how far in a tool for it gets is not known"
_COUNTED = ("no mouth", "one mouth", "two mouths", "three mouths", "four mouths")


def shut(names: Iterable[str]) -> str:
    """Say that rows are set: ``left row and right row are shut``."""
    rows = list(names)
    return f"{listed(rows, named=_NAMED)} {'is' if len(rows) == 1 else 'are'} shut"


def tool_name(shelf: Shelf, tool: str) -> str:
    """Return a tool's name as it stands within a sentence; its id where the shelf lacks it."""
    name = next((each.name for each in shelf.tools if each.id == tool), tool)
    return f"{name[:1].lower()}{name[1:]}"


def mouths_told(shell: Shell) -> str:
    """Say how many mouths a shell has and how wide they are: ``one mouth, 89 mm wide``."""
    count = len(shell.rims)
    if not count:
        return "no opening at all"
    mouths = _COUNTED[count] if count < len(_COUNTED) else f"{count} mouths"
    at_most = "at most " if any(is_at_most(shell, rim) for rim in shell.rims) else ""
    return f"{mouths}, {at_most}{listed([f'{rim.opening_mm:.0f}' for rim in shell.rims])} mm wide"


def mouth_words(shell: Shell) -> Iterator[str]:
    """Say of each mouth how long its edge is, and how wide that makes it."""
    for at, rim in enumerate(shell.rims, start=1):
        which = "its mouth" if len(shell.rims) == 1 else f"mouth {at}"
        words, wide = (
            f"The edge of {which} is {rim.length_mm:.0f} mm round",
            f"{rim.opening_mm:.0f}",
        )
        if not is_at_most(shell, rim):
            yield f"{words}: pressed round it is {wide} mm wide."
        elif rim.ball_mm is None or rim.ball_mm > rim.opening_mm:
            yield f"{words}: pressed round it is at most {wide} mm wide."
        else:
            yield (
                f"{words}, with all that goes up and down in it; its plates are dished to a ball "
                f"{wide} mm across, and no mouth of a ball is wider."
            )


def is_at_most(shell: Shell, rim: Rim) -> bool:
    """Tell whether a mouth may be narrower than told: its edge goes up and down, nobody knows how."""
    return shell.hollow or (rim.ball_mm is not None and rim.ball_mm < rim.length_mm / pi)


def way_words(way: Way, rows: dict[str, str]) -> str:
    """Say where a tool goes in, after 'in': ``by the mouth`` or ``by the open left row``."""
    if way.through is Through.RIM:
        return "by the mouth"
    name = rows.get(way.row, way.row)
    return f"by the open {name}" if way.gap is None else f"by {gap_words(way.gap, name)}"


def gap_words(gap: tuple[int, int], name: str) -> str:
    """Say which gap of a row it is that stays when the row is set; ``name``: of the row."""
    if not gap[1]:
        return f"the gap past number {gap[0]} of {name}"
    return f"the gap between numbers {gap[0]} and {gap[1]} of {name}"


def standing_words(shelf: Shelf, margin: Margin, *, outside: bool = False) -> str:
    """Say how a joint can be set, with the numbers: a clause that follows 'once the row is shut,'.

    ``outside``: it is closed from outside alone, so that no tool has to get in.
    """
    way = margin.way
    if margin.standing is Standing.FLAT:
        return "its leather lies flat and any tool serves"
    if margin.standing is Standing.CANNOT:
        return _cannot(shelf, margin)
    if way is None or margin.reach_mm is None:
        return _OUTSIDE if outside else _NOT_KNOWN
    if margin.standing is Standing.CURVED:
        return f"it sits on a shaped part {way.along_mm:.0f} mm in, as at hand"
    reached = (tool_name(shelf, margin.tool), way.along_mm, margin.reach_mm)
    if margin.standing is Standing.END:
        return _at_the_end(reached, way.least_mm, margin.opening_mm or 0.0)
    return _inside(*reached)


def unlike_mm(one_mm: float, other_mm: float) -> tuple[str, str]:
    """Return two lengths in words, as fine as it takes to see that they differ, to a hundredth."""
    digits = 0
    while digits < _FINEST and f"{one_mm:.{digits}f}" == f"{other_mm:.{digits}f}":
        digits += 1
    other = f"{other_mm:.{digits}f}"
    return f"{one_mm:.{digits}f}", other.rstrip("0").rstrip(".") if digits else other


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
    if reach_mm < least_mm:
        least, reach = unlike_mm(least_mm, reach_mm)
        return (
            f"it lies at the very end of reach: a straight tool has to get in at least {least} mm, and "
            f"the {name} has {reach} mm, too near for the shapes to tell"
        )
    return (
        f"it lies at the end of reach: between {least_mm:.0f} and {along_mm:.0f} mm in, for the "
        f"{name} of {reach_mm:.0f} mm"
    )


def _cannot(shelf: Shelf, margin: Margin) -> str:
    way = margin.way
    if way is None or margin.reach_mm is None:
        return "no opening is left that a tool for it goes in through"
    if margin.reach_mm < needed_mm(way) and way.least_mm <= IN_MM:
        return (
            f"it lies up to {way.along_mm:.0f} mm in, and of the tools for it none gets in at all: "
            f"the {tool_name(shelf, margin.tool)} has a reach of {margin.reach_mm:.0f} mm"
        )
    if way.least_mm <= margin.reach_mm:
        return "no opening is left that a tool for it goes in through"
    least, reach = unlike_mm(way.least_mm, margin.reach_mm)
    tool = f"the {tool_name(shelf, margin.tool)}, of {reach} mm"
    if way.through is Through.ROW:
        return (
            f"where the row still gapes a straight tool has to get in at least {least} mm, "
            f"and the longest that is narrow enough there is {tool}"
        )
    return (
        f"a straight tool has to get in at least {least} mm, and the one that gets "
        f"furthest is {tool}"
    )
