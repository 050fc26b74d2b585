"""Two arcs about one centre: what slides between two places of a bend, and which rows allow for it."""

from collections.abc import Sequence
from math import radians
from typing import NamedTuple

_WIDER_SHARE = 0.25
_WIDER_MM = 0.5
"""An outer row is made for the bent state where it is longer by the slide, give or take these
(common practice, no source)."""


class Bend(NamedTuple):
    """What slides between two places across a bend."""

    apart_mm: float
    radius_mm: float | None
    angle_deg: float | None
    axis_mm: float | None

    def between_mm(self, start_mm: float, end_mm: float) -> float | None:
        """Return the slide of one spacing; ``None`` without a radius, since it may lie anywhere."""
        return None if self.radius_mm is None else self.slide_mm(start_mm, end_mm)

    def slide_mm(self, start_mm: float, end_mm: float) -> float | None:
        """Return the slide between two places; ``None`` where neither radius nor angle is said.

        Where the place of the axis is known only what lies in the bend counts.
        """
        most = None if self.angle_deg is None else radians(abs(self.angle_deg))
        if self.radius_mm is None:
            return None if most is None else self.apart_mm * most
        turned = (end_mm - start_mm) / self.radius_mm
        if most is None:
            return self.apart_mm * turned
        if self.axis_mm is not None:
            half_mm = self.radius_mm * most / 2
            inside = min(end_mm, self.axis_mm + half_mm) - max(start_mm, self.axis_mm - half_mm)
            turned = max(0.0, inside) / self.radius_mm
        return self.apart_mm * min(turned, most)


def made_for_bent(longer_mm: float, slide_mm: float) -> bool:
    """Tell whether an outer row that is so much longer is made for the bent state of its layers."""
    return slide_mm > _WIDER_MM and _meets(longer_mm, slide_mm)


def each_made_for_bent(longer_mm: Sequence[float], slide_mm: Sequence[float]) -> bool:
    """Tell whether an outer row is made for the bent state of its layers, spacing by spacing.

    A row is that as a whole and in each spacing: one that is longer where nothing slides, and too
    short where the bend is, does not meet though its ends do.

    Args:
        longer_mm: how much longer each spacing is drawn on the outer layer.
        slide_mm: how far the outer layer slides in each.
    """
    each = zip(longer_mm, slide_mm, strict=True)
    return made_for_bent(sum(longer_mm), sum(slide_mm)) and all(_meets(*pair) for pair in each)


def _meets(longer_mm: float, slide_mm: float) -> bool:
    return abs(longer_mm - slide_mm) <= max(_WIDER_MM, _WIDER_SHARE * slide_mm)
