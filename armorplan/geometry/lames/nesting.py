"""Whether lames nest: the outer one longer by what it lies further out, times the angle it wraps."""

from collections.abc import Iterator, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from math import pi, radians, sin

from armorplan.geometry.lames.articulation import bowed_mm
from armorplan.geometry.lames.links import CIRCLE, Link, PairKey
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.workshop.constants import Constants

_SEEN = 0.5
"""From this share of the play that soft leather has on, a bow or what is missing is told."""
_HARDLY_MM = 0.05
"""What is written as 0.0 mm."""
_APART = 1.5
"""A hole punched nearer than so many diameters to an old one tears into it (common practice)."""

_MOST_WASHERS_MM = 4.0
"""More than that between two plates is no mend (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Nest:
    """The spans of two plates on each other, both screwed at the same two pivots.

    The inner plate lies on the limb and keeps its bend. Each pivot runs square through both
    leathers, so that the ends of the outer plate are held d further out than those of the inner.
    Between them the outer plate can only stand as far off as its own length lets it.
    """

    link: Link
    outer_mm: float
    inner_mm: float

    @property
    def more_mm(self) -> float:
        """By how much the outer span has to be longer."""
        return self.link.apart_mm * radians(self.link.wrap.wrap_deg)

    @property
    def off_mm(self) -> float:
        """By how much the outer span is longer than it has to be; below 0 shorter."""
        return self.outer_mm - self.inner_mm - self.more_mm

    @property
    def chord_mm(self) -> float:
        """The straight way between the pivots at the outer plate: 2 (R + d) sin(wrap / 2)."""
        angle = radians(self.link.wrap.wrap_deg)
        radius = self.inner_mm / angle + self.link.apart_mm
        return 2 * radius * sin(min(angle / 2, pi))

    @property
    def stands_mm(self) -> float:
        """How far the middle of the outer plate stands off the line between its pivots, in mm."""
        return bowed_mm(self.outer_mm, self.chord_mm)

    @property
    def fits_mm(self) -> float:
        """How far it would stand off with the right length, on the inner plate all the way."""
        return bowed_mm(self.outer_mm - self.off_mm, self.chord_mm)

    @property
    def bow_mm(self) -> float:
        """How far it stands off the plate under it; below 0 it comes short of going over it."""
        return self.stands_mm - self.fits_mm


def nest(link: Link) -> Nest:
    """Return two plates as they are drawn."""
    return Nest(link=link, outer_mm=link.outer.girth_mm, inner_mm=link.inner.girth_mm)


def flat(links: Mapping[PairKey, Link]) -> dict[PairKey, Link]:
    """Return the links whose spans on the flat leather tell their girth."""
    return {key: link for key, link in links.items() if not link.drawn_in}


def gravity(told: Nest, constants: Constants) -> Severity | None:
    """Return how grave it is that two plates do not nest.

    One too long only stands off, and is judged by its bow; one too short is judged by what is
    missing: it goes over the plate under it only by crushing it.
    """
    if told.off_mm > 0:
        play = constants.soft_play.value
        return _graded(told.bow_mm, (play * _SEEN, play, None))
    short, bad = constants.short_lame.value, constants.bad_short_lame.value
    return _graded(-told.off_mm, (short * _SEEN, short, bad))


def _graded(mm: float, limits: tuple[float, float, float | None]) -> Severity | None:
    note, warning, error = limits
    if error is not None and mm > error:
        return Severity.ERROR
    if mm > warning:
        return Severity.WARNING
    return Severity.NOTE if mm > note else None


def _finding(told: Nest, constants: Constants) -> Finding | None:
    severity = gravity(told, constants)
    if severity is None:
        return None
    outer, inner = told.link.outer.part.name, told.link.inner.part.name
    off, short = abs(told.off_mm), told.off_mm < 0
    effect = (
        f"It is {off:.1f} mm too short and does not go over the {inner}: it pinches and binds. Screwed at the "
        f"same pivots, its back comes {-told.bow_mm:.1f} mm short of lying on the {inner}."
        if short
        else f"It is {off:.1f} mm too long and gapes: between the pivots it bows {told.bow_mm:.1f} mm off the "
        f"{inner}."
    )
    return Finding(
        code="lames-do-not-nest",
        severity=severity,
        text=f"From pivot to pivot the {outer} has to be {told.more_mm:.1f} mm longer than the {inner} under it, "
        f"and is {_longer(told)}. {effect}",
        remedy=_drawn(told) + (_cut_short(told) if short else _cut_long(told)),
        about=(*told.link.parts, *told.link.joints),
    )


def _longer(told: Nest) -> str:
    more = told.outer_mm - told.inner_mm
    if abs(more) < _HARDLY_MM:
        return "as long"
    return f"{abs(more):.1f} mm {'longer' if more > 0 else 'shorter'}"


def _drawn(told: Nest) -> str:
    outer, inner = told.link.outer.part.name, told.link.inner.part.name
    way, other = ("out", "in") if told.off_mm < 0 else ("in", "out")
    return (
        f"On the drawing, set the pivots of the {outer} {abs(told.off_mm) / 2:.1f} mm further {way} on either "
        f"side, or those of the {inner} as far {other}."
    )


def _anew(plate: str, told: Nest) -> str:
    """Return how to bring the pivots of a cut plate nearer to each other."""
    by_mm = abs(told.off_mm) / 2
    apart = by_mm >= told.link.inner.first.diameter_mm * _APART
    how = (
        " and plug the old holes" if apart else ", the old holes plugged first, or make them oval"
    )
    return f"punch the pivots of the {plate} anew {by_mm:.1f} mm further in on either side{how}"


def _cut_short(told: Nest) -> str:
    return f" In leather already cut, {_anew(told.link.inner.part.name, told)}."


def _cut_long(told: Nest) -> str:
    washer = told.off_mm / radians(told.link.wrap.wrap_deg)
    shim = (
        f"put {washer:.1f} mm more of washers between the two at each pivot, so that it stands off evenly; or "
        if washer <= _MOST_WASHERS_MM
        else ""
    )
    return f" In leather already cut, {shim}{_anew(told.link.outer.part.name, told)}."


def _figures(told: Nest) -> Iterator[Figure]:
    link = told.link
    yield Figure(
        name="outer span has to be longer by",
        value=told.more_mm,
        unit="mm",
        formula=f"d × angle = {link.apart_mm:.2f} × {link.wrap.wrap_deg:.0f}° × π / 180 = {told.more_mm:.1f} mm; "
        "d from the middle of one leather to the other, which lie on each other at the back",
        source=CIRCLE,
    )
    yield Figure(
        name="it is longer by",
        value=told.outer_mm - told.inner_mm,
        unit="mm",
        formula=f"{told.outer_mm:.1f} - {told.inner_mm:.1f} = {told.outer_mm - told.inner_mm:.1f} mm",
        source="measured on the drawing",
    )
    yield Figure(
        name="outer pivots apart, once bent",
        value=told.chord_mm,
        unit="mm",
        formula=f"chord = 2 × (R + d) × sin(wrap / 2) = 2 × ({link.wrap.radius_mm:.1f} + {link.apart_mm:.2f}) × "
        f"sin({link.wrap.wrap_deg / 2:.0f}°) = {told.chord_mm:.1f} mm",
        source=CIRCLE,
    )
    yield Figure(
        name="comes short of going over by" if told.bow_mm < -_HARDLY_MM else "bow",
        value=abs(told.bow_mm),
        unit="mm",
        formula=f"sin h / h = chord / arc; height = (1 - cos h) × arc / 2h: an arc of {told.outer_mm:.1f} mm stands "
        f"{told.stands_mm:.1f} mm off its chord, one of {told.outer_mm - told.off_mm:.1f} mm would stand "
        f"{told.fits_mm:.1f} mm off = {abs(told.bow_mm):.1f} mm {'more' if told.off_mm > 0 else 'less'}",
        source=CIRCLE,
    )


def _verdict(told: Nest, severity: Severity | None) -> str:
    if severity is None:
        return "nest"
    if told.off_mm > 0:
        return f"outer {told.off_mm:.1f} mm too long: bows by {told.bow_mm:.1f} mm"
    return f"outer {-told.off_mm:.1f} mm too short: it pinches"


def _within(told: Nest) -> str:
    off = abs(told.off_mm)
    if off < _HARDLY_MM:
        return "It is."
    way, at_back = ("long", "off it") if told.off_mm > 0 else ("short", "short of going over it")
    return (
        f"It is {off:.1f} mm too {way}; its back would stand {abs(told.bow_mm):.1f} mm {at_back}."
    )


def nesting_measures(
    links: Mapping[PairKey, Link], explained: AbstractSet[PairKey], constants: Constants
) -> Iterator[Measure]:
    """Yield for each two plates that are not dished whether they nest; of some that is told already."""
    for key, link in sorted(flat(links).items()):
        told = nest(link)
        found = None if key in explained else _finding(told, constants)
        outer, inner = link.outer.part.name, link.inner.part.name
        yield Measure(
            id=f"lames:nest:{link.outer.part.id}-{link.inner.part.id}",
            topic=Topic.LAMES,
            title=f"{outer} round {inner}",
            verdict=_verdict(told, gravity(told, constants)),
            text=f"Bent together, the {outer} has to be {told.more_mm:.1f} mm longer from pivot to pivot than the "
            f"{inner}. {_within(told)}",
            figures=tuple(_figures(told)),
            findings=() if found is None else (found,),
            about=(*link.parts, *link.joints),
        )
