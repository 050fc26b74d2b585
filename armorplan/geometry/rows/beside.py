"""Words and arrows for a hole that lies beside the line of its row."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import dist
from typing import NamedTuple

from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.rows.bundles import Bundle
from armorplan.geometry.rows.faults import Reading
from armorplan.geometry.rows.mends import bears_mm, cut_leather
from armorplan.geometry.rows.sideways import Aside
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Hole, Point, Ring
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants


class Beside(NamedTuple):
    """A hole beside the line of its row, as it is told and drawn.

    Attributes:
        hole: its id.
        aside_mm: how far, above 0 to the right of the row's way on the page.
    """

    finding: Finding
    mark: Mark
    hole: str
    aside_mm: float


def beside(
    pattern: Pattern, bundle: Bundle, read: Sequence[Reading], constants: Constants
) -> Iterator[Beside]:
    """Yield the holes that lie beside the line of a row, each once."""
    told: set[str] = set()
    for reading in read:
        run = reading.run
        for row, found in reading.aside:
            holes = run.holes(row)
            if holes[found.at].id not in told:
                told.add(holes[found.at].id)
                yield _beside(pattern, bundle, (run.joints[found.at], holes, found), constants)


def _beside(
    pattern: Pattern,
    bundle: Bundle,
    out: tuple[str, tuple[Hole, ...], Aside],
    constants: Constants,
) -> Beside:
    joint, row, found = out
    hole = row[found.at]
    part = pattern.part(hole.part)
    edge_mm, back_mm = (_edge_mm(part.outline, spot) for spot in (hole.centre, found.back))
    way, back = ("towards", "inward") if edge_mm < back_mm else ("away from", "towards the edge")
    finding = Finding(
        code="hole-off-row",
        severity=Severity.WARNING,
        text=f"Hole '{hole.id}' of {part.name} lies {found.off_mm:.1f} mm beside the line of "
        f"'{bundle.name}', {way} the edge; the row it meets runs smoothly there.",
        remedy=f"In the drawing move it {found.off_mm:.1f} mm {back}, square to the row; "
        f"{cut_leather(found.off_mm, (hole,), constants, bears_mm=bears_mm(pattern, (hole,)))}",
        about=(*((bundle.id,) * bundle.sewn), joint, part.id, hole.id),
    )
    mark = Mark(
        kind=MarkKind.MOVE,
        part=part.id,
        spots=(hole.centre, found.back),
        label=f"{found.off_mm:.1f} mm",
        severity=finding.severity,
    )
    (ax, ay), (bx, by) = row[found.at - 1].centre, row[found.at + 1].centre
    (x, y), (back_x, back_y) = hole.centre, found.back
    right = (bx - ax) * (y - back_y) - (by - ay) * (x - back_x) > 0
    return Beside(finding, mark, hole.id, found.off_mm if right else -found.off_mm)


def _edge_mm(ring: Ring, spot: Point) -> float:
    """Return how far a spot lies from an outline, in mm."""
    return min((_apart(spot, a, b) for a, b in pairwise([*ring, *ring[:1]])), default=0.0)


def _apart(spot: Point, start: Point, end: Point) -> float:
    (x, y), (ax, ay), (bx, by) = spot, start, end
    length2 = (bx - ax) ** 2 + (by - ay) ** 2
    share = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length2 if length2 else 0.0
    share = min(max(share, 0.0), 1.0)
    return dist(spot, (ax + share * (bx - ax), ay + share * (by - ay)))
