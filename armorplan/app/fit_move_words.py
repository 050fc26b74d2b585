"""Says how holes move for what was found at a fit: which, how far, which way, and which do not."""

from collections.abc import Iterator, Sequence

from armorplan.app.derived import Derived
from armorplan.app.fit_findings import FitFinding, FoundKind
from armorplan.app.fit_moves import moving, row_of
from armorplan.app.fit_naming import listed
from armorplan.assembly.model import SidedJoint
from armorplan.steps.model import Step

_MOST_NAMED = 3
_WAYS = {
    FoundKind.GAP: "in from the edge",
    FoundKind.OVERLAP: "out towards the edge",
    FoundKind.SHORT: "along the row, away from its middle",
    FoundKind.LONG: "along the row, towards its middle",
}


def moved_words(derived: Derived, fit: Step, found: FitFinding, holes: Sequence[str]) -> str:
    """Say how holes move: 'left_3 in left petal moved 2 mm in from the edge for the next cut'.

    Args:
        derived: the build at whose fit it was found.
        fit: the dry fit.
        found: what was found, of a kind that moves holes.
        holes: ids of the holes that move.
    """
    of_part: dict[str, list[str]] = {}
    row = [hole for _, hole in moving(derived, fit, found.about)]
    for hole in (each for each in row if each in holes):
        of_part.setdefault(derived.pattern.hole(hole).part, []).append(hole)
    names = derived.pattern.part
    which = listed([f"{_named(mine)} in {names(part).name}" for part, mine in of_part.items()])
    moved = f"{which} moved {found.mm:g} mm {_WAYS[found.kind]} for the next cut."
    left = [hole for hole in row if hole not in holes]
    return " ".join((moved, *_left(left), *_unmarked(row_of(derived, fit, found.about))))


def _named(holes: Sequence[str]) -> str:
    if len(holes) <= _MOST_NAMED:
        return listed(holes)
    return f"{holes[0]} … {holes[-1]} ({len(holes)} holes)"


def _left(holes: Sequence[str]) -> Iterator[str]:
    if holes:
        verb, what = ("moves", "it") if len(holes) == 1 else ("move", "them")
        yield f"{_named(holes)} {verb} by what was found at {what} alone."


def _unmarked(row: Sequence[SidedJoint]) -> Iterator[str]:
    """Yield what has no hole yet at the fit, and so cannot move."""
    names = [joint.joint.id for joint in row if not joint.takes_pin]
    if names:
        verb = "is" if len(names) == 1 else "are"
        yield f"{_named(names)} {verb} marked on the wearer, and not moved."
