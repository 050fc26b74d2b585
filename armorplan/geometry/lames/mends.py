"""How two plates that do not nest are mended, on the drawing and in cut leather."""

from math import radians

from armorplan.geometry.lames.blame import Blame
from armorplan.geometry.lames.nests import Nest
from armorplan.pattern.parts import Part

_APART = 1.5
"""A hole punched nearer than so many diameters to an old one tears into it (common practice)."""
_MOST_WASHERS_MM = 4.0
"""More than that between two plates is no mend (common practice, no source)."""


def turn_round(told: Nest) -> str:
    """Return the mend of two plates whose stacks are both listed the wrong way round."""
    outer, inner = told.link.outer.part.name, told.link.inner.part.name
    one, other = told.link.joints
    return (
        f"List the {inner} first in both stacks, '{one}' and '{other}': with the {inner} outside they fit to "
        f"{abs(told.other_way.off_mm):.1f} mm. In leather already cut, lay the {inner} over the {outer}."
    )


def mend(told: Nest, blamed: Blame | None, *, tight: bool) -> str:
    """Return how to mend the plate that is off, or either; cut leather that only goes on tight may stay."""
    outer, inner = told.link.outer.part, told.link.inner.part
    guilty = (outer, inner) if blamed is None else (blamed.seat.part,)
    stay = "leave it so if it turns freely, or " if tight else ""
    return f"{_drawn(told, guilty)} In leather already cut, {stay}{_cut(told, guilty)}."


def _drawn(told: Nest, guilty: tuple[Part, ...]) -> str:
    by_mm, short = abs(told.off_mm) / 2, told.off_mm < 0
    first, *others = guilty
    outward = short == (first.id == told.link.outer.part.id)
    way, back = ("out", "in") if outward else ("in", "out")
    other = f", or those of the {others[0].name} as far {back}" if others else ""
    return (
        f"On the drawing, set the pivots of the {first.name} {by_mm:.1f} mm further {way} on either side"
        f"{other}."
    )


def _cut(told: Nest, guilty: tuple[Part, ...]) -> str:
    """Return how to mend cut leather: a span is made shorter by other holes, never longer."""
    too_long = told.link.inner.part if told.off_mm < 0 else told.link.outer.part
    how = (
        _anew(too_long.name, told)
        if too_long in guilty
        else f"make the {guilty[0].name} anew, {abs(told.off_mm):.1f} mm longer from pivot to pivot"
    )
    return _washers(told) + how


def _anew(plate: str, told: Nest) -> str:
    """Return how to bring the pivots of a cut plate nearer to each other."""
    by_mm = abs(told.off_mm) / 2
    apart = by_mm >= told.link.inner.first.diameter_mm * _APART
    how = (
        " and plug the old holes" if apart else ", the old holes plugged first, or make them oval"
    )
    return f"punch the pivots of the {plate} anew {by_mm:.1f} mm further in on either side{how}"


def _washers(told: Nest) -> str:
    """Return what washers do where an outer plate is too long; nothing where they do not help."""
    washer = told.off_mm / radians(told.link.wrap.wrap_deg)
    if not 0 < washer <= _MOST_WASHERS_MM:
        return ""
    return f"put {washer:.1f} mm more of washers between the two at each pivot, so that it stands off evenly; or "
