"""What lies over the parts on the drawing table: what is chosen, what is being moved, ghosts, marks."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import islice
from types import MappingProxyType

from armorplan.desktop.shape_edit_choice import Choice
from armorplan.desktop.shape_edit_scene import HOLE, PART, TableScene, middle
from armorplan.kernel.findings import Finding, Severity, rank
from armorplan.pattern.parts import Point, Ring

MARKS_MOST = 80
"""Of more findings only so many are marked on the drawing; the list has them all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ghost:
    """An outline or a line with holes (centre, diameter in mm) that is not in the pattern."""

    outline: Ring = ()
    holes: tuple[tuple[Point, float], ...] = ()
    pairs: tuple[tuple[Point, Point], ...] = ()
    """Holes that would be joined, as lines."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """Where a finding is shown on the drawing."""

    at: Point
    severity: Severity


@dataclass(frozen=True, slots=True, kw_only=True)
class OverTable:
    """All that is drawn over the parts.

    Attributes:
        moved: by hole, where it would lie; its place in the pattern is not changed yet.
    """

    choice: Choice = field(default_factory=Choice)
    moved: Mapping[str, Point] = field(default_factory=lambda: MappingProxyType({}))
    ghosts: tuple[Ghost, ...] = ()
    marks: tuple[Mark, ...] = ()


def moved_by(scene: TableScene, holes: tuple[str, ...], by_mm: Point) -> dict[str, Point]:
    """Return where holes would lie; of what is not there any more, nothing."""
    spots = scene.spots
    places = ((hole, spots[HOLE + hole]) for hole in holes if HOLE + hole in spots)
    return {hole: (x + by_mm[0], y + by_mm[1]) for hole, (x, y) in places}


def marks_of(scene: TableScene, findings: tuple[Finding, ...]) -> tuple[Mark, ...]:
    """Return where findings are marked, one mark a place, the gravest of those there.

    What is only to be known is in the list, not on the drawing.
    """
    found: dict[Point, Severity] = {}
    worth = (finding for finding in findings if finding.severity is not Severity.NOTE)
    for finding in islice(worth, MARKS_MOST):
        keys = scene.keys_about(finding.about)
        holes = tuple(scene.spots[key] for key in keys if key.startswith(HOLE))
        at = middle(holes) if holes and _is_together(scene, keys) else None
        for place in (
            (at,) if at else tuple(scene.spots[key] for key in keys if key.startswith(PART))
        ):
            worst = found.get(place)
            if worst is None or rank(finding.severity) < rank(worst):
                found[place] = finding.severity
        if holes and at is None:
            found.setdefault(holes[0], finding.severity)
    return tuple(Mark(at=at, severity=severity) for at, severity in found.items())


def _is_together(scene: TableScene, keys: tuple[str, ...]) -> bool:
    """Tell whether all lie in one part: only then a mark in their middle is at the place."""
    return len({scene.part_of(key) for key in keys}) == 1
