"""The outlines of what was to lie where nothing reaches any more."""

from collections.abc import Iterable, Iterator
from math import cos, pi, sin

from armorplan.app.derived import Derived
from armorplan.app.laid_sides import turner
from armorplan.app.rows import DiagramMark
from armorplan.assembly.model import SidedJoint, SidedPart
from armorplan.geometry.areas import outline_dm2
from armorplan.geometry.covers.places import Laying
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.kernel.findings import Severity
from armorplan.pattern.parts import Point, Ring
from armorplan.steps.naming import part_name

_CORNERS = 16
_AROUND = 1.5
"""The place of a joint is ringed at so many times the diameter of its hole."""
MEASURE = "drill"
"""These marks belong to no measure of the shapes; what they belong to is called so."""


def ghost_marks(derived: Derived, joints: Iterable[str]) -> Iterator[DiagramMark]:
    """Yield, for each joint with its side, a ring round its place on each layer it passes.

    Where shared holes lay the two outermost layers on each other, the smaller is outlined on the
    larger one.
    """
    ghosts = _Ghosts(derived)
    for joint in joints:
        yield from ghosts.of(derived.assembly.joint(joint))


class _Ghosts:
    def __init__(self, derived: Derived) -> None:
        self._derived = derived
        self._laying = Laying(derived.pattern)
        self._turn = turner(derived.pattern)
        self._parts = {part.id: part for part in derived.assembly.parts}

    def of(self, joint: SidedJoint) -> Iterator[DiagramMark]:
        """Yield the marks of one joint."""
        holes = [hole for _, hole in joint.stack]
        for part, hole in zip((p for p, _ in joint.stack), holes, strict=True):
            if hole:
                yield self._mark(joint, self._parts[part], self._ring(hole), MarkKind.ZONE)
        layers = joint.parts
        if len(layers) > 1:
            outer, beneath = (self._parts[part] for part in layers[:2])
            yield from self._laid(joint, outer, beneath)

    def _laid(
        self, joint: SidedJoint, outer: SidedPart, beneath: SidedPart
    ) -> Iterator[DiagramMark]:
        """Yield the outline of the smaller of two layers on the larger one."""
        places = self._laying.beneath(outer.part.id).get(beneath.part.id, ())
        outer_is_small = outline_dm2(outer.part) < outline_dm2(beneath.part)
        for place in places:
            if outer_is_small:
                on, of, ring = beneath, outer, place.onto_beneath(outer.part.outline)
            else:
                laid = tuple(place.into_cover(spot) for spot in beneath.part.outline)
                on, of, ring = outer, beneath, laid
            yield self._mark(joint, on, ring, MarkKind.GHOST, of.id)

    def _mark(
        self, joint: SidedJoint, part: SidedPart, ring: Ring, kind: MarkKind, of: str = ""
    ) -> DiagramMark:
        place = self._turn(part)
        mark = Mark(
            kind=kind,
            part=part.id,
            spots=tuple(place(spot) for spot in ring),
            label=part_name(self._derived.assembly, of) if of else "",
            severity=Severity.ERROR,
        )
        return DiagramMark(measure=f"{MEASURE}:{joint.id}", mark=mark)

    def _ring(self, hole: str) -> Ring:
        found = self._derived.pattern.hole(hole)
        return tuple(_round(found.centre, found.diameter_mm * _AROUND))


def _round(centre: Point, radius_mm: float) -> Iterator[Point]:
    for step in range(_CORNERS):
        turn = 2 * pi * step / _CORNERS
        yield centre[0] + radius_mm * cos(turn), centre[1] + radius_mm * sin(turn)
