"""A bundle of rows as it is drawn and reckoned: laid straight, arrows on holes, figures."""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import accumulate
from math import hypot

from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.pictures import RowSide, RowsPicture
from armorplan.geometry.placing import Fit, fit
from armorplan.geometry.row_bundles import Run
from armorplan.geometry.row_faults import Out, Reading
from armorplan.geometry.row_shift import Wrong
from armorplan.geometry.rows import Row
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Severity
from armorplan.pattern.parts import Hole, Point
from armorplan.pattern.pattern import Pattern

MEASURED = "measured on the drawing"
KABSCH = "Kabsch 1976, best turn and shift by least squares"
_NAMED = 8


@lru_cache(maxsize=2048)
def laid(on_a: tuple[Point, ...], on_b: tuple[Point, ...]) -> Fit | None:
    """Return how B lies on A by the same holes, as ``placing.fit``; kept for holes seen before."""
    return fit(on_a, on_b)


def centres(holes: Iterable[Hole]) -> tuple[Point, ...]:
    """Return where holes lie, in mm."""
    return tuple(hole.centre for hole in holes)


def picture(pattern: Pattern, reading: Reading) -> RowsPicture:
    """Return two rows laid straight on each other, and what each hole is then out by in mm.

    Both start at their first hole; the offsets are from where most holes agree.
    """
    run = reading.run
    out_mm = dict.fromkeys(range(len(run.joints)), 0.0)
    for fault in reading.faults:
        for at in range(fault.at, fault.until + 1):
            if fault.wrong in {Wrong.HOLE, Wrong.BEYOND}:
                out_mm[at] = fault.off_mm
    if any(fault.wrong not in {Wrong.HOLE, Wrong.BEYOND} for fault in reading.faults):
        out_mm = dict(enumerate(accumulate(reading.differ_mm, initial=0.0)))
    return RowsPicture(
        rows=tuple(
            RowSide(
                part=row.part,
                name=pattern.part(row.part).name,
                along_mm=tuple(accumulate(spans, initial=0.0)),
                holes=tuple(hole.id for hole in holes),
            )
            for row, spans, holes in zip(
                (run.first, run.second), run.spans, (run.on_first, run.on_second), strict=True
            )
        ),
        off_mm=tuple(out_mm.values()),
    )


def marks(out: Out, severity: Severity) -> Iterator[Mark]:
    """Yield an arrow at each hole that is out, to where it should lie; a line over a spacing."""
    if out.fault.wrong in {Wrong.HOLE, Wrong.BEYOND}:
        yield from _arrows(out, severity)
    elif out.fault.wrong is Wrong.SPACING:
        yield from _lines(out.reading.run, out.fault.at, severity)
    else:
        for row, holes, spans in _sides(out.reading.run):
            yield Mark(
                kind=MarkKind.SPAN,
                part=row.part,
                spots=(holes[0].centre, holes[-1].centre),
                label=f"{sum(spans):.1f} mm",
                severity=severity,
            )


def _sides(run: Run) -> tuple[tuple[Row, tuple[Hole, ...], tuple[float, ...]], ...]:
    first, second = run.spans
    return (run.first, run.on_first, first), (run.second, run.on_second, second)


def _lines(run: Run, at: int, severity: Severity) -> Iterator[Mark]:
    for row, holes, spans in _sides(run):
        yield Mark(
            kind=MarkKind.SPAN,
            part=row.part,
            spots=(holes[at].centre, holes[at + 1].centre),
            label=f"{spans[at]:.1f} mm",
            severity=severity,
        )


def _arrows(out: Out, severity: Severity) -> Iterator[Mark]:
    """Yield arrows on the row to mend; half of it on either where that is not told."""
    run, fault = out.reading.run, out.fault
    for row, holes, _ in _sides(run):
        if out.mend is not None and row != out.mend:
            continue
        by_mm = -fault.off_mm if row == run.second else fault.off_mm
        by_mm /= 1 if out.mend is not None else 2
        for at in range(fault.at, fault.until + 1):
            yield Mark(
                kind=MarkKind.MOVE,
                part=row.part,
                spots=(holes[at].centre, _along(holes, at, by_mm)),
                label=f"{abs(by_mm):.1f} mm",
                severity=severity,
            )


def _along(holes: tuple[Hole, ...], at: int, by_mm: float) -> Point:
    """Return the spot that lies so far along the row from a hole, towards its end."""
    ahead = by_mm > 0
    if ahead:
        start, end = (at, at + 1) if at + 1 < len(holes) else (at - 1, at)
    else:
        start, end = (at - 1, at) if at > 0 else (at, at + 1)
    (x1, y1), (x2, y2), (x, y) = holes[start].centre, holes[end].centre, holes[at].centre
    length = hypot(x2 - x1, y2 - y1) or 1.0
    return x + by_mm * (x2 - x1) / length, y + by_mm * (y2 - y1) / length


def figures(pattern: Pattern, reading: Reading) -> Iterator[Figure]:
    """Yield the lengths of both rows, their worst spacing, and what they miss by laid flat."""
    run = reading.run
    for row, _, spans in _sides(run):
        yield Figure(
            name=f"length of the row on {pattern.part(row.part).name}",
            value=sum(spans),
            unit="mm",
            formula=_sum(spans),
            source=MEASURED,
        )
    first, second = run.spans
    off = [abs(b - a) for a, b in zip(first, second, strict=True)]
    at = off.index(max(off))
    yield Figure(
        name="most that a spacing differs",
        value=off[at],
        unit="mm",
        formula=f"|{second[at]:.2f} - {first[at]:.2f}| = {off[at]:.2f}, holes {at + 1} to {at + 2}",
        source=MEASURED,
    )
    wider_mm = sum(reading.wider.by_mm)
    if wider_mm and reading.wider.known:
        most_mm = sum(reading.wider.most_mm)
        yield Figure(
            name="outer row made wider for the bend",
            value=wider_mm,
            unit="mm",
            formula=f"{wider_mm:.1f} of d × θ = {most_mm:.1f}",
            source="circle geometry",
        )
    if run.first.part != run.second.part:
        yield from _flat(run)


def _sum(spans: tuple[float, ...]) -> str:
    if len(spans) > _NAMED:
        return (
            f"{len(spans)} spacings from {min(spans):.1f} to {max(spans):.1f} = {sum(spans):.1f}"
        )
    return " + ".join(f"{span:.1f}" for span in spans) + f" = {sum(spans):.1f}"


def _flat(run: Run) -> Iterator[Figure]:
    flat = laid(centres(run.on_first), centres(run.on_second))
    if flat is None:
        return
    count = len(run.joints)
    for name, value in (
        ("rows miss by, laid flat", flat.residual_mm),
        ("the same with one part turned over, for information", flat.mirrored_residual_mm),
    ):
        yield Figure(
            name=name,
            value=value,
            unit="mm",
            formula=f"√(Σ miss² / {count}) = {value:.2f}; a row that draws leather into shape "
            "misses flat, and this is no fault",
            source=KABSCH,
        )
