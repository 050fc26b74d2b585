"""Beside the middle of the back: where lames cut to a shape lie over each other less than there."""

from dataclasses import dataclass
from functools import lru_cache

from armorplan.geometry.lames.articulation import slide_mm
from armorplan.geometry.lames.chains import Turn
from armorplan.geometry.lames.left import left_mm

_WORSE_MM = 1.0
"""By so much less has to be left beside the middle before it is spoken of."""
_SHARES = tuple(n / 10 for n in range(-9, 10) if n)
"""Where it is looked at, from the middle of the back (0) to a pivot (1)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """A line along the limb beside the middle of the back, and what is left there at the end.

    Attributes:
        across_mm: from the middle, along the lower plate; below 0 towards its first pivot.
        round_deg: from the middle round the limb.
        overlap_mm: what lies over each other there at rest.
        lever_mm: how far it stands off the line between the pivots.
        slide_mm: what the edge slides there.
    """

    across_mm: float
    round_deg: float
    overlap_mm: float
    lever_mm: float
    slide_mm: float

    @property
    def left_mm(self) -> float:
        """What stays under the neighbour there; below 0 a gap."""
        return self.overlap_mm - self.slide_mm

    @property
    def where(self) -> str:
        """Where it is, in words."""
        return f"{abs(self.across_mm):.0f} mm beside the middle"


def _least_beside(turn: Turn) -> Beside | None:
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
                    round_deg=abs(share) * turn.link.wrap.wrap_deg / 2,
                    overlap_mm=below[1] - above[0],
                    lever_mm=lever,
                    slide_mm=slide_mm(lever, turn.turn_deg),
                )
            )
    return min(found, key=lambda beside: (beside.left_mm, beside.across_mm), default=None)


@lru_cache(maxsize=1024)
def worse_beside(turn: Turn) -> Beside | None:
    """Return where less is left than in the middle of the back; ``None`` where the middle tells it."""
    least, left = _least_beside(turn), left_mm(turn)
    if least is None or left is None or least.left_mm > left - _WORSE_MM:
        return None
    return least


def least_left_mm(turn: Turn) -> float | None:
    """Return the least that stays under anywhere at the end of the bend; below 0 a gap."""
    beside = worse_beside(turn)
    return left_mm(turn) if beside is None else beside.left_mm
