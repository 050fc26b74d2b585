"""Where the picture shows what the pattern draws: the left as drawn, the right beside it."""

from collections.abc import Callable

from armorplan.assembly.model import Side, SidedPart
from armorplan.pattern.parts import Point
from armorplan.pattern.pattern import Pattern

_GAP_MM = 40.0
"""Between the left and the right side, so that they read as two."""

Turn = Callable[[SidedPart], Callable[[Point], Point]]


def turner(pattern: Pattern) -> Turn:
    """Return how a point of the drawing is shown on a part.

    The drawing shows the left; the right is its mirror image beside it. The mirror is about the
    middle of the whole drawing, so the outer sides of both lie outward. A part that is copied
    lies where its mirror image would, the same way up as on the left.
    """
    high = max((x for part in pattern.parts for x, _ in part.outline), default=0.0)

    def turn(sided: SidedPart) -> Callable[[Point], Point]:
        if sided.side is not Side.RIGHT:
            return lambda p: p
        axis = 2 * high + _GAP_MM
        if not sided.part.copied:
            return lambda p: (axis - p[0], p[1])
        across = [x for x, _ in sided.part.outline]
        shift = axis - min(across) - max(across)
        return lambda p: (p[0] + shift, p[1])

    return turn


def laid_up_deg(sided: SidedPart) -> float:
    """Return where 'up' on the wearer lies on a part as shown; 0 is right, 90 is up the page."""
    is_mirrored = sided.side is Side.RIGHT and not sided.part.copied
    return (180.0 - sided.part.up_deg if is_mirrored else sided.part.up_deg) % 360.0
