"""A bundle of rows as it is drawn and reckoned: laid straight, arrows on holes, figures."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import lru_cache
from itertools import accumulate
from math import hypot
from statistics import median

from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.pictures import RowSide, RowsPicture
from armorplan.geometry.placing import Fit, fit
from armorplan.geometry.rows.bundles import Run
from armorplan.geometry.rows.faults import Out, Reading
from armorplan.geometry.rows.rungs import Row
from armorplan.geometry.rows.shift import Wrong
from armorplan.geometry.sources import CIRCLE, KABSCH, MEASURED
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Severity
from armorplan.pattern.parts import Hole, Point
from armorplan.pattern.pattern import Pattern

_NAMED = 8
_SHAPED_MM = 0.3
"""Rows that miss by more than this on the whole, laid flat, draw the leather into shape."""


@lru_cache(maxsize=2048)
def laid(on_a: tuple[Point, ...], on_b: tuple[Point, ...]) -> Fit | None:
    """Return how B lies on A by the same holes, as ``placing.fit``; kept for holes seen before."""
    return fit(on_a, on_b)


def centres(holes: Iterable[Hole]) -> tuple[Point, ...]:
    """Return where holes lie, in mm."""
    return tuple(hole.centre for hole in holes)


def picture(
    pattern: Pattern, reading: Reading, found: Iterable[Out], aside_mm: Mapping[str, float]
) -> RowsPicture:
    """Return two rows laid straight on each other, with what each hole is to be moved by.

    Args:
        pattern: for the names of the parts.
        reading: the two rows.
        found: what is out in their bundle; arrows are those of ``marks``.
        aside_mm: how far holes lie beside their row, by their ids.
    """
    run, found = reading.run, tuple(found)
    off_mm = {holes[at].id: off for out in found for _, holes, at, off in moves(out)}
    sides = [
        RowSide(
            part=row.part,
            name=pattern.part(row.part).name,
            along_mm=tuple(accumulate(spans, initial=0.0)),
            holes=tuple(hole.id for hole in holes),
            off_mm=_each(holes, off_mm),
            aside_mm=_each(holes, aside_mm),
        )
        for row, holes, spans in _sides(run)
    ]
    ahead_mm = median(a - b for a, b in zip(_in_place(sides[0]), _in_place(sides[1]), strict=True))
    sides[1] = replace(sides[1], along_mm=tuple(at + ahead_mm for at in sides[1].along_mm))
    return RowsPicture(rows=tuple(sides), missing=_missing(reading, found))


def _each(holes: tuple[Hole, ...], mm: Mapping[str, float]) -> tuple[float, ...]:
    return tuple(mm.get(hole.id, 0.0) for hole in holes) if any(h.id in mm for h in holes) else ()


def _in_place(side: RowSide) -> tuple[float, ...]:
    """Return where the holes of a row lie once they are moved."""
    off_mm = side.off_mm or (0.0,) * len(side.along_mm)
    return tuple(at - off for at, off in zip(side.along_mm, off_mm, strict=True))


def _missing(reading: Reading, found: Iterable[Out]) -> tuple[int, ...]:
    """Return the spacings that miss where no hole is told to be out."""
    told: set[int] = set()
    for out in found:
        if out.reading is reading and out.fault.wrong is Wrong.SPACING:
            told.add(out.fault.at)
        elif out.reading is reading and out.fault.wrong in {Wrong.LONGER, Wrong.OTHER_WAY}:
            told.update(range(len(reading.differ_mm)))
    return tuple(sorted(told))


def moves(out: Out) -> Iterator[tuple[Row, tuple[Hole, ...], int, float]]:
    """Yield each hole to move: its row, that row's holes, its place, and what it is out by in mm.

    Where neither row is told to be the one to mend, half of it is told of either.
    """
    if out.fault.wrong not in {Wrong.HOLE, Wrong.BEYOND}:
        return
    run, fault = out.reading.run, out.fault
    for row, holes, _ in _sides(run):
        if out.mend is not None and row != out.mend:
            continue
        off_mm = fault.off_mm if row == run.second else -fault.off_mm
        for at in range(fault.at, fault.until + 1):
            yield row, holes, at, off_mm / (1 if out.mend is not None else 2)


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
    """Yield an arrow at each hole to move, to where it should lie."""
    for row, holes, at, off_mm in moves(out):
        yield Mark(
            kind=MarkKind.MOVE,
            part=row.part,
            spots=(holes[at].centre, _along(holes, at, -off_mm)),
            label=f"{abs(off_mm):.1f} mm",
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
        name="most that a spacing differs, as drawn",
        value=off[at],
        unit="mm",
        formula=f"{difference(*sorted((first[at], second[at]), reverse=True))}, "
        f"holes {at + 1} to {at + 2}",
        source=MEASURED,
    )
    if reading.wider.counts and reading.wider.known:
        yield from _wider(reading)
    if curved_mm(pattern, reading) is not None:
        yield from _flat(pattern, run)


def difference(of_mm: float, less_mm: float) -> str:
    """Return a difference with its numbers: to a tenth, or finer where a tenth does not show it."""
    seen = f"{of_mm:.1f}" != f"{less_mm:.1f}"
    one, other, left = (
        f"{mm:.1f}" if seen else f"{mm:.2f}" for mm in (of_mm, less_mm, abs(of_mm - less_mm))
    )
    return f"{one} - {other} = {left}"


def _wider(reading: Reading) -> Iterator[Figure]:
    """Yield by how much the outer row is longer, and what the bend asks for."""
    wider, (first, second) = reading.wider, (sum(spans) for spans in reading.run.spans)
    yield Figure(
        name="outer row longer across the bend, as drawn",
        value=wider.longer_mm,
        unit="mm",
        formula=f"{wider.longer_mm:.1f} straight across the axis; along the rows "
        f"{difference(first, second)}",
        source=MEASURED,
    )
    yield Figure(
        name="outer row longer once bent",
        value=wider.asked_mm,
        unit="mm",
        formula=f"d × θ from the first hole to the last = {wider.asked_mm:.1f}",
        source=CIRCLE,
    )


def curved_mm(pattern: Pattern, reading: Reading) -> float | None:
    """Return the most that sound rows miss by when laid flat, drawing the leather into shape, in mm.

    ``None`` where one is faulty, where both belong to one part, and where they lie flat alike.
    """
    run = reading.run
    if reading.faults or reading.aside or run.first.part == run.second.part:
        return None
    flat = laid_flat(pattern, run)
    return flat.worst_mm if flat is not None and flat.residual_mm > _SHAPED_MM else None


def _sum(spans: tuple[float, ...]) -> str:
    if len(spans) > _NAMED:
        return (
            f"{len(spans)} spacings from {min(spans):.1f} to {max(spans):.1f} = {sum(spans):.1f}"
        )
    return " + ".join(f"{span:.1f}" for span in spans) + f" = {sum(spans):.1f}"


def laid_flat(pattern: Pattern, run: Run) -> Fit | None:
    """Return how the second of two rows lies on the first, both parts seen from one side."""
    one, other = (pattern.part(row.part).drawn_from_inside for row in (run.first, run.second))
    second = centres(run.on_second)
    return laid(
        centres(run.on_first), second if one == other else tuple((-x, y) for x, y in second)
    )


def _flat(pattern: Pattern, run: Run) -> Iterator[Figure]:
    flat = laid_flat(pattern, run)
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
            formula=f"√(Σ miss² / {count}) = {value:.1f}; a row that draws leather into shape "
            "misses flat, and this is no fault",
            source=KABSCH,
        )
