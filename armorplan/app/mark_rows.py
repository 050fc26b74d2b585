"""The marks of what the shapes tell, laid where the diagram shows their parts."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from armorplan.app.laid_sides import turner
from armorplan.app.rows import DiagramMark
from armorplan.assembly.model import Assembly, SidedPart
from armorplan.geometry.measures import Measure


def mark_rows(assembly: Assembly, measures: Iterable[Measure]) -> Iterator[DiagramMark]:
    """Yield each mark of the measures once for each side its part is made on.

    A mark on a part that this build is made without has no place.
    """
    turn = turner(assembly.pattern)
    sides: dict[str, list[SidedPart]] = {}
    for sided in assembly.parts:
        sides.setdefault(sided.part.id, []).append(sided)
    for measure in measures:
        for mark in measure.marks:
            for sided in sides.get(mark.part, ()):
                spots = tuple(turn(sided)(spot) for spot in mark.spots)
                laid = replace(mark, part=sided.id, spots=spots)
                yield DiagramMark(measure=measure.id, mark=laid)
