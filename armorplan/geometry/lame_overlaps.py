"""What lies under a lame's neighbour as the limb bends: overlap left, gap opened, plates that touch."""

from collections.abc import Iterator
from functools import lru_cache
from math import inf

from armorplan.geometry.articulation import overlap_needed_mm, slide_mm, turn_deg
from armorplan.geometry.lame_chains import Turn
from armorplan.geometry.lame_inside import Touch, first_touch
from armorplan.geometry.lame_links import CIRCLE, DRAWN, Link
from armorplan.geometry.lame_sides import least_beside
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.workshop.constants import Constants

LITTLE_COVER = "lame-little-cover"
_WORSE_MM = 1.0
"""By so much less has to be left beside the middle before it is told of its own."""
_HARDLY_MM = 0.05
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


def gravity(left: float, kept_mm: float) -> Severity | None:
    """Return how grave it is that so much is left at the end of the bend."""
    if left < -kept_mm:
        return Severity.ERROR
    if left < -_HARDLY_MM:
        return Severity.WARNING
    return Severity.NOTE if left < kept_mm - _HARDLY_MM else None


def _gap(turn: Turn, link: Link, left: float, constants: Constants) -> Finding | None:
    kept = constants.kept_cover.value
    severity = gravity(left, kept)
    if severity is None or turn.overlap_mm is None or turn.turn_deg is None:
        return None
    inner, outer = link.inner.part.name, link.outer.part.name
    short_mm = overlap_needed_mm(link.lever_mm, turn.turn_deg, kept) - turn.overlap_mm
    less_deg = turn.turn_deg - capacity_deg(turn, kept)
    if severity is Severity.NOTE:
        text = (
            f"Turned by {turn.turn_deg:.0f}°, {left:.1f} mm of the {inner} are left under the "
            f"{outer}; {kept:g} mm are usual."
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
        remedy=f"Deepen the {inner} or the {outer} by {short_mm:.1f} mm at the back where they lie over "
        f"each other, or let them turn {less_deg:.0f}° less.",
        about=(*link.parts, *link.joints),
    )


def _gap_beside(turn: Turn, link: Link, left: float, constants: Constants) -> Finding | None:
    """Return what is worse beside the middle of the back than in it."""
    beside, kept = least_beside(turn), constants.kept_cover.value
    if beside is None or beside.left_mm > left - _WORSE_MM:
        return None
    severity = gravity(beside.left_mm, kept)
    if severity in (None, gravity(left, kept)):
        return None
    outer, inner = link.outer.part.name, link.inner.part.name
    where = f"{abs(beside.across_mm):.0f} mm beside the middle of the back"
    little = severity is Severity.NOTE
    return Finding(
        code=LITTLE_COVER if little else "lame-gap-opens",
        severity=severity or Severity.NOTE,
        text=f"{where[:1].upper()}{where[1:]}, "
        + (
            f"{beside.left_mm:.1f} mm of the {inner} are left under the {outer}"
            if little
            else f"a gap of {-beside.left_mm:.1f} mm opens between the {outer} and the {inner}"
        )
        + f" when they turn by {turn.turn_deg or 0.0:.0f}°: {beside.overlap_mm:.1f} mm lie over each other "
        f"there at rest, and the edge slides {beside.slide_mm:.1f} mm.",
        remedy=f"Let the edge of one of them run fuller there, by {kept - beside.left_mm:.1f} mm.",
        about=(*link.parts, *link.joints),
    )


def _open_at_rest(link: Link, overlap: float) -> Finding:
    outer, inner = link.outer.part.name, link.inner.part.name
    return Finding(
        code="lame-gap-opens",
        severity=Severity.WARNING,
        text=f"Between the {outer} and the {inner} a gap of {-overlap:.1f} mm stands open at the back "
        "before they turn at all.",
        remedy=f"Deepen one of them at the back by {-overlap:.1f} mm and what they slide.",
        about=(*link.parts, *link.joints),
    )


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
            formula=f"overlap - slide = {overlap:.1f} - {slide:.1f} = {overlap - slide:.1f} mm",
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


def _marks(turn: Turn, link: Link, overlap: float, severity: Severity | None) -> Iterator[Mark]:
    lower = link.seat(turn.lower)
    edges = lower.edges_mm()
    if edges is not None:
        yield Mark(
            kind=MarkKind.SPAN,
            part=turn.lower,
            spots=(lower.drawn(0.0, edges[1]), lower.drawn(0.0, edges[1] - overlap)),
            label=f"{overlap:.1f} mm",
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
        _open_at_rest(link, overlap)
        if overlap < -_HARDLY_MM
        else None
        if left is None
        else _gap(turn, link, left, constants),
        None if left is None else _gap_beside(turn, link, left, constants),
        None if touch is None else _touches(turn, link, touch),
        _spare(link) if link.spare else None,
    ]
    found = tuple(finding for finding in findings if finding is not None)
    return Measure(
        id=measure_id,
        topic=Topic.LAMES,
        title=f"{link.outer.part.name} over {link.inner.part.name}",
        verdict=_verdict(turn, overlap, left, constants.kept_cover.value),
        text=_text(turn, link, overlap, constants),
        figures=(*_figures(turn, link, overlap, constants), *_touch_figures(touch)),
        findings=found,
        marks=tuple(_marks(turn, link, overlap, found[0].severity if found else None)),
        about=(*link.parts, *link.joints),
    )


def _verdict(turn: Turn, overlap: float, left: float | None, kept_mm: float) -> str:
    if overlap < 0:
        return f"{-overlap:.1f} mm open at rest"
    if turn.turn_deg is None or left is None:
        opens = capacity_deg(turn)
        return f"turn {opens:.0f}° before a gap opens" if opens < inf else "never part"
    if left < -_HARDLY_MM:
        return f"a gap of {-left:.1f} mm opens"
    words = "stay under" if left >= kept_mm - _HARDLY_MM else "are all that stays under"
    return f"{left:.1f} mm {words}"


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
        f"{overlap - slide:.1f} mm stay under." if overlap >= slide else "comes free."
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
