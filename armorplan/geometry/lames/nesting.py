"""Whether lames nest: the outer one longer by what it lies further out, times the angle it wraps."""

from collections.abc import Iterator, Mapping
from collections.abc import Set as AbstractSet

from armorplan.geometry.lames.blame import Blame, blame
from armorplan.geometry.lames.links import CIRCLE, Link, PairKey
from armorplan.geometry.lames.mends import mend, turn_round
from armorplan.geometry.lames.nests import Nest, flat, gravity, nest
from armorplan.geometry.lames.radii import bends_of
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

_HARDLY_MM = 0.05
"""What is written as 0.0 mm."""


def _finding(
    told: Nest, severity: Severity, blamed: Blame | None, constants: Constants
) -> Finding:
    turned = _is_reversed(told, constants)
    why = "" if blamed is None or turned else f" {blamed.words}"
    return Finding(
        code="lames-do-not-nest",
        severity=severity,
        text=f"From pivot to pivot the {told.link.outer.part.name} has to be {told.more_mm:.1f} mm longer than the "
        f"{told.link.inner.part.name} under it, and is {_longer(told)}. {_effect(told, severity)}{why}",
        remedy=turn_round(told) if turned else mend(told, blamed, tight=_is_tight(told, severity)),
        about=(*told.link.parts, *told.link.joints),
    )


def _is_reversed(told: Nest, constants: Constants) -> bool:
    """Tell whether two plates that do not nest would with the inner one outside."""
    return gravity(told, constants) is not None and gravity(told.other_way, constants) is None


def _is_tight(told: Nest, severity: Severity) -> bool:
    """Tell whether the outer plate is short, but so little that it still goes on."""
    return told.off_mm < 0 and severity is Severity.NOTE


def _effect(told: Nest, severity: Severity) -> str:
    off, inner = abs(told.off_mm), told.link.inner.part.name
    if told.off_mm > 0:
        return (
            f"It is {off:.1f} mm too long and gapes: between the pivots it bows {told.bow_mm:.1f} mm off the "
            f"{inner}."
        )
    if _is_tight(told, severity):
        return f"It is {off:.1f} mm short: it goes on tight."
    return (
        f"It is {off:.1f} mm too short and does not go over the {inner}: it pinches and binds. Screwed at the "
        f"same pivots, its back comes {-told.bow_mm:.1f} mm short of lying on the {inner}."
    )


def _longer(told: Nest) -> str:
    more = told.outer_mm - told.inner_mm
    if abs(more) < _HARDLY_MM:
        return "as long"
    return f"{abs(more):.1f} mm {'longer' if more > 0 else 'shorter'}"


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


def _verdict(told: Nest, constants: Constants) -> str:
    severity = gravity(told, constants)
    if severity is None:
        return "nest"
    if _is_reversed(told, constants):
        return f"nest the other way about: {told.link.inner.part.name} outside"
    if told.off_mm > 0:
        return f"outer {told.off_mm:.1f} mm too long: bows by {told.bow_mm:.1f} mm"
    if _is_tight(told, severity):
        return f"outer {-told.off_mm:.1f} mm short: goes on tight"
    return f"outer {-told.off_mm:.1f} mm too short: it pinches"


def _within(told: Nest) -> str:
    off = abs(told.off_mm)
    if off < _HARDLY_MM:
        return "It is."
    way, at_back = ("long", "off it") if told.off_mm > 0 else ("short", "short of going over it")
    return (
        f"It is {off:.1f} mm too {way}; its back would stand {abs(told.bow_mm):.1f} mm {at_back}."
    )


def blames(
    pattern: Pattern, links: Mapping[PairKey, Link], constants: Constants
) -> dict[PairKey, Blame]:
    """Return for each two plates that do not nest which is off, where something tells it."""
    level, bends = flat(links), bends_of(pattern)
    found: dict[PairKey, Blame] = {}
    for key, link in level.items():
        told = nest(link)
        if gravity(told, constants) is not None and not _is_reversed(told, constants):
            blamed = blame(told, level, bends, constants)
            if blamed is not None:
                found[key] = blamed
    return found


def nesting_measures(
    links: Mapping[PairKey, Link],
    blamed: Mapping[PairKey, Blame],
    explained: AbstractSet[PairKey],
    constants: Constants,
) -> Iterator[Measure]:
    """Yield for each two plates that are not dished whether they nest; of some that is told already."""
    for key, link in sorted(flat(links).items()):
        told = nest(link)
        severity = None if key in explained else gravity(told, constants)
        outer, inner = link.outer.part.name, link.inner.part.name
        yield Measure(
            id=f"lames:nest:{link.outer.part.id}-{link.inner.part.id}",
            topic=Topic.LAMES,
            title=f"{outer} round {inner}",
            verdict=_verdict(told, constants),
            text=f"Bent together, the {outer} has to be {told.more_mm:.1f} mm longer from pivot to pivot than the "
            f"{inner}. {_within(told)}",
            figures=tuple(_figures(told)),
            findings=()
            if severity is None
            else (_finding(told, severity, blamed.get(key), constants),),
            about=(*link.parts, *link.joints),
        )
