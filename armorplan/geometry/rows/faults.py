"""What is out in a bundle of rows: each fault once, on the row that it lies in where that tells."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import dist

from armorplan.geometry.rows.bends import Slides, Wider, wider
from armorplan.geometry.rows.bundles import Bundle, Run, runs
from armorplan.geometry.rows.rungs import Row
from armorplan.geometry.rows.shift import Fault, Wrong, faults, left_over, whose
from armorplan.geometry.rows.sideways import Aside, aside
from armorplan.pattern.parts import Hole
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

_DIGITS = 6
_WHOLE = frozenset({Wrong.LONGER, Wrong.OTHER_WAY})


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """Two rows read against each other: what the bend makes of them, and what is wrong.

    The faults are those of the second row against the first, the bend's share taken off; ``aside``
    are holes that lie beside the line of their row, which are taken to be in line in that.
    """

    run: Run
    wider: Wider
    faults: tuple[Fault, ...]
    aside: tuple[tuple[Row, Aside], ...] = ()

    @property
    def differ_mm(self) -> tuple[float, ...]:
        """How much longer each spacing is on the second row, the bend's share taken off."""
        first, second = self.run.spans
        return tuple(b - a + w for a, b, w in zip(first, second, self.wider.by_mm, strict=True))


BundlesRead = Sequence[tuple[Bundle, tuple[Reading, ...]]]
"""Bundles, each with what its rows tell."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Out:
    """One fault, with the two rows it is between and the one to mend, if that is told."""

    reading: Reading
    fault: Fault
    mend: Row | None

    @property
    def rows(self) -> tuple[Row, Row]:
        """The row to mend and the other; where that is not told the second and the first."""
        run = self.reading.run
        row = run.second if self.mend is None else self.mend
        return row, run.other(row)

    @property
    def off_mm(self) -> float:
        """How far too far towards the end the holes of the row to mend lie, in mm."""
        turned = self.mend == self.reading.run.first
        return -self.fault.off_mm if turned else self.fault.off_mm

    @property
    def holes(self) -> tuple[Hole, ...]:
        """The holes that are out, on the row to mend; on the second where that is not told."""
        return self.reading.run.holes(self.rows[0])[self.fault.at : self.fault.until + 1]

    @property
    def others(self) -> tuple[Hole, ...]:
        """The holes that they should meet."""
        return self.reading.run.holes(self.rows[1])[self.fault.at : self.fault.until + 1]


def readings(
    pattern: Pattern, bundle: Bundle, slides: Slides, constants: Constants
) -> tuple[Reading, ...]:
    """Return what each two rows of a bundle tell."""
    found: list[Reading] = []
    for run in runs(pattern, bundle):
        bent = wider(pattern, run, slides, sewn=bundle.sewn, misfit_mm=constants.misfit.value)
        found.append(_reading(run, bent, constants))
    return tuple(found)


def _reading(run: Run, bent: Wider, constants: Constants) -> Reading:
    """Return rows read with the least to mend: holes out along the row, or one beside its line.

    A hole that lies aside is farther from both its neighbours, which along the row alone looks like
    several holes out. Of ways that move as many holes that counts which leaves less.
    """
    along, aside = _along(run, bent, constants), tuple(_aside(run, constants))
    if not along.faults:
        return replace(along, aside=aside)
    best, found = _to_mend(along), along
    for row, hole in aside:
        read, mended = _in_line(run, bent, (row, hole), constants)
        holes, left = _to_mend(read, hole.at)
        if (holes, left) < best:
            best, found = (holes, left), replace(read, run=run, aside=((row, mended),))
    return found


def _to_mend(reading: Reading, aside: int | None = None) -> tuple[int, float]:
    """Return how many holes are to be moved, and the squares in mm² that are left then.

    Args:
        reading: what is out along the row.
        aside: place of a hole that is out across it too.
    """
    out = set() if aside is None else {aside}
    for fault in reading.faults:
        if fault.wrong in {Wrong.HOLE, Wrong.BEYOND}:
            out.update(range(fault.at, fault.until + 1))
    whole = sum(fault.wrong not in {Wrong.HOLE, Wrong.BEYOND} for fault in reading.faults)
    # Spacings that miss lie between one hole more than they are.
    uneven = any(fault.wrong is Wrong.SPACING for fault in reading.faults)
    left = left_over(reading.differ_mm, reading.faults)
    return len(out) + whole + uneven, round(left, _DIGITS)


def _in_line(
    run: Run, bent: Wider, out: tuple[Row, Aside], constants: Constants
) -> tuple[Reading, Aside]:
    """Return rows read with a hole laid in line; what little it is out along the row is mended too."""
    row, found = out
    read = _along(in_line(run, row, found), bent, constants)
    only = read.faults[0] if len(read.faults) == 1 else None
    if only is None or only.wrong is not Wrong.HOLE or only.at != found.at:
        return read, found
    if abs(only.off_mm) > constants.bad_misfit.value:
        return read, found
    holes = run.holes(row)
    (ax, ay), (bx, by) = holes[found.at - 1].centre, holes[found.at + 1].centre
    by_mm = (only.off_mm if row == run.first else -only.off_mm) / (dist((ax, ay), (bx, by)) or 1.0)
    back = found.back[0] + by_mm * (bx - ax), found.back[1] + by_mm * (by - ay)
    off_mm = dist(holes[found.at].centre, back)
    return replace(read, faults=()), found._replace(back=back, off_mm=off_mm)


def _aside(run: Run, constants: Constants) -> Iterator[tuple[Row, Aside]]:
    """Yield the hole of either row that lies beside its line, where the other runs smoothly."""
    one, two = (tuple(hole.centre for hole in holes) for holes in (run.on_first, run.on_second))
    for row, spots, others in ((run.first, one, two), (run.second, two, one)):
        found = aside(spots, others, constants.misfit.value)
        if found is not None:
            yield row, found


def in_line(run: Run, row: Row, found: Aside) -> Run:
    """Return rows with a hole laid where it would be in line."""

    def laid(holes: tuple[Hole, ...]) -> tuple[Hole, ...]:
        moved = replace(holes[found.at], centre=found.back)
        return (*holes[: found.at], moved, *holes[found.at + 1 :])

    if row == run.first:
        return replace(run, on_first=laid(run.on_first))
    return replace(run, on_second=laid(run.on_second))


def _along(run: Run, bent: Wider, constants: Constants) -> Reading:
    """Return rows read as made flat or as made for the bend, by what leaves less out of place.

    Where nothing is out of place either way, it is made for the bend if the bends say so.
    """
    flat = bent._replace(by_mm=(0.0,) * len(bent.most_mm))
    as_flat, as_bent = _read(run, flat, constants), _read(run, bent, constants)
    if not as_flat.faults and not as_bent.faults:
        return as_bent if bent.is_made_for else as_flat
    return min(as_flat, as_bent, key=_unexplained)


def _read(run: Run, bent: Wider, constants: Constants) -> Reading:
    misfit_mm, bad_mm = constants.misfit.value, constants.bad_misfit.value
    first, second = run.spans
    flat = tuple(span - by for span, by in zip(first, bent.by_mm, strict=True))
    out = faults(flat, second, misfit_mm, max(bad_mm, misfit_mm))
    return Reading(run=run, wider=bent, faults=out)


def _unexplained(reading: Reading) -> tuple[int, float, float]:
    """Return how many faults there are, the squares left once they are mended, and all their mm."""
    left = round(left_over(reading.differ_mm, reading.faults), _DIGITS)
    return len(reading.faults), left, sum(abs(fault.off_mm) for fault in reading.faults)


def outs(read: tuple[Reading, ...]) -> tuple[Out, ...]:
    """Return the faults of a bundle, each once, in order along the row."""
    hits = _hits(read)
    found: dict[tuple[object, ...], Out] = {}
    for reading in read:
        for fault in reading.faults:
            out = Out(reading=reading, fault=fault, mend=_mend(reading, fault, hits))
            key = _key(out)
            if key not in found or abs(fault.off_mm) > abs(found[key].fault.off_mm):
                found[key] = out
    return tuple(sorted(found.values(), key=lambda out: out.reading.run.numbers[out.fault.at]))


def _key(out: Out) -> tuple[object, ...]:
    numbers = out.reading.run.numbers
    if out.fault.wrong is Wrong.SPACING:
        return out.fault.wrong, numbers[out.fault.at]
    if out.mend is not None:
        return out.fault.wrong, out.mend, numbers[out.fault.at]
    if out.fault.wrong is Wrong.OTHER_WAY:
        return out.fault.wrong, out.reading.run.first, out.reading.run.second
    return out.fault.wrong, numbers[out.fault.at]


_Hits = dict[tuple[Row, int], int]


def _hits(read: tuple[Reading, ...]) -> _Hits:
    """Return for each row and joint how many other rows it misses there."""
    found: _Hits = {}
    for reading in read:
        places = {at for f in reading.faults for at in range(f.at, f.until + 1)}
        for at in places:
            for row in (reading.run.first, reading.run.second):
                key = row, reading.run.numbers[at]
                found[key] = found.get(key, 0) + 1
    return found


def _mend(reading: Reading, fault: Fault, hits: _Hits) -> Row | None:
    """Return the row to mend: the one that misses more of the others, else the uneven one."""
    run = reading.run
    number = run.numbers[fault.at]
    first, second = hits[run.first, number], hits[run.second, number]
    if first != second:
        return run.first if first > second else run.second
    if fault.wrong in _WHOLE or fault.wrong is Wrong.SPACING:
        return None
    on_first, on_second = run.spans
    flat = tuple(s - by for s, by in zip(on_first, reading.wider.by_mm, strict=True))
    told = whose(flat, on_second, fault)
    return None if told is None else (run.first, run.second)[told]
