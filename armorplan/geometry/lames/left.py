"""What is left under a lame's neighbour as the two turn, and how grave it is."""

from armorplan.geometry.lames.articulation import slide_mm, turn_deg
from armorplan.geometry.lames.chains import Turn
from armorplan.kernel.findings import Severity
from armorplan.workshop.constants import Constants

_SCANT = 0.5
"""Less than this share of what usually stays under is too little (common practice, no source)."""
HARDLY_MM = 0.05
"""Below this nothing is missing: a drawing is flattened to as much."""


def capacity_deg(turn: Turn, kept_mm: float = 0.0) -> float:
    """Return how far two neighbours turn before no more than this lies under; 0 without a link."""
    if turn.link is None or turn.overlap_mm is None:
        return 0.0
    return turn_deg(max(0.0, turn.overlap_mm - kept_mm), turn.link.lever_mm)


def left_mm(turn: Turn, share: float = 1.0) -> float | None:
    """Return what lies under the neighbour when so much of the movement is done; below 0 a gap."""
    if turn.link is None or turn.overlap_mm is None:
        return None
    return turn.overlap_mm - slide_mm(turn.link.lever_mm, (turn.turn_deg or 0.0) * share)


def gravity(left: float, constants: Constants) -> Severity | None:
    """Return how grave it is that so much is left at the end of the bend.

    A gap as wide as what should stay under is an error; less than half of that left is a warning.
    """
    kept_mm = constants.kept_cover.value
    if left < -kept_mm:
        return Severity.ERROR
    if left < kept_mm * _SCANT - HARDLY_MM:
        return Severity.WARNING
    return Severity.NOTE if left < kept_mm - HARDLY_MM else None


def opens(left: float, constants: Constants) -> bool:
    """Tell whether a gap opens.

    What punch and leather make up in a spacing is none: the edges come level.
    """
    return left < -constants.misfit.value
