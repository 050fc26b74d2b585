"""Rows that join the same two stiff parts, read against each other: shifted, or too far apart."""

from collections.abc import Iterator
from math import inf

from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.rows.bends import bend_asks_mm
from armorplan.geometry.rows.bundles import STANDS_OFF_MM
from armorplan.geometry.rows.drawn import centres
from armorplan.geometry.rows.faults import BundlesRead
from armorplan.geometry.rows.mends import cut_leather
from armorplan.geometry.rows.shear import PARALLEL, allowed_mm, middle, runs_against, unit
from armorplan.geometry.rows.tracks import Pairing, Track, pairings
from armorplan.geometry.sources import MEASURED
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Hole
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

_LEAST = 2
_COSINES = "cosine rule in a trapezium"


def pair_measures(pattern: Pattern, read: BundlesRead, constants: Constants) -> Iterator[Measure]:
    """Yield what two rows of the same two stiff parts tell of each other."""
    for found in pairings(pattern, read).values():
        yield _measure(pattern, found, constants)


def _measure(pattern: Pattern, beside: list[Pairing], constants: Constants) -> Measure:
    outer, inner = beside[0].outer, beside[0].inner
    names = [pattern.part(part).name for part in (outer, inner)]
    found = [f for pairing in beside for f in _findings(pattern, pairing, constants)]
    worst = max(beside, key=lambda pairing: abs(pairing.shift_mm))
    joints = dict.fromkeys(j for p in beside for t in (p.first, p.second) for j in t.joints)
    return Measure(
        id=f"rows:pair:{outer}+{inner}",
        topic=Topic.ROWS,
        title=f"rows of {names[0]} on {names[1]}, side by side",
        verdict=f"shifted by {abs(worst.shift_mm):.1f} mm" if found else "lie alike",
        text=" ".join(finding.text for finding in found)
        or f"The rows of {names[0]} and {names[1]} lie to each other alike on both: along "
        f"themselves they differ by {abs(worst.shift_mm):.1f} mm.",
        figures=tuple(_figures(pattern, worst)),
        findings=tuple(found),
        marks=tuple(_marks(beside, constants)),
        about=(outer, inner, *joints),
    )


def _is_shifted(pairing: Pairing, constants: Constants) -> bool:
    most_mm = allowed_mm(pairing.on_outer, pairing.on_inner, constants.misfit.value)
    return abs(pairing.shift_mm) > most_mm


def _findings(pattern: Pattern, pairing: Pairing, constants: Constants) -> Iterator[Finding]:
    if _is_shifted(pairing, constants):
        yield _shifted(pattern, pairing, constants)
    elif (most_mm := _width_told_mm(pattern, pairing)) is not None:
        off_mm = pairing.wider_mm - min(max(pairing.wider_mm, 0.0), most_mm)
        if abs(off_mm) > constants.misfit.value:
            yield _too_wide(pattern, pairing, off_mm, constants)


def _severity(pairing: Pairing, off_mm: float, constants: Constants) -> Severity:
    sewn = pairing.first.sewn and pairing.second.sewn
    bad = abs(off_mm) > constants.bad_misfit.value
    return Severity.ERROR if sewn and bad else Severity.WARNING


def _about(pairing: Pairing) -> tuple[str, ...]:
    return (*pairing.first.joints, *pairing.second.joints, pairing.outer, pairing.inner)


def _shifted(pattern: Pattern, pairing: Pairing, constants: Constants) -> Finding:
    outer, inner = (pattern.part(part).name for part in (pairing.outer, pairing.inner))
    by_mm = abs(pairing.shift_mm)
    towards = _ahead(pairing.second.on_inner, pairing, ahead=pairing.shift_mm > 0)
    holes = (*pairing.second.on_outer, *pairing.second.on_inner)
    return Finding(
        code="rows-shifted",
        severity=_severity(pairing, by_mm, constants),
        text=f"{_said(pairing.second)} lies {by_mm:.1f} mm further {towards} on {inner} than on "
        f"{outer}, seen from {_said(pairing.first)}: the parts come to lie askew.",
        remedy=f"In the drawing move the whole row {by_mm:.1f} mm back on {inner}, or "
        f"{by_mm / 2:.1f} mm there and {by_mm / 2:.1f} mm the other way on {outer}; "
        f"{cut_leather(by_mm, holes, constants)}",
        about=_about(pairing),
    )


def _said(track: Track) -> str:
    return f"'{track.name}'" if track.sewn or len(track.joints) == 1 else f"The {track.name}"


def _ahead(row: tuple[Hole, ...], pairing: Pairing, *, ahead: bool) -> str:
    """Name the way along a row by its hole at that end; of a single rivet by the other row's."""
    if len(row) < _LEAST:
        row = pairing.first.on_inner
    against = runs_against(centres(pairing.first.on_outer), centres(pairing.second.on_outer))
    turned = against and row is pairing.second.on_inner
    return f"towards the end of '{row[-1 if ahead != turned else 0].id}'"


def _width_told_mm(pattern: Pattern, pairing: Pairing) -> float | None:
    """Return by how much the rows may lie farther apart on the outer part; ``None``: not judged.

    Only parallel rows of parts that lie on each other, where any bend between them says its radius,
    and the outer part does not bow off far from rivet to rivet.
    """
    lies = pairing.on_outer, pairing.on_inner
    parts = [pattern.part(part) for part in (pairing.outer, pairing.inner)]
    seen = [
        -each.width_mm if part.drawn_from_inside else each.width_mm
        for each, part in zip(lies, parts, strict=True)
    ]
    parallel = all(each.turn >= PARALLEL for each in lies)
    stands_off = pairing.wider_mm > 0 and abs(pairing.on_outer.width_mm) >= STANDS_OFF_MM
    if not parallel or stands_off or (seen[0] > 0) != (seen[1] > 0):
        return None
    joint = pairing.first.joints[0]
    takes = [
        bend_asks_mm(pattern, joint, part, (middle(centres(one)), middle(centres(two))))
        for part, one, two in (
            (parts[0], pairing.first.on_outer, pairing.second.on_outer),
            (parts[1], pairing.first.on_inner, pairing.second.on_inner),
        )
    ]
    return None if max(takes) == inf else max(takes)


def _too_wide(pattern: Pattern, pairing: Pairing, off_mm: float, constants: Constants) -> Finding:
    outer, inner = (pattern.part(part).name for part in (pairing.outer, pairing.inner))
    by_mm = abs(off_mm)
    holes = (*pairing.second.on_outer, *pairing.second.on_inner)
    return Finding(
        code="rows-shifted",
        severity=_severity(pairing, by_mm, constants),
        text=f"{_said(pairing.first)} and {_said(pairing.second)} lie "
        f"{abs(pairing.on_outer.width_mm):.1f} mm apart on {outer} but "
        f"{abs(pairing.on_inner.width_mm):.1f} mm on {inner}: they miss by {by_mm:.1f} mm.",
        remedy=f"In the drawing move one row {by_mm:.1f} mm across itself, or one on each part "
        f"{by_mm / 2:.1f} mm; {cut_leather(by_mm, holes, constants)}",
        about=_about(pairing),
    )


def _marks(beside: list[Pairing], constants: Constants) -> Iterator[Mark]:
    for pairing in beside:
        if not _is_shifted(pairing, constants):
            continue
        for part, first, second, by_mm in (
            (pairing.outer, pairing.first.on_outer, pairing.second.on_outer, pairing.shift_mm / 2),
            (
                pairing.inner,
                pairing.first.on_inner,
                pairing.second.on_inner,
                -pairing.shift_mm / 2,
            ),
        ):
            ux, uy = unit(centres(first))
            x, y = middle(centres(second))
            yield Mark(
                kind=MarkKind.MOVE,
                part=part,
                spots=((x, y), (x + by_mm * ux, y + by_mm * uy)),
                label=f"{abs(by_mm):.1f} mm",
                severity=_severity(pairing, pairing.shift_mm, constants),
            )


def _figures(pattern: Pattern, pairing: Pairing) -> Iterator[Figure]:
    for part, lies in ((pairing.outer, pairing.on_outer), (pairing.inner, pairing.on_inner)):
        name = pattern.part(part).name
        ahead, back = lies.diagonals_mm
        yield Figure(
            name=f"second row ahead of the first on {name}",
            value=lies.shear_mm,
            unit="mm",
            formula=f"({ahead:.1f}² - {back:.1f}²) / (2 × {lies.sum_mm:.1f}) = {lies.shear_mm:.1f}",
            source=_COSINES,
        )
        yield Figure(
            name=f"rows apart on {name}",
            value=abs(lies.width_mm),
            unit="mm",
            formula=MEASURED,
            source=MEASURED,
        )
