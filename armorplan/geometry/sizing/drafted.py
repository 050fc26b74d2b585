"""A pattern in its new size with how each part came to it, and a part before and after."""

from collections.abc import Mapping
from dataclasses import dataclass

from armorplan.geometry.sizing.model import Factors, PartSized, Sized
from armorplan.geometry.sizing.stretches import Stretch, box_mm
from armorplan.pattern.parts import Part, Point

_DIGITS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Drafted:
    """A pattern in its new size, with how each part came to it."""

    sized: Sized
    stretches: Mapping[str, Stretch]


def told_of(was: Part, now: Part, factors: Factors) -> PartSized:
    """Return a part before and after."""
    return PartSized(
        part=was.id,
        factors=factors,
        before=was.outline,
        after=now.outline,
        before_mm=box_mm(was.outline, was.up_deg),
        after_mm=box_mm(now.outline, now.up_deg),
    )


def rounded(spot: Point) -> Point:
    """Return a spot as it is written: to a thousandth of a millimetre."""
    return round(spot[0], _DIGITS), round(spot[1], _DIGITS)
