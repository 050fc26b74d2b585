"""What turns on pivots, in plain numbers: slides, levers, axes off square, and the bow of a lame."""

from functools import lru_cache
from math import atan2, cos, degrees, pi, radians, sin

_HALVINGS = 60
_FLAT = 1e-6
"""An arc longer than its chord by less than this share is flat."""


def slide_mm(lever_mm: float, turn_deg: float) -> float:
    """Return how far something slides that lies a lever from the pivots: lever × angle."""
    return lever_mm * radians(turn_deg)


def turn_deg(slide_mm: float, lever_mm: float) -> float:
    """Return how far a lame turns until what lies a lever from its pivots has slid so far.

    Nothing on the axis itself ever slides: there it is a whole turn.
    """
    return 360.0 if lever_mm <= 0 else min(360.0, degrees(slide_mm / lever_mm))


def overlap_needed_mm(lever_mm: float, turn: float, kept_mm: float) -> float:
    """Return what has to lie under the neighbour at rest, in mm: the slide and what is kept."""
    return slide_mm(lever_mm, turn) + kept_mm


def skew_deg(height_mm: float, span_mm: float) -> float:
    """Return how far an axis is off square whose one end is so much too high."""
    return degrees(atan2(height_mm, span_mm))


def depth_mm(radius_mm: float, wrap_deg: float) -> float:
    """Return how far the middle of a bent lame stands off the line between its ends, in mm."""
    return radius_mm * (1 - cos(radians(wrap_deg) / 2))


def chord_mm(radius_mm: float, wrap_deg: float) -> float:
    """Return the straight way between the ends of a bent lame, in mm."""
    return 2 * radius_mm * sin(radians(wrap_deg) / 2)


@lru_cache(maxsize=4096)
def bowed_mm(arc_mm: float, chord_mm: float) -> float:
    """Return how far an arc of this length stands off a chord that its ends are held at, in mm.

    Of a circle with half its angle h, chord / arc = sin h / h; it stands off by
    (1 - cos h) × arc / 2h. Halved until nothing is left to halve; an arc that is not longer than its chord is flat.
    """
    if arc_mm <= 0 or chord_mm >= arc_mm * (1 - _FLAT):
        return 0.0
    share = max(chord_mm, 0.0) / arc_mm
    low, high = 0.0, pi
    for _ in range(_HALVINGS):
        half = (low + high) / 2
        low, high = (half, high) if sin(half) / half > share else (low, half)
    half = (low + high) / 2
    return (1 - cos(half)) * arc_mm / (2 * half)
