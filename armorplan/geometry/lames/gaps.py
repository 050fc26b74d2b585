"""Gaps that open between lames at the end of the bend, or little that stays under: told with the mend."""

from armorplan.geometry.lames.articulation import overlap_needed_mm, slide_mm, turn_deg
from armorplan.geometry.lames.chains import Turn
from armorplan.geometry.lames.links import Link
from armorplan.geometry.lames.sides import least_beside
from armorplan.kernel.findings import Finding, Severity
from armorplan.workshop.constants import Constants

LITTLE_COVER = "lame-little-cover"
_WORSE_MM = 1.0
"""By so much less has to be left beside the middle before it is told of its own."""
HARDLY_MM = 0.05
"""Below this nothing is missing: a drawing is flattened to as much."""


def capacity_deg(turn: Turn, kept_mm: float = 0.0) -> float:
    """Return how far two neighbours turn before no more than this lies under; 0 without a link."""
    if turn.link is None or turn.overlap_mm is None:
        return 0.0
    return turn_deg(max(0.0, turn.overlap_mm - kept_mm), turn.link.lever_mm)


def left_mm(turn: Turn, share: float = 1.0) -> float | None:
    """Return what lies under the neighbour when so much of the movement is done; below 0 a gap."""
    if turn.link is None or turn.overlap_mm is None:
        return None
    return turn.overlap_mm - slide_mm(turn.link.lever_mm, (turn.turn_deg or 0.0) * share)


def gravity(left: float, constants: Constants) -> Severity | None:
    """Return how grave it is that so much is left at the end of the bend.

    What punch and leather make up in a spacing is no gap either: the edges come level.
    """
    kept_mm = constants.kept_cover.value
    if left < -kept_mm:
        return Severity.ERROR
    if left < -constants.misfit.value:
        return Severity.WARNING
    return Severity.NOTE if left < kept_mm - HARDLY_MM else None


def gap(turn: Turn, link: Link, left: float, constants: Constants) -> Finding | None:
    """Return what is told of the middle of the back at the end of the bend."""
    severity = gravity(left, constants)
    if severity is None or turn.overlap_mm is None or turn.turn_deg is None:
        return None
    inner, outer = link.inner.part.name, link.outer.part.name
    if severity is Severity.NOTE:
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
        code=LITTLE_COVER if severity is Severity.NOTE else "lame-gap-opens",
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
    if left < -constants.misfit.value:
        less += f" ({turned - capacity_deg(turn):.0f}° less just closes it)"
    return (
        f"On the drawing, deepen the {inner} or the {outer} by {deeper:.1f} mm at the back where they "
        f"lie over each other{_made_of(left, kept)}. In leather already cut, let them turn {less} by a stop strap or a shorter "
        f"inner leather, or make the {inner} anew and deeper."
    )


def gap_beside(turn: Turn, link: Link, left: float, constants: Constants) -> Finding | None:
    """Return what is worse beside the middle of the back than in it."""
    beside, kept = least_beside(turn), constants.kept_cover.value
    if beside is None or beside.left_mm > left - _WORSE_MM:
        return None
    severity = gravity(beside.left_mm, constants)
    if severity in (None, gravity(left, constants)):
        return None
    outer, inner = link.outer.part.name, link.inner.part.name
    where = f"{abs(beside.across_mm):.0f} mm beside the middle of the back"
    little = severity is Severity.NOTE
    return Finding(
        code=LITTLE_COVER if little else "lame-gap-opens",
        severity=severity or Severity.NOTE,
        text=f"{where[:1].upper()}{where[1:]}, "
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
