"""A row that is uneven in several spacings: told once, and marked anew from its middle hole."""

from collections.abc import Sequence
from itertools import pairwise

from armorplan.geometry.rows.bundles import Bundle, Run
from armorplan.geometry.rows.faults import Out, Reading
from armorplan.geometry.rows.mends import bears_mm, cut_leather, lighter
from armorplan.geometry.rows.rungs import Row
from armorplan.geometry.rows.shift import Wrong
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

_NAMED = 10
_EVEN_MM = 0.15
"""Spacings that differ by less are told as one."""


def severity(bundle: Bundle, out: Out, constants: Constants) -> Severity:
    """Return how grave a fault is: rivets of no seam may be meant otherwise.

    What the slack of two holes still makes up is worth knowing, and no fault.
    """
    bad = abs(out.fault.off_mm) > constants.bad_misfit.value
    if not bad and out.fault.wrong not in {Wrong.LONGER, Wrong.OTHER_WAY}:
        return Severity.NOTE
    graver = bad or out.fault.wrong is Wrong.OTHER_WAY
    return Severity.ERROR if graver and bundle.sewn else Severity.WARNING


def sequence(spans: Sequence[float]) -> str:
    """Return spacings in their order: ``30.0 | 40.0``; of very many the first."""
    more = " | …" if len(spans) > _NAMED else ""
    return " | ".join(f"{span:.1f}" for span in spans[:_NAMED]) + more


def uneven(pattern: Pattern, bundle: Bundle, outs: Sequence[Out], constants: Constants) -> Finding:
    """Return the one finding of spacings that miss: the worst, how many, and the row drawn anew."""
    worst = max(outs, key=lambda out: abs(out.fault.off_mm))
    run, at = worst.reading.run, worst.fault.at
    row = worst.mend or _lighter(pattern, run)
    other = run.other(row)
    names = {each: _name(pattern, run, each) for each in (row, other)}
    spans = dict(zip((run.first, run.second), run.spans, strict=True))
    off_mm = sorted(abs(out.fault.off_mm) for out in outs)
    number, grave = run.numbers[at] + 1, severity(bundle, worst, constants)
    holes = (*run.on_first[at : at + 2], *run.on_second[at : at + 2])
    cut = cut_leather(off_mm[-1], holes, constants, bears_mm=bears_mm(pattern, holes))
    may_stay = "Holes of this width make it up. " if grave is Severity.NOTE else ""
    return Finding(
        code="row-misfit",
        severity=grave,
        text=f"{len(outs)} spacings of '{bundle.name}' miss by {_range(off_mm)} mm, the most from "
        f"hole {number} to hole {number + 1}: {spans[row][at]:.1f} mm on {names[row]}, "
        f"{spans[other][at]:.1f} mm on {names[other]}.{not_counted(worst.reading)}",
        remedy=f"{may_stay}In the drawing mark the row on {names[row]} anew from its middle hole, "
        f"'{run.holes(row)[len(run.joints) // 2].id}', with the spacings of {names[other]}: "
        f"{_wanted(worst.reading, row)}; {cut}",
        about=(
            *((bundle.id,) * bundle.sewn),
            *dict.fromkeys(
                joint
                for out in outs
                for joint in out.reading.run.joints[out.fault.at : out.fault.at + 2]
            ),
            *dict.fromkeys((row.part, other.part)),
        ),
    )


def _range(off_mm: Sequence[float]) -> str:
    least, most = f"{off_mm[0]:.1f}", f"{off_mm[-1]:.1f}"
    return most if least == most else f"{least} to {most}"


def _lighter(pattern: Pattern, run: Run) -> Row:
    part = lighter(pattern, run.first.part, run.second.part)
    return run.second if part == run.second.part else run.first


def _name(pattern: Pattern, run: Run, row: Row) -> str:
    name, holes = pattern.part(row.part).name, run.holes(row)
    if run.first.part != run.second.part:
        return name
    return f"{name} from '{holes[0].id}' to '{holes[-1].id}'"


def _wanted(reading: Reading, row: Row) -> str:
    """Return the spacings a row would have to have, the bend's share counted."""
    first, second = reading.run.spans
    by_mm = reading.wider.by_mm
    wanted = (
        [span + by for span, by in zip(second, by_mm, strict=True)]
        if row == reading.run.first
        else [span - by for span, by in zip(first, by_mm, strict=True)]
    )
    if all(abs(a - b) < _EVEN_MM for a, b in pairwise(wanted)):
        return f"{sum(wanted) / len(wanted):.1f} mm each"
    return f"{sequence(wanted)} mm"


def not_counted(reading: Reading) -> str:
    """Say that what the bend makes the outer row longer by is taken off; nothing where it is not."""
    if not reading.wider.counts:
        return ""
    return " That the outer row is made wider for the bend is not counted."


def for_the_bend(pattern: Pattern, bundle: Bundle, reading: Reading) -> tuple[str, str]:
    """Return what is told of an outer row that is longer, but not where its bend asks for it."""
    outer, inner = (pattern.part(row.part).name for row in (reading.run.first, reading.run.second))
    wider = reading.wider
    longer = [a - b for a, b in zip(*reading.run.spans, strict=True)]
    return (
        (
            f"The row of '{bundle.name}' is {sum(longer):.1f} mm longer on {outer} than on {inner}, "
            f"by {sequence(longer)} mm from hole to hole; the bend asks for {wider.asked_mm:.1f} mm, "
            f"by {sequence(wider.most_mm)} mm."
        ),
        (
            f"In the drawing mark the row on {outer} anew from its middle hole, each spacing longer "
            f"than that of {inner} by what the bend asks for; or bend both first and punch {outer} "
            f"through {inner}, which is the way in leather already cut as well."
        ),
    )
