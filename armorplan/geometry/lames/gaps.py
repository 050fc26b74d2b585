"""Gaps that open between lames at the end of the bend, or little that stays under: told with the mend."""

from armorplan.geometry.lames.articulation import overlap_needed_mm, slide_mm
from armorplan.geometry.lames.chains import Turn
from armorplan.geometry.lames.left import capacity_deg, gravity, opens
from armorplan.geometry.lames.links import Link
from armorplan.geometry.lames.sides import worse_beside
from armorplan.kernel.findings import Finding, Severity
from armorplan.workshop.constants import Constants

LITTLE_COVER = "lame-little-cover"


def gap(turn: Turn, link: Link, left: float, constants: Constants) -> Finding | None:
    """Return what is told of the middle of the back at the end of the bend."""
    severity = gravity(left, constants)
    if severity is None or turn.overlap_mm is None or turn.turn_deg is None:
        return None
    inner, outer = link.inner.part.name, link.outer.part.name
    little = not opens(left, constants)
    if little:
        text = (
            f"Turned by {turn.turn_deg:.0f}°, {max(left, 0.0):.1f} mm of the {inner} are left under the "
            f"{outer}; {constants.kept_cover.value:g} mm are usual."
        )
    else:
        text = (
            f"A gap of {-left:.1f} mm opens at the back between the {outer} and the {inner} when they "
            f"turn by {turn.turn_deg:.0f}°: {turn.overlap_mm:.1f} mm lie over each other at rest, and the "
            f"edge slides {slide_mm(link.lever_mm, turn.turn_deg):.1f} mm."
        )
    return Finding(
        code=LITTLE_COVER if little else "lame-gap-opens",
        severity=severity,
        text=text,
        remedy=_remedy(turn, link, left, constants),
        about=(*link.parts, *link.joints),
    )


def _remedy(turn: Turn, link: Link, left: float, constants: Constants) -> str:
    """Return the mend: for the drawing what closes the gap and what stays under, and for cut leather."""
    kept = constants.kept_cover.value
    inner, outer = link.inner.part.name, link.outer.part.name
    turned = turn.turn_deg or 0.0
    deeper = overlap_needed_mm(link.lever_mm, turned, kept) - (turn.overlap_mm or 0.0)
    less = f"{turned - capacity_deg(turn, kept):.0f}° less"
    if opens(left, constants):
        less += f" ({turned - capacity_deg(turn):.0f}° less just closes it)"
    return (
        f"On the drawing, deepen the {inner} or the {outer} by {deeper:.1f} mm at the back where they "
        f"lie over each other{_made_of(left, kept)}. In leather already cut, let them turn {less} by a stop strap or a shorter "
        f"inner leather, or make the {inner} anew and deeper."
    )


def gap_beside(turn: Turn, link: Link, left: float, constants: Constants) -> Finding | None:
    """Return what is worse beside the middle of the back than in it."""
    beside, kept = worse_beside(turn), constants.kept_cover.value
    if beside is None:
        return None
    severity = gravity(beside.left_mm, constants)
    if severity in (None, gravity(left, constants)):
        return None
    outer, inner = link.outer.part.name, link.inner.part.name
    where = f"{beside.where} of the back, measured on the {link.seat(turn.lower).part.name}"
    little = not opens(beside.left_mm, constants)
    return Finding(
        code=LITTLE_COVER if little else "lame-gap-opens",
        severity=severity or Severity.NOTE,
        text=f"{where}, "
        + (
            f"{max(beside.left_mm, 0.0):.1f} mm of the {inner} are left under the {outer}"
            if little
            else f"a gap of {-beside.left_mm:.1f} mm opens between the {outer} and the {inner}"
        )
        + f" when they turn by {turn.turn_deg or 0.0:.0f}°: {beside.overlap_mm:.1f} mm lie over each other "
        f"there at rest, and the edge slides {beside.slide_mm:.1f} mm.",
        remedy=f"On the drawing, let the edge of one of them run fuller there, by {kept - beside.left_mm:.1f} mm"
        f"{_made_of(beside.left_mm, kept)}. In leather already cut, let them turn less by a stop strap, or "
        f"make the {inner} anew.",
        about=(*link.parts, *link.joints),
    )


def _made_of(left: float, kept: float) -> str:
    return f": {-left:.1f} mm of the gap and {kept:g} mm that stay under" if left < 0 else ""


def open_at_rest(turn: Turn, link: Link, overlap: float, constants: Constants) -> Finding:
    """Return what is told of two plates that stand apart before they turn."""
    outer, inner = link.outer.part.name, link.inner.part.name
    kept, slide = constants.kept_cover.value, slide_mm(link.lever_mm, turn.turn_deg or 0.0)
    parts = [f"{-overlap:.1f} mm of the gap"]
    if slide:
        parts.append(f"{slide:.1f} mm that they slide")
    parts.append(f"{kept:g} mm that stay under")
    return Finding(
        code="lame-gap-opens",
        severity=Severity.WARNING,
        text=f"Between the {outer} and the {inner} a gap of {-overlap:.1f} mm stands open at the back "
        "before they turn at all.",
        remedy=f"On the drawing, deepen one of them at the back by {kept + slide - overlap:.1f} mm: "
        f"{', '.join(parts[:-1])} and {parts[-1]}. In leather already cut, make one of them anew, or "
        "put another lame between.",
        about=(*link.parts, *link.joints),
    )
