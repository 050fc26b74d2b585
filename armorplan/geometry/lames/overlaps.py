"""What lies under a lame's neighbour as the limb bends: overlap left, gap opened, plates that touch."""

from collections.abc import Iterator
from functools import lru_cache
from math import inf

from armorplan.geometry.lames.articulation import slide_mm
from armorplan.geometry.lames.chains import Turn
from armorplan.geometry.lames.gaps import gap, gap_beside, open_at_rest
from armorplan.geometry.lames.inside import Touch, first_touch
from armorplan.geometry.lames.left import HARDLY_MM, capacity_deg, left_mm, opens
from armorplan.geometry.lames.links import CIRCLE, DRAWN, Link
from armorplan.geometry.lames.sides import Beside, worse_beside
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.workshop.constants import Constants

_FAR = 1.3
"""An edge that lies more levers than this from its pivots does not run round them."""


def _touches(turn: Turn, link: Link, touch: Touch) -> Finding | None:
    if turn.turn_deg is None or touch.turn_deg >= turn.turn_deg:
        return None
    outer, inner = link.outer.part.name, link.inner.part.name
    return Finding(
        code="lame-inside-touches",
        severity=Severity.NOTE,
        text=f"On the inside of the bend the {outer} and the {inner} touch after "
        f"{touch.turn_deg:.0f}° of {turn.turn_deg:.0f}°: {touch.gap_mm:.1f} mm lie between them "
        f"{touch.lever_mm:.0f} mm inward of the pivots.",
        remedy=f"Cut their edges there as a wedge of {turn.turn_deg:.0f}° from the pivot, or let one "
        "slide under the other.",
        about=(*link.parts, *link.joints),
    )


def _figures(turn: Turn, link: Link, overlap: float, constants: Constants) -> Iterator[Figure]:
    kept = constants.kept_cover
    lever = link.lever_mm
    yield Figure(name="overlap at rest", value=overlap, unit="mm", formula=DRAWN, source=DRAWN)
    yield link.lever_figure
    if turn.turn_deg is not None:
        slide = slide_mm(lever, turn.turn_deg)
        yield Figure(
            name="slide at the back",
            value=slide,
            unit="mm",
            formula=f"lever × angle = {lever:.1f} × {turn.turn_deg:.1f}° × π / 180 = {slide:.1f} mm",
            source=CIRCLE,
        )
        yield Figure(
            name="left under the neighbour",
            value=overlap - slide,
            unit="mm",
            formula=f"overlap - slide = {overlap:.1f} - {slide:.1f} = {overlap - slide:.1f} mm{_far(link, overlap)}",
            source=CIRCLE,
        )
    yield Figure(name=kept.name, value=kept.value, unit="mm", formula="as set", source=kept.source)
    opens, little = capacity_deg(turn), capacity_deg(turn, kept.value)
    yield Figure(
        name="turns before a gap opens",
        value=opens,
        unit="°",
        formula=f"overlap / lever = {overlap:.1f} / {lever:.1f} = {opens:.1f}°",
        source=CIRCLE,
    )
    yield Figure(
        name=f"turns while {kept.value:g} mm stay under",
        value=little,
        unit="°",
        formula=f"(overlap - {kept.value:g}) / lever = {little:.1f}°",
        source=CIRCLE,
    )


def _beside_figures(turn: Turn, link: Link, beside: Beside | None) -> Iterator[Figure]:
    if beside is None or turn.turn_deg is None:
        return
    where, wrap = beside.where, link.wrap
    yield Figure(
        name=f"overlap at rest, {where}",
        value=beside.overlap_mm,
        unit="mm",
        formula=f"{DRAWN}, on the {link.seat(turn.lower).part.name}",
        source=DRAWN,
    )
    yield Figure(
        name=f"slide {where}",
        value=beside.slide_mm,
        unit="mm",
        formula=f"lever = R × (cos a - cos(wrap / 2)) = {wrap.radius_mm:.1f} × (cos {beside.round_deg:.1f}° - "
        f"cos({wrap.wrap_deg / 2:.0f}°)) = {beside.lever_mm:.1f} mm; lever × angle = {beside.lever_mm:.1f} × "
        f"{turn.turn_deg:.1f}° × π / 180 = {beside.slide_mm:.1f} mm",
        source=CIRCLE,
    )
    yield Figure(
        name=f"left {where}",
        value=beside.left_mm,
        unit="mm",
        formula=f"overlap - slide = {beside.overlap_mm:.1f} - {beside.slide_mm:.1f} = {beside.left_mm:.1f} mm",
        source=CIRCLE,
    )


def _far(link: Link, overlap: float) -> str:
    """Return what is assumed of lames that lie over each other far for so small a lever."""
    if overlap <= link.lever_mm * _FAR:
        return ""
    return "; edges of so shallow a lame are taken to slide along the limb"


def _span(turn: Turn, overlap: float, left: float | None) -> tuple[float, str]:
    """Return what is measured at the lower plate's edge, in mm up from it, with its words.

    A gap lies beyond the edge: so much leather is missing there.
    """
    if overlap < 0:
        return -overlap, f"gap {-overlap:.1f} mm"
    if turn.turn_deg is None or left is None:
        return -overlap, f"{overlap:.1f} mm"
    if left < -HARDLY_MM:
        return -left, f"gap {-left:.1f} mm"
    return -left, f"{left:.1f} mm left"


def _marks(turn: Turn, link: Link, overlap: float, severity: Severity | None) -> Iterator[Mark]:
    lower, beside = link.seat(turn.lower), worse_beside(turn)
    across, left = 0.0, left_mm(turn)
    if beside is not None and overlap >= 0:
        across, overlap, left = beside.across_mm, beside.overlap_mm, beside.left_mm
    edges = lower.edges_mm(across)
    if edges is not None:
        up, label = _span(turn, overlap, None if severity is None else left)
        yield Mark(
            kind=MarkKind.SPAN,
            part=turn.lower,
            spots=(lower.drawn(across, edges[1]), lower.drawn(across, edges[1] + up)),
            label=label,
            severity=severity,
        )
    stretch = link.outer.span_mm / link.inner.span_mm
    ghost = tuple(
        link.outer.drawn(x * stretch, y) for x, y in map(link.inner.seen, link.inner.part.outline)
    )
    yield Mark(
        kind=MarkKind.GHOST, part=link.outer.part.id, spots=ghost, label=link.inner.part.name
    )


def _spare(link: Link) -> Finding:
    outer, inner = link.outer.part.name, link.inner.part.name
    return Finding(
        code="movement-too-many-pivots",
        severity=Severity.WARNING,
        text=f"{len(link.spare) + 2} turning joints hold the {outer} and the {inner}; plates turn about "
        "one axis, and two pivots lie on it.",
        remedy='Keep one pivot at each side; write motion = "sliding" for a post led in a slot, or '
        "leave it out.",
        about=(*link.parts, *link.joints, *link.spare),
    )


@lru_cache(maxsize=1024)
def overlap_measure(turn: Turn, measure_id: str, constants: Constants) -> Measure | None:
    """Return what two neighbours on pivots tell; ``None`` where no line of the back meets both."""
    link, overlap = turn.link, turn.overlap_mm
    if link is None or overlap is None:
        return None
    left = left_mm(turn)
    touch = first_touch(link, turn.upper, turn.lower)
    findings = [
        open_at_rest(turn, link, overlap, constants)
        if opens(overlap, constants)
        else None
        if left is None
        else gap(turn, link, left, constants),
        None if left is None else gap_beside(turn, link, left, constants),
        None if touch is None else _touches(turn, link, touch),
        _spare(link) if link.spare else None,
    ]
    found = tuple(finding for finding in findings if finding is not None)
    return Measure(
        id=measure_id,
        topic=Topic.LAMES,
        title=f"{link.outer.part.name} over {link.inner.part.name}",
        verdict=_verdict(turn, overlap, left, constants),
        text=_text(turn, link, overlap, constants),
        figures=(
            *_figures(turn, link, overlap, constants),
            *_beside_figures(turn, link, worse_beside(turn)),
            *_touch_figures(touch),
        ),
        findings=found,
        marks=tuple(_marks(turn, link, overlap, found[0].severity if found else None)),
        about=(*link.parts, *link.joints),
    )


def _verdict(turn: Turn, overlap: float, left: float | None, constants: Constants) -> str:
    if opens(overlap, constants):
        return f"{-overlap:.1f} mm open at rest"
    if turn.turn_deg is None or left is None:
        most = capacity_deg(turn)
        return f"turn {most:.0f}° before a gap opens" if most < inf else "never part"
    beside = worse_beside(turn)
    least, where = (left, "") if beside is None else (beside.left_mm, f", {beside.where}")
    if opens(least, constants):
        return f"a gap of {-least:.1f} mm opens{where}"
    words = "are all that stays under"
    if least >= constants.kept_cover.value - HARDLY_MM:
        words = "stay under"
    return f"{max(least, 0.0):.1f} mm {words}{where}"


def _text(turn: Turn, link: Link, overlap: float, constants: Constants) -> str:
    outer, inner, kept = link.outer.part.name, link.inner.part.name, constants.kept_cover.value
    rest = f"At rest the {outer} and the {inner} lie {overlap:.1f} mm over each other at the back."
    if turn.turn_deg is None:
        return (
            f"{rest} They turn {capacity_deg(turn):.0f}° before a gap opens, and {capacity_deg(turn, kept):.0f}° "
            f"while {kept:g} mm stay under."
        )
    slide = slide_mm(link.lever_mm, turn.turn_deg)
    return f"{rest} Turning by {turn.turn_deg:.1f}°, the edge slides {slide:.1f} mm, and " + (
        f"{overlap - slide:.1f} mm stay under."
        if overlap >= slide
        else f"comes free by {slide - overlap:.1f} mm."
    )


def _touch_figures(touch: Touch | None) -> Iterator[Figure]:
    if touch is not None:
        yield Figure(
            name="turns before the plates touch inside",
            value=touch.turn_deg,
            unit="°",
            formula=f"gap / lever = {touch.gap_mm:.1f} / {touch.lever_mm:.1f} = {touch.turn_deg:.1f}°",
            source=CIRCLE,
        )
