"""Plates on two pivots of which one is dished or closed: what the drawing still tells of their spans.

Shaping draws the rim of a plate in, so that its flat span does not tell whether the two nest. But
what is drawn in becomes shorter, not longer: a shaped plate outside has to be drawn as long as the
one under it at least, and one over a shaped plate no longer than its bend asks.
"""

from collections.abc import Iterator, Mapping
from collections.abc import Set as AbstractSet

from armorplan.geometry.lames.links import CIRCLE, DRAWN, Link, PairKey
from armorplan.geometry.lames.nests import Nest, nest
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.workshop.constants import Constants

_SEEN = 0.5
"""From this share of what soft leather forgives, spans that differ are told."""
_HARDLY_MM = 0.05
"""What is written as 0.0 mm."""


def shaped_measures(
    links: Mapping[PairKey, Link], swapped: AbstractSet[str], constants: Constants
) -> Iterator[Measure]:
    """Yield for each two plates of which one is dished or closed how their spans compare.

    Nothing is found against lames in each other's places, which is told already.
    """
    for key, link in sorted(links.items()):
        if link.drawn_in:
            told = nest(link)
            is_told = not swapped.isdisjoint(key)
            yield _measure(told, None if is_told else _gravity(told, constants))


def _measure(told: Nest, severity: Severity | None) -> Measure:
    link = told.link
    outer, inner = link.outer.part, link.inner.part
    return Measure(
        id=f"lames:spans:{outer.id}-{inner.id}",
        topic=Topic.LAMES,
        title=f"pivots of the {outer.name} on those of the {inner.name}",
        verdict=_verdict(told),
        text=f"{_spans(told)} Bent only, the {outer.name} would have to be {told.more_mm:.1f} mm longer; what is "
        "dished or closed is drawn in by it, and has to be longer by what that takes.",
        figures=tuple(_figures(told)),
        findings=() if severity is None else (_finding(told, severity),),
        about=(*link.parts, *link.joints),
    )


def _longer_mm(told: Nest) -> float:
    return told.outer_mm - told.inner_mm


def _out_mm(told: Nest) -> float:
    """Return how far the spans are out of what may be right: below 0 too short outside.

    Nothing is wrong where the other way about only the shaping could tell.
    """
    link = told.link
    if link.inner.part.id not in link.shaped:
        return min(0.0, _longer_mm(told))
    return max(0.0, told.off_mm) if link.outer.part.id not in link.shaped else 0.0


def _gravity(told: Nest, constants: Constants) -> Severity | None:
    out = _out_mm(told)
    forgiven = constants.soft_play.value if out > 0 else constants.short_lame.value
    if abs(out) <= forgiven * _SEEN:
        return None
    return Severity.NOTE if abs(out) <= forgiven else Severity.WARNING


def _verdict(told: Nest) -> str:
    longer = _longer_mm(told)
    if abs(longer) < _HARDLY_MM:
        return "as far apart"
    return f"outer {abs(longer):.1f} mm {'farther' if longer > 0 else 'less far'} apart"


def _spans(told: Nest) -> str:
    outer, inner = told.link.outer.part.name, told.link.inner.part.name
    return (
        f"The pivots of the {outer} lie {told.outer_mm:.1f} mm apart, those of the {inner} under it "
        f"{told.inner_mm:.1f} mm."
    )


def _finding(told: Nest, severity: Severity) -> Finding:
    link, out = told.link, _out_mm(told)
    outer, inner = link.outer.part.name, link.inner.part.name
    need = (
        f"What lies outside has to be as long at least, and shaping draws it in further; it is {-out:.1f} mm "
        "short."
        if out < 0
        else f"Round the {inner} {told.more_mm:.1f} mm more would do, and shaping draws that in; it is {out:.1f} mm "
        "too long and gapes."
    )
    way = "apart" if out < 0 else "together"
    return Finding(
        code="pivot-spans-differ",
        severity=severity,
        text=f"{_spans(told)} {need}",
        remedy=f"Set the pivots of the {outer} {abs(out):.1f} mm further {way}. In leather already cut, shape both "
        f"and try them on each other before the pivots of the {outer} are punched.",
        about=(*link.parts, *link.joints),
    )


def _figures(told: Nest) -> Iterator[Figure]:
    link = told.link
    yield Figure(
        name="outer span is longer by",
        value=_longer_mm(told),
        unit="mm",
        formula=f"{told.outer_mm:.1f} - {told.inner_mm:.1f} = {_longer_mm(told):.1f} mm",
        source=DRAWN,
    )
    yield Figure(
        name="bent only, longer by",
        value=told.more_mm,
        unit="mm",
        formula=f"d × angle = {link.apart_mm:.2f} × {link.wrap.wrap_deg:.0f}° × π / 180 = {told.more_mm:.1f} mm",
        source=CIRCLE,
    )
