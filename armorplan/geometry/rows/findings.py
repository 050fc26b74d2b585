"""Words for what is out in a row: the hole, the mm, the mend in the drawing and in cut leather."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from armorplan.geometry.rows.bundles import Bundle, swapped
from armorplan.geometry.rows.crossed import Crossed, crossed_finding, crossed_in
from armorplan.geometry.rows.faults import Out
from armorplan.geometry.rows.mends import bears_mm, cut_leather, lighter
from armorplan.geometry.rows.rungs import Row
from armorplan.geometry.rows.shift import Wrong
from armorplan.geometry.rows.uneven import for_the_bend, not_counted, sequence, severity, uneven
from armorplan.kernel.findings import Finding
from armorplan.pattern.parts import Hole
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

_CODES = {
    Wrong.HOLE: "hole-off-row",
    Wrong.BEYOND: "hole-off-row",
    Wrong.LONGER: "row-longer",
    Wrong.OTHER_WAY: "row-other-way",
    Wrong.SPACING: "row-misfit",
}


_EACH = 6
"""So many faults of one kind are told of a row one by one; of more the worst."""


class _Case(NamedTuple):
    pattern: Pattern
    bundle: Bundle
    out: Out
    constants: Constants


def fault_findings(
    pattern: Pattern, bundle: Bundle, outs: Sequence[Out], constants: Constants
) -> Iterator[Finding]:
    """Yield what a maker is told of a row; where very much of it is out, the worst and how many.

    Spacings that miss are told together: to move a hole for one would spoil the next.
    """
    told = {(each.row, each.moved): each for each in _crossed(outs, constants)}
    yield from (crossed_finding(pattern, bundle, each) for each in told.values())
    rows = {each.row for each in told.values()}
    by_code: dict[str, list[Out]] = {}
    for out in outs:
        if rows.intersection((out.reading.run.first, out.reading.run.second)):
            continue
        by_code.setdefault(_CODES[out.fault.wrong], []).append(out)
    for found in by_code.values():
        if found[0].fault.wrong is Wrong.SPACING and len(found) > 1:
            yield uneven(pattern, bundle, found, constants)
            continue
        if len(found) <= _EACH:
            yield from (_finding(pattern, bundle, out, constants) for out in found)
            continue
        worst = _finding(
            pattern, bundle, max(found, key=lambda out: abs(out.fault.off_mm)), constants
        )
        more = len(found) - 1
        yield replace(worst, text=f"{worst.text} {more} more of this row miss as well, by less.")


def _crossed(outs: Iterable[Out], constants: Constants) -> Iterator[Crossed]:
    """Yield what rows hold in another order than they fit in, by what they are read against."""
    read = {out.reading.run: out.reading for out in outs}
    for run, reading in read.items():
        found = crossed_in(run, reading.wider.by_mm, constants)
        if found is not None:
            yield found


def _finding(pattern: Pattern, bundle: Bundle, out: Out, constants: Constants) -> Finding:
    """Return what a maker is told of one fault."""
    tell = {
        Wrong.HOLE: _hole,
        Wrong.BEYOND: _beyond,
        Wrong.LONGER: _longer,
        Wrong.OTHER_WAY: _other_way,
        Wrong.SPACING: _spacing,
    }[out.fault.wrong]
    text, remedy = tell(_Case(pattern, bundle, out, constants))
    run, fault = out.reading.run, out.fault
    held = tuple(run.joints[fault.at : fault.until + 1])
    holes = [hole.id for hole in (*out.holes, *out.others)] if fault.wrong is Wrong.HOLE else []
    return Finding(
        code=_CODES[fault.wrong],
        severity=severity(bundle, out, constants),
        text=text,
        remedy=remedy,
        about=tuple(
            dict.fromkeys(
                ((bundle.id,) * bundle.sewn + held + tuple(row.part for row in out.rows))
                + tuple(holes)
            )
        ),
    )


def _on(pattern: Pattern, out: Out, row: Row) -> str:
    """Name a row: its part, and of a part with two rows the holes at both ends."""
    run = out.reading.run
    name = pattern.part(row.part).name
    if run.first.part != run.second.part:
        return name
    holes = run.holes(row)
    at, until = out.fault.at, min(out.fault.until + 1, len(holes) - 1)
    return f"{name} between '{holes[max(at - 1, 0)].id}' and '{holes[until].id}'"


def _beside(case: _Case, hole: Hole) -> str:
    """Name a part; one with two rows that meet by the hole as well."""
    run, name = case.out.reading.run, case.pattern.part(hole.part).name
    return name if run.first.part != run.second.part else f"{name} beside '{hole.id}'"


def _spans(out: Out, row: Row) -> str:
    """Return the spacings of a row beside the holes that are out: ``42.0 | 38.0 mm``."""
    run = out.reading.run
    spans = run.spans[0 if row == run.first else 1]
    fault = out.fault
    beside = [at for at in (fault.at - 1, fault.until) if 0 <= at < len(spans)]
    return " | ".join(f"{spans[at]:.1f}" for at in beside) + " mm"


def _side(out: Out) -> tuple[tuple[Hole, ...], tuple[Hole, ...]]:
    """Return all holes of the row to mend, and of the other."""
    row, other = out.rows
    return out.reading.run.holes(row), out.reading.run.holes(other)


def _towards(row: tuple[Hole, ...], at: int, until: int, off_mm: float) -> str:
    """Tell a way along a row by the hole it leads to, or away from at the row's end."""
    if off_mm > 0:
        return (
            f"towards '{row[until + 1].id}'"
            if until + 1 < len(row)
            else f"away from '{row[at - 1].id}'"
        )
    return f"towards '{row[at - 1].id}'" if at > 0 else f"away from '{row[until + 1].id}'"


def _cut(case: _Case, off_mm: float, holes: tuple[Hole, ...]) -> str:
    return cut_leather(off_mm, holes, case.constants, bears_mm=bears_mm(case.pattern, holes))


def _hole(case: _Case) -> tuple[str, str]:
    pattern, _, out, _ = case
    mine, theirs = _side(out)
    at, off_mm = out.fault.at, out.off_mm
    row, other = out.rows
    spans = (
        f"on {_beside(case, theirs[at])} {_spans(out, other)}, "
        f"on {_beside(case, mine[at])} {_spans(out, row)}"
    )
    cut = _cut(case, off_mm, (*out.holes, *out.others))
    back = _towards(mine, at, at, -off_mm)
    if out.mend is not None:
        return (
            (
                f"Hole '{mine[at].id}' of {pattern.part(row.part).name} lies {abs(off_mm):.1f} mm too "
                f"far {_towards(mine, at, at, off_mm)}: {spans}.{not_counted(out.reading)}"
            ),
            f"In the drawing move it {abs(off_mm):.1f} mm {back}; {cut}",
        )
    half_mm = abs(off_mm) / 2
    return (
        (
            f"Hole '{mine[at].id}' of {pattern.part(row.part).name} misses '{theirs[at].id}' of "
            f"{pattern.part(other.part).name} by {abs(off_mm):.1f} mm, "
            f"{_towards(mine, at, at, off_mm)}: {spans}.{not_counted(out.reading)}"
        ),
        (
            f"In the drawing move '{mine[at].id}' {half_mm:.1f} mm {back} and '{theirs[at].id}' "
            f"{half_mm:.1f} mm {_towards(theirs, at, at, off_mm)}, or one of them by all of it; {cut}"
        ),
    )


def _beyond(case: _Case) -> tuple[str, str]:
    pattern, _, out, _ = case
    mine, _ = _side(out)
    fault, off_mm = out.fault, out.off_mm
    row, other = out.rows
    back = _towards(mine, fault.at, fault.until, -off_mm)
    spans = (
        f"the spacing beside them is {_spans(out, other)} on {pattern.part(other.part).name}, "
        f"{_spans(out, row)} on {pattern.part(row.part).name}"
    )
    told = "" if out.mend is not None else " (or those they meet lie too far the other way)"
    return (
        (
            f"On {pattern.part(row.part).name} holes '{mine[fault.at].id}' to '{mine[fault.until].id}' "
            f"lie {abs(off_mm):.1f} mm too far {_towards(mine, fault.at, fault.until, off_mm)}{told}: "
            f"{spans}.{not_counted(out.reading)}"
        ),
        (
            f"In the drawing move all of them {abs(off_mm):.1f} mm {back}, or half of it there and "
            f"half the other way on {pattern.part(other.part).name}; "
            f"{_cut(case, off_mm, (*out.holes, *out.others))}"
        ),
    )


def _longer(case: _Case) -> tuple[str, str]:
    pattern, bundle, out, _ = case
    each_mm, run = out.fault.off_mm, out.reading.run
    if each_mm < 0 and out.reading.wider.known and max(out.reading.wider.most_mm) > 0:
        return for_the_bend(pattern, bundle, out.reading)
    long, short = (run.second, run.first) if each_mm > 0 else (run.first, run.second)
    count = len(run.joints) - 1
    by_mm = abs(each_mm)
    holes = (*run.on_first, *run.on_second)
    ends = _cut(case, by_mm * count / 2, holes)
    mend, other = long, short
    if long.part != short.part and lighter(pattern, short.part, long.part) == short.part:
        mend, other = short, long
    less, more = ("less", "more") if mend == long else ("more", "less")
    return (
        (
            f"The row of '{bundle.name}' is longer on {_on(pattern, out, long)} than on "
            f"{_on(pattern, out, short)}: {by_mm:.1f} mm in each of {count} spacings, "
            f"{by_mm * count:.1f} mm in all.{not_counted(out.reading)}"
        ),
        (
            f"Space it anew in the drawing: {by_mm:.1f} mm {less} from hole to hole on "
            f"{pattern.part(mend.part).name}, or {by_mm / 2:.1f} mm {less} there and as much {more} "
            f"on {pattern.part(other.part).name}; start at the middle hole, so that the end ones miss by "
            f"{by_mm * count / 2:.1f} mm only: {ends}"
        ),
    )


def _other_way(case: _Case) -> tuple[str, str]:
    pattern, bundle, out, _ = case
    run = out.reading.run
    if lighter(pattern, run.first.part, run.second.part) == run.first.part:
        run = swapped(run)
    first, second = run.spans
    name, other = pattern.part(run.second.part).name, pattern.part(run.first.part).name
    return (
        (
            f"The row of '{bundle.name}' runs the other way on {name}: {sequence(first)} mm on "
            f"{other}, {sequence(second)} mm on {name}. From its other end it would match."
        ),
        (
            f"Mirror {name} in the drawing if it is drawn turned over, or write its holes into the "
            f"stacks from the other end, '{run.on_second[-1].id}' first."
        ),
    )


def _spacing(case: _Case) -> tuple[str, str]:
    pattern, bundle, out, _ = case
    run, at = out.reading.run, out.fault.at
    spans = {row: each[at] for row, each in zip((run.first, run.second), run.spans, strict=True)}
    far, near = max(spans, key=spans.__getitem__), min(spans, key=spans.__getitem__)
    off_mm, number = abs(out.fault.off_mm), run.numbers[at] + 1
    what = (
        f"Holes {number} and {number + 1} of '{bundle.name}'"
        if bundle.sewn
        else f"'{run.joints[at]}' and '{run.joints[at + 1]}'"
    )
    by_mm = out.reading.wider.by_mm[at]
    bend = f", and the bend takes {by_mm:.1f} mm of it at most" if by_mm > 0 else ""
    holes = (*run.on_first[at : at + 2], *run.on_second[at : at + 2])
    return (
        (
            f"{what} are {spans[far]:.1f} mm apart on {_between(pattern, out, far)} but "
            f"{spans[near]:.1f} mm on {_between(pattern, out, near)}: they miss by "
            f"{spans[far] - spans[near]:.1f} mm{bend}."
        ),
        (
            f"In the drawing move one of them by {off_mm:.1f} mm along the row, or one on each part "
            f"by {off_mm / 2:.1f} mm; {_cut(case, off_mm, holes)}"
        ),
    )


def _between(pattern: Pattern, out: Out, row: Row) -> str:
    run, at = out.reading.run, out.fault.at
    name = pattern.part(row.part).name
    if run.first.part != run.second.part:
        return name
    holes = run.holes(row)
    return f"{name} between '{holes[at].id}' and '{holes[at + 1].id}'"
