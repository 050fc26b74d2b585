"""Straight rows that lead from part to part and back: along themselves they have to come out even.

Two plates with two hinges, or the halves of a tube with a strip between them: what one row lies
ahead of the next adds up to nothing all the way round, however the parts are bent about an axis
along the rows. Where it does not, one row lies shifted.
"""

from collections.abc import Iterator
from typing import NamedTuple

from armorplan.geometry.bends.lines import crosses
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.rows.bends import shape
from armorplan.geometry.rows.rings import Way
from armorplan.geometry.rows.shear import PARALLEL, STRAIGHT, bow, middle, unit
from armorplan.geometry.sources import MEASURED
from armorplan.geometry.told import listed
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Point
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

_PAIR = 2
_SHARE = 0.002
_BENT_SHARE = 0.1
"""Bent across the rows, or about an axis that is not written, a way may be this much longer."""


class Leg(NamedTuple):
    """The way through one part, from the middle of the row before to that of the row beyond.

    Attributes:
        along_mm: how far the second row lies ahead of the first.
        middles: where the middles lie on the part.
        slack_mm: by how much it may differ once the part is bent.
    """

    part: str
    seams: tuple[str, str]
    along_mm: float
    middles: tuple[Point, Point]
    slack_mm: float


def loop_measure(pattern: Pattern, way: Way, constants: Constants) -> Measure | None:
    """Return how rows come out along themselves round a ring; ``None`` where that tells nothing.

    Rows of two parts are read against each other elsewhere.
    """
    legs = _legs(pattern, way) if len(way) > _PAIR else []
    if not legs:
        return None
    off_mm = sum(leg.along_mm for leg in legs)
    finding = _shifted(pattern, legs, off_mm, constants)
    names = [pattern.part(leg.part).name for leg in legs]
    return Measure(
        id=f"rows:loop:{'+'.join(leg.part for leg in legs)}",
        topic=Topic.ROWS,
        title=f"rows round {listed(names)}",
        verdict=f"out by {abs(off_mm):.1f} mm" if finding else "come out even",
        text=finding.text
        if finding
        else f"From row to row round {listed(names)} it comes out even to {abs(off_mm):.1f} mm "
        "along the rows.",
        figures=tuple(_figures(pattern, legs, off_mm)),
        findings=(finding,) if finding else (),
        marks=tuple(_marks(legs, finding)),
        about=_about(legs),
    )


def _legs(pattern: Pattern, way: Way) -> list[Leg]:
    """Return the ways through the parts; empty where rows are curved, or not parallel to another."""
    legs: list[Leg] = []
    turned = False
    for (part, onward), (_, before) in zip(way, (way[-1], *way[:-1]), strict=True):
        one, other = before.spots(part), onward.spots(part)
        one = one[::-1] if turned else one
        (ux, uy), (vx, vy) = unit(one), unit(other)
        cosine = ux * vx + uy * vy
        if abs(cosine) < PARALLEL or max(bow(one), bow(other)) > STRAIGHT:
            return []
        turned = cosine < 0
        middles = middle(one), middle(other)
        along_mm = (middles[1][0] - middles[0][0]) * ux + (middles[1][1] - middles[0][1]) * uy
        legs.append(
            Leg(
                part=part,
                seams=(before.seam, onward.seam),
                along_mm=along_mm,
                middles=middles,
                slack_mm=abs(along_mm) * _share(pattern, part, (ux, uy)),
            )
        )
    return [] if turned else legs


def _share(pattern: Pattern, part_id: str, along: Point) -> float:
    form, shaped = shape(pattern, part_id)
    if not shaped:
        return _SHARE
    axis = form.axis if form is not None else None
    if axis is None or not crosses(axis, pattern.part(part_id)):
        return _BENT_SHARE
    x, y = unit(axis)
    return _SHARE if abs(x * along[0] + y * along[1]) > PARALLEL else _BENT_SHARE


def _about(legs: list[Leg]) -> tuple[str, ...]:
    return (*(leg.part for leg in legs), *dict.fromkeys(leg.seams[1] for leg in legs))


def _shifted(
    pattern: Pattern, legs: list[Leg], off_mm: float, constants: Constants
) -> Finding | None:
    by_mm = abs(off_mm)
    if by_mm <= constants.misfit.value + max(leg.slack_mm for leg in legs):
        return None
    names = {seam.id: seam.name for seam in pattern.seams}
    far = sorted(legs, key=lambda leg: -abs(leg.along_mm))
    said = [
        f"{leg.along_mm:+.1f} mm on {pattern.part(leg.part).name}"
        for leg in far
        if abs(leg.along_mm) > constants.misfit.value
    ]
    rows = listed([f"'{names[leg.seams[1]]}'" for leg in legs])
    return Finding(
        code="rows-shifted",
        severity=Severity.ERROR if by_mm > constants.bad_misfit.value else Severity.WARNING,
        text=f"Round {listed([pattern.part(leg.part).name for leg in legs])} the rows come out "
        f"{by_mm:.1f} mm apart along themselves: from row to row {listed(said)}. One of {rows} "
        "lies shifted.",
        remedy=f"In the drawing move one of these rows {by_mm:.1f} mm along itself on one part, "
        f"or share it out, {by_mm / len(legs):.1f} mm on each part; in leather already cut let the "
        "hinge or strip run askew, or punch its holes anew.",
        about=_about(legs),
    )


def _marks(legs: list[Leg], finding: Finding | None) -> Iterator[Mark]:
    """Yield a line from row to row on the parts on which one lies well ahead of the other."""
    if finding is None:
        return
    for leg in legs:
        yield Mark(
            kind=MarkKind.SPAN,
            part=leg.part,
            spots=leg.middles,
            label=f"{abs(leg.along_mm):.1f} mm",
            severity=finding.severity,
        )


def _figures(pattern: Pattern, legs: list[Leg], off_mm: float) -> Iterator[Figure]:
    for leg in legs:
        yield Figure(
            name=f"from row to row on {pattern.part(leg.part).name}, along the rows",
            value=leg.along_mm,
            unit="mm",
            formula=MEASURED,
            source=MEASURED,
        )
    yield Figure(
        name="left over all the way round",
        value=off_mm,
        unit="mm",
        formula=" ".join(f"{leg.along_mm:+.1f}" for leg in legs) + f" = {off_mm:.1f}",
        source="a closed way comes back to where it began",
    )
