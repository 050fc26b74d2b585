"""Beside the middle of the back: where lames cut to a shape lie over each other less than there."""

from dataclasses import dataclass

from armorplan.geometry.lames.articulation import slide_mm
from armorplan.geometry.lames.chains import Turn

_SHARES = tuple(n / 10 for n in range(-9, 10) if n)
"""Where it is looked at, from the middle of the back (0) to a pivot (1)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """A line along the limb beside the middle of the back, and what is left there at the end.

    Attributes:
        across_mm: from the middle, along the lower plate; below 0 towards its first pivot.
        overlap_mm: what lies over each other there at rest.
        slide_mm: what the edge slides there.
    """

    across_mm: float
    overlap_mm: float
    slide_mm: float

    @property
    def left_mm(self) -> float:
        """What stays under the neighbour there; below 0 a gap."""
        return self.overlap_mm - self.slide_mm


def least_beside(turn: Turn) -> Beside | None:
    """Return where the least is left beside the middle; ``None`` without a movement or leather."""
    if turn.link is None or turn.turn_deg is None:
        return None
    upper, lower, inner = turn.link.seat(turn.upper), turn.link.seat(turn.lower), turn.link.inner
    found: list[Beside] = []
    for share in _SHARES:
        above = upper.edges_mm(share * upper.span_mm / 2)
        below = lower.edges_mm(share * lower.span_mm / 2)
        if above is not None and below is not None:
            lever = turn.link.wrap.lever_mm(share * inner.span_mm / 2)
            found.append(
                Beside(
                    across_mm=share * lower.span_mm / 2,
                    overlap_mm=below[1] - above[0],
                    slide_mm=slide_mm(lever, turn.turn_deg),
                )
            )
    return min(found, key=lambda beside: (beside.left_mm, beside.across_mm), default=None)
