"""The marks of what the shapes tell, laid where the diagram shows their parts."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from math import cos, pi, sin

from armorplan.app.laid_sides import turner
from armorplan.app.rows import DiagramMark
from armorplan.assembly.model import Assembly, SidedPart
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Measure
from armorplan.pattern.parts import Hole, Ring
from armorplan.pattern.pattern import Pattern

_ROUND = 16
_AROUND = 1.5
"""A hole that a finding speaks of is ringed at so many times its diameter."""
_PARTS_MOST = 8
"""Where a finding speaks of more parts than this, none is shaded: it is about all of them."""


def mark_rows(assembly: Assembly, measures: Iterable[Measure]) -> Iterator[DiagramMark]:
    """Yield each mark of the measures once for each side its part is made on.

    What has findings but no marks of its own is marked where the findings lie. A mark on a part
    that this build is made without has no place.
    """
    turn = turner(assembly.pattern)
    sides: dict[str, list[SidedPart]] = {}
    for sided in assembly.parts:
        sides.setdefault(sided.part.id, []).append(sided)
    for measure in measures:
        for mark in measure.marks or _where(assembly.pattern, measure):
            for sided in sides.get(mark.part, ()):
                spots = tuple(turn(sided)(spot) for spot in mark.spots)
                laid = replace(mark, part=sided.id, spots=spots)
                yield DiagramMark(measure=measure.id, mark=laid)


def _where(pattern: Pattern, measure: Measure) -> Iterator[Mark]:
    """Yield rings around the holes and heads that findings speak of, or else the parts' outlines.

    The verdict stands at the first.
    """
    areas = tuple(dict.fromkeys(_areas(pattern, measure)))
    for number, (part, ring) in enumerate(areas):
        yield Mark(
            kind=MarkKind.ZONE,
            part=part,
            spots=ring,
            label="" if number else measure.verdict,
            severity=measure.severity,
        )


def _areas(pattern: Pattern, measure: Measure) -> Iterator[tuple[str, Ring]]:
    named = {name for finding in measure.findings for name in finding.about}
    heads = [j.stack[0] for j in pattern.joints if j.id in named and j.stack]
    holes = [h for part in pattern.parts for h in part.holes if h.id in named or h.id in heads]
    yield from ((hole.part, _ring(hole)) for hole in holes)
    parts = [part for part in pattern.parts if part.id in named]
    if not holes and len(parts) <= _PARTS_MOST:
        yield from ((part.id, part.outline) for part in parts)


def _ring(hole: Hole) -> Ring:
    (x, y), radius = hole.centre, hole.diameter_mm * _AROUND
    turns = (2 * pi * step / _ROUND for step in range(_ROUND))
    return tuple((x + radius * cos(turn), y + radius * sin(turn)) for turn in turns)
