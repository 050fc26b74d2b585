"""Loose rivets that stand in no row, between two flat plates: all their distances have to agree.

A row draws leather into shape, and only its spacing counts. Three rivets in a triangle, or four in
a square, hold two flat plates flat on each other: there every distance counts, the diagonals too.
"""

from collections.abc import Iterator
from itertools import combinations, pairwise
from math import atan2, dist, pi, radians
from typing import NamedTuple

from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.rows.bends import shape
from armorplan.geometry.rows.drawn import centres, difference, laid
from armorplan.geometry.rows.loose import chains, together
from armorplan.geometry.rows.mends import cut_leather
from armorplan.geometry.rows.rungs import Row, rung
from armorplan.geometry.sources import KABSCH, MEASURED
from armorplan.geometry.widths import LIMP
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Hole, Part
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

_LEAST = 3
_MOST = 40
_SHARP = radians(45.0)
"""Where the way from rivet to rivet turns by more than this it is no row."""


class _Group(NamedTuple):
    """Rivets through two plates, the outer one first."""

    parts: tuple[Part, Part]
    joints: tuple[str, ...]
    on_first: tuple[Hole, ...]
    on_second: tuple[Hole, ...]


class _Miss(NamedTuple):
    """Two joints, how far apart they are on either part, in mm."""

    one: int
    other: int
    first_mm: float
    second_mm: float

    @property
    def by_mm(self) -> float:
        return abs(self.first_mm - self.second_mm)


def group_measures(
    pattern: Pattern, told: frozenset[str], constants: Constants
) -> Iterator[Measure]:
    """Yield groups of loose rivets between flat plates; ``told`` are joints with a fault of a row."""
    seen: set[tuple[str, str]] = set()
    for parts, joints in together(pattern):
        if not _LEAST <= len(joints) <= _MOST or not told.isdisjoint(joints):
            continue
        for pair in combinations(parts, 2):
            group = None if pair in seen else _group(pattern, pair, joints)
            if group is not None:
                seen.add(pair)
                yield _measure(group, constants)


def _group(pattern: Pattern, pair: tuple[str, str], joints: list[str]) -> _Group | None:
    """Return the rivets of two flat stiff plates; ``None`` where they stand in a row."""
    parts = pattern.part(pair[0]), pattern.part(pair[1])
    if any(part.kind in LIMP or shape(pattern, part.id)[1] for part in parts):
        return None
    stack = pattern.stack_parts(joints[0])
    if stack.index(pair[0]) > stack.index(pair[1]):
        return _group(pattern, (pair[1], pair[0]), joints)
    rows = Row(pair[0]), Row(pair[1])
    found = {joint: rung(pattern, joint) for joint in joints}
    held = [joint for joint, holes in found.items() if set(rows) <= set(holes)]
    doubled = any(row.nth for holes in found.values() for row in holes)
    if len(held) < _LEAST or doubled or _is_row(pattern, parts[0], held):
        return None
    first, second = (tuple(found[joint][row] for joint in held) for row in rows)
    return _Group(parts, tuple(held), first, second)


def _is_row(pattern: Pattern, part: Part, joints: list[str]) -> bool:
    """Tell whether rivets stand in a row, or in rows far apart that are read against each other."""
    ways = chains(pattern, (part.id,), joints)
    if sorted(joint for way in ways for joint in way) != sorted(joints):
        return False
    if len(ways) > 1:
        return True
    at = {joint: rung(pattern, joint)[Row(part.id)].centre for joint in joints}
    spots = [at[joint] for joint in ways[0]]
    headings = [atan2(b[1] - a[1], b[0] - a[0]) for a, b in pairwise(spots)]
    turns = (abs((b - a + pi) % (2 * pi) - pi) for a, b in pairwise(headings))
    return max(turns, default=0.0) <= _SHARP


def _worst(group: _Group) -> _Miss:
    misses = [
        _Miss(
            one,
            other,
            dist(group.on_first[one].centre, group.on_first[other].centre),
            dist(group.on_second[one].centre, group.on_second[other].centre),
        )
        for one, other in combinations(range(len(group.joints)), 2)
    ]
    return max(misses, key=lambda miss: miss.by_mm)


def _measure(group: _Group, constants: Constants) -> Measure:
    worst, names = _worst(group), [part.name for part in group.parts]
    count = len(group.joints)
    wrong = worst.by_mm > constants.misfit.value
    finding = _finding(group, worst, constants) if wrong else None
    return Measure(
        id=f"rows:group:{'+'.join(part.id for part in group.parts)}",
        topic=Topic.ROWS,
        title=f"{count} rivets through {names[0]} and {names[1]}, across",
        verdict=f"out by {worst.by_mm:.1f} mm" if finding else "meet",
        text=finding.text
        if finding
        else f"All distances between the {count} rivets agree to {worst.by_mm:.1f} mm.",
        figures=tuple(_figures(group, worst)),
        findings=(finding,) if finding else (),
        marks=tuple(_marks(group, worst, finding)),
        about=(*(part.id for part in group.parts), *group.joints),
    )


def _finding(group: _Group, worst: _Miss, constants: Constants) -> Finding:
    first, second = group.parts
    one, other = group.joints[worst.one], group.joints[worst.other]
    holes = tuple(row[at] for row in (group.on_first, group.on_second) for at in worst[:2])
    return Finding(
        code="row-misfit",
        severity=Severity.WARNING,
        text=f"'{one}' and '{other}' are {worst.first_mm:.1f} mm apart on {first.name} but "
        f"{worst.second_mm:.1f} mm on {second.name}: they miss by {worst.by_mm:.1f} mm, and both "
        "are flat.",
        remedy=f"In the drawing move one of them by {worst.by_mm:.1f} mm, or one on each part by "
        f"{worst.by_mm / 2:.1f} mm; if one of the parts is shaped, write a form for it; "
        f"{cut_leather(worst.by_mm, holes, constants)}",
        about=(one, other, first.id, second.id),
    )


def _figures(group: _Group, worst: _Miss) -> Iterator[Figure]:
    yield Figure(
        name="most that a distance differs",
        value=worst.by_mm,
        unit="mm",
        formula=difference(*sorted((worst.first_mm, worst.second_mm), reverse=True)),
        source=MEASURED,
    )
    flat = laid(centres(group.on_first), centres(group.on_second))
    if flat is not None:
        yield Figure(
            name="holes miss by, one part laid on the other",
            value=flat.residual_mm,
            unit="mm",
            formula=f"√(Σ miss² / {len(group.joints)}) = {flat.residual_mm:.1f}",
            source=KABSCH,
        )


def _marks(group: _Group, worst: _Miss, finding: Finding | None) -> Iterator[Mark]:
    if finding is None:
        return
    for part, row, mm in (
        (group.parts[0], group.on_first, worst.first_mm),
        (group.parts[1], group.on_second, worst.second_mm),
    ):
        yield Mark(
            kind=MarkKind.SPAN,
            part=part.id,
            spots=(row[worst.one].centre, row[worst.other].centre),
            label=f"{mm:.1f} mm",
            severity=finding.severity,
        )
