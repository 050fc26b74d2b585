"""Bends of lames whose radius their own pivots do not agree with: which of the two is right?"""

from collections import defaultdict
from collections.abc import Mapping
from math import radians

from armorplan.geometry.lames.links import Link, PairKey
from armorplan.geometry.lames.seats import Seat
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Form, FormKind
from armorplan.pattern.parts import Part, PartKind
from armorplan.pattern.pattern import Pattern

_SHARE, _LEAST_MM = 0.85, 3.0
"""A radius is another one below this share of what the pivots ask for, and by so much at least."""
_FULL_DEG = 360.0


def bends_of(pattern: Pattern) -> dict[str, Form]:
    """Return the bend of each part that has one alone, with its radius and its angle."""
    found: dict[str, list[Form]] = defaultdict(list)
    for form in pattern.forms:
        if form.kind is FormKind.BEND and form.angle_deg and form.radius_mm is not None:
            for part_id in form.parts:
                found[part_id].append(form)
    return {part: forms[0] for part, forms in found.items() if len(forms) == 1}


def allowance_mm(bend: Form, part: Part) -> float | None:
    """Return how far a bend takes the middle of the leather round; ``None`` where it does not say."""
    angle = min(bend.angle_deg or 0.0, _FULL_DEG)
    if bend.radius_mm is None or angle <= 0:
        return None
    return radians(angle) * (bend.radius_mm + part.thickness_mm / 2)


def radius_findings(pattern: Pattern, links: Mapping[PairKey, Link]) -> dict[str, Finding]:
    """Return for each lame whose bend is much tighter than its pivots ask for what is told of it.

    A wider one is no fault: the bend runs on beyond the pivots.
    """
    bends = bends_of(pattern)
    found: dict[str, Finding] = {}
    for link in links.values():
        for seat in (link.inner, link.outer):
            part = seat.part
            if part.kind is PartKind.LAME and not link.drawn_in and part.id in bends:
                told = _told(seat, bends[part.id])
                if told is not None:
                    found.setdefault(part.id, told)
    return found


def _told(seat: Seat, form: Form) -> Finding | None:
    said, angle = form.radius_mm, min(form.angle_deg or 0.0, _FULL_DEG)
    if said is None or angle <= 0:
        return None
    asked = seat.girth_mm / radians(angle) - seat.part.thickness_mm / 2
    if said > asked * _SHARE or asked - said < _LEAST_MM:
        return None
    holes = (seat.first.id, seat.second.id)
    name = seat.part.name
    return Finding(
        code="lame-radius-disagrees",
        severity=Severity.NOTE,
        text=f"The bend of the {name} says an inner radius of {said:.0f} mm, its pivots {asked:.0f} mm: "
        f"{seat.girth_mm:.1f} mm from '{holes[0]}' to '{holes[1]}' round {angle:.0f}° are a radius of {asked:.0f} mm "
        "inside. Its overlap is reckoned by the pivots.",
        remedy=f"On the drawing, say the radius or the angle that the {name} is bent to, or set its pivots "
        f"{(asked - said) * radians(angle):.1f} mm nearer to each other. Leather already cut is bent to "
        f"{asked:.0f} mm; bent tighter, straight legs are left between the bend and the pivots, and it stands deeper.",
        about=(seat.part.id, form.id, *holes),
    )
