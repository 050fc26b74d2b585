"""A trim or strap cut turned over: the row that holds it fits far better with it turned over.

A row's own curvature is no proof: leather is drawn into shape by rows that miss when laid flat, and
a flared lame curves against its shell. Two things do tell. A trim that stays flat is not drawn into
shape, and its row has to lie on the other flat. And where up is said, a trim that comes to lie upside
down and would fit better turned over is worth a look: that is a note, never more.
"""

from collections.abc import Container, Iterator, Sequence
from typing import NamedTuple

from armorplan.geometry.placing import Fit
from armorplan.geometry.rows.bends import shape
from armorplan.geometry.rows.bundles import Bundle, Run, swapped
from armorplan.geometry.rows.drawn import laid_flat
from armorplan.geometry.rows.faults import Reading
from armorplan.geometry.rows.hand import CONTRADICTS_DEG, laid_sides
from armorplan.geometry.upward import says_up
from armorplan.geometry.widths import LIMP, STIFF, is_strap
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Part, PartKind
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

_FAR = 3.0
"""A flat part misses by more than so many bad misfits before it is told."""
_BETTER = 0.75
"""Turned over, a trim has to miss by no more than this share of what it misses by as drawn."""
_LEAST_HOLES = 3


class _Laid(NamedTuple):
    """A row between a plate and what is put on it, as drawn and with that turned over."""

    plate: Part
    put_on: Part
    run: Run
    flat: Fit


def turned_over(
    pattern: Pattern,
    rows: tuple[Bundle, Sequence[Reading]],
    told: Container[str],
    constants: Constants,
) -> Iterator[Finding]:
    """Yield the trims that may be drawn turned over.

    Args:
        pattern: with its options settled.
        rows: joints side by side, and what their rows tell.
        told: parts that are told to lie upside down already.
        constants: those of the bench.
    """
    bundle, read = rows
    for reading in read:
        run = reading.run
        if reading.faults or run.first.part in told or run.second.part in told:
            continue
        row = _laid(pattern, run)
        if row is None:
            continue
        if _miss_flat(pattern, row, constants):
            why = f"{row.put_on.name} stays flat, so that its row has to lie on the other as it is drawn"
            yield _finding(bundle, row, why, code="row-other-way", severity=Severity.WARNING)
        elif _upside_down(pattern, row, constants):
            why = f"as they are joined its up points the other way than that of {row.plate.name}"
            yield _finding(bundle, row, why, code="sides-disagree", severity=Severity.NOTE)


def _laid(pattern: Pattern, run: Run) -> _Laid | None:
    """Return the row of a trim or strap on a plate; ``None`` for any other."""
    run = swapped(run) if _is_put_on(pattern.part(run.first.part)) else run
    plate, put_on = pattern.part(run.first.part), pattern.part(run.second.part)
    if _is_put_on(plate) or not _is_put_on(put_on) or len(run.joints) < _LEAST_HOLES:
        return None
    flat = laid_flat(pattern, run)
    return None if flat is None else _Laid(plate, put_on, run, flat)


def _is_put_on(part: Part) -> bool:
    return part.kind not in STIFF or is_strap(part)


def _miss_flat(pattern: Pattern, row: _Laid, constants: Constants) -> bool:
    """Tell whether a trim that stays flat misses by far as drawn, and fits turned over."""
    far_mm = _FAR * constants.bad_misfit.value
    fits = row.flat.mirrored_residual_mm < constants.misfit.value
    return row.flat.residual_mm > far_mm and fits and _stays_flat(pattern, row.put_on)


def _stays_flat(pattern: Pattern, part: Part) -> bool:
    """Tell whether a part gives little, and neither a form nor a seam that closes it shapes it."""
    if part.kind in LIMP or shape(pattern, part.id)[1]:
        return False
    shaping = {seam for form in pattern.forms for seam in form.seams}
    for seam in pattern.seams:
        passed = [pattern.stack_parts(joint) for joint in seam.joints]
        closes = any(parts.count(part.id) > 1 for parts in passed)
        if closes or (seam.id in shaping and any(part.id in parts for parts in passed)):
            return False
    return True


def _upside_down(pattern: Pattern, row: _Laid, constants: Constants) -> bool:
    """Tell whether a trim comes to lie upside down, and would fit better turned over."""
    flat = row.flat
    better = flat.mirrored_residual_mm <= _BETTER * flat.residual_mm
    by_mm = flat.residual_mm - flat.mirrored_residual_mm
    if row.put_on.kind is not PartKind.TRIM or not better or by_mm <= constants.bad_misfit.value:
        return False
    lies = laid_sides(pattern, row.run) if says_up(pattern) else None
    return lies is not None and lies.turned_deg > CONTRADICTS_DEG


def _finding(bundle: Bundle, row: _Laid, why: str, *, code: str, severity: Severity) -> Finding:
    name, flat = row.put_on.name, row.flat
    return Finding(
        code=code,
        severity=severity,
        text=f"Laid flat, the holes of {name} miss those of {row.plate.name} by "
        f"{flat.residual_mm:.1f} mm on the whole as drawn, and by {flat.mirrored_residual_mm:.1f} mm "
        f"with {name} turned over; {why}.",
        remedy=f"Look at which way round it goes before you cut it: if {name} is drawn turned over, "
        "mirror it in the drawing. If it is drawn as it should be, nothing is to be done.",
        about=(*((bundle.id,) * bundle.sewn), row.put_on.id, row.plate.id),
    )
