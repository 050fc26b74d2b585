"""The inside of the bend: where plates that stand apart beyond their pivots come to touch."""

from dataclasses import dataclass

from armorplan.geometry.lames.articulation import turn_deg
from armorplan.geometry.lames.links import Link
from armorplan.geometry.lames.seats import Seat

_SAMPLES = 8
_LEAST_LEVER_MM = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Touch:
    """Where two plates first touch: what lies between them at rest, how far inward, at what turn."""

    gap_mm: float
    lever_mm: float
    turn_deg: float


def _beyond_mm(seat: Seat, side: int) -> float:
    """Return how far a plate reaches beyond its pivot on one side."""
    (mx, my), (ax, ay) = seat.middle, seat.across
    most = max(side * ((x - mx) * ax + (y - my) * ay) for x, y in seat.part.outline)
    return max(0.0, most - seat.span_mm / 2)


def _at(link: Link, upper: Seat, lower: Seat, across: tuple[float, float]) -> Touch | None:
    """Return where the plates touch on one line along the limb, so far beyond a pivot."""
    side, beyond = across
    lever = link.wrap.inward_mm(beyond)
    above = upper.edges_mm(side * (upper.span_mm / 2 + beyond))
    below = lower.edges_mm(side * (lower.span_mm / 2 + beyond))
    if lever < _LEAST_LEVER_MM or above is None or below is None:
        return None
    gap = above[0] - below[1]
    if gap <= 0:  # They lie over each other there and slide on.
        return None
    return Touch(gap_mm=gap, lever_mm=lever, turn_deg=turn_deg(gap, lever))


def first_touch(link: Link, upper_id: str, lower_id: str) -> Touch | None:
    """Return where two plates first touch on the inside of the bend; ``None`` if they never do."""
    upper, lower = link.seat(upper_id), link.seat(lower_id)
    found: list[Touch] = []
    for side in (-1, 1):
        reach = min(_beyond_mm(upper, side), _beyond_mm(lower, side))
        lines = ((side, reach * step / _SAMPLES) for step in range(1, _SAMPLES))
        touches = (_at(link, upper, lower, line) for line in lines if reach > 0)
        found.extend(touch for touch in touches if touch is not None)
    return min(found, key=lambda touch: touch.turn_deg, default=None)
