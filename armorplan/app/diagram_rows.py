"""The diagram of the parts as rows: real outlines, each side where it can be seen."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import pairwise

import networkx as nx

from armorplan.app.derived import Derived
from armorplan.app.rows import BenchState, Diagram, DiagramHole, DiagramJoint, DiagramPart
from armorplan.assembly.model import Side
from armorplan.pattern.parts import Point, Ring
from armorplan.pattern.pattern import Pattern
from armorplan.steps.naming import part_name

_GAP_MM = 40.0
"""Between the left and the right side, so that they read as two."""


_Turn = Callable[[Side], Callable[[Point], Point]]


def _turner(pattern: Pattern) -> _Turn:
    """Return how a point of the drawing is shown on each side.

    The drawing shows the left; the right is its mirror image beside it. The mirror is about the
    middle of the whole drawing, so the outer sides of both lie outward.
    """
    xs = [x for part in pattern.parts for x, _ in part.outline]
    low, high = min(xs, default=0.0), max(xs, default=0.0)

    def turn(side: Side) -> Callable[[Point], Point]:
        if side is Side.RIGHT:
            return lambda p: (2 * high - low + _GAP_MM + (low - p[0]), p[1])
        return lambda p: p

    return turn


def _layers(derived: Derived) -> dict[str, int]:
    """Return a drawing order in which every outer layer comes after what lies under it.

    The longest chain of layers under a part. Parts that overlap in a ring (each petal over the
    next) lie over one another without end, so they share one layer.
    """
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_nodes_from(part.id for part in derived.assembly.parts)
    for joint in derived.assembly.joints:
        for (outer, _), (inner, _) in pairwise(joint.stack):
            graph.add_edge(inner, outer)
    rings = nx.condensation(graph)
    return {
        part: layer
        for layer, level in enumerate(nx.topological_generations(rings))
        for ring in level
        for part in rings.nodes[ring]["members"]
    }


def _middle(ring: Ring) -> Point:
    from shapely import Polygon

    point = Polygon(ring).representative_point()
    return (point.x, point.y)


class DiagramRows:
    """The diagram of one build: laid out once, told anew how its joints stand."""

    def __init__(self, derived: Derived) -> None:
        turn = _turner(derived.pattern)
        self._parts = tuple(_part_rows(derived, turn))
        self._holes = tuple(_hole_rows(derived, turn))
        self._joints = tuple(_joint_rows(derived))

    def at(self, state_of: Callable[[str], BenchState]) -> Diagram:
        """Return the rows of the diagram; ``state_of`` tells the state of a step."""
        return Diagram(
            parts=self._parts,
            holes=self._holes,
            joints=tuple(
                joint if joint.step is None else replace(joint, state=state_of(joint.step))
                for joint in self._joints
            ),
        )


def _part_rows(derived: Derived, turn: _Turn) -> Iterator[DiagramPart]:
    layers = _layers(derived)
    for sided in derived.assembly.parts:
        place = turn(sided.side)
        outline = tuple(place(p) for p in sided.part.outline)
        yield DiagramPart(
            id=sided.id,
            name=part_name(derived.assembly, sided.id),
            kind=sided.part.kind,
            piece=sided.part.piece,
            outline=outline,
            slots=tuple(tuple(place(p) for p in slot.outline) for slot in sided.part.slots),
            label_at=_middle(outline),
            layer=layers[sided.id],
        )


def _hole_rows(derived: Derived, turn: _Turn) -> Iterator[DiagramHole]:
    joint_at = {place: joint.id for joint in derived.assembly.joints for place in joint.stack}
    for sided in derived.assembly.parts:
        place = turn(sided.side)
        for hole in sided.part.holes:
            yield DiagramHole(
                id=sided.side.tag(hole.id),
                part=sided.id,
                joint=joint_at.get((sided.id, hole.id)),
                centre=place(hole.centre),
                diameter_mm=hole.diameter_mm,
            )


def _joint_rows(derived: Derived) -> Iterator[DiagramJoint]:
    for joint in derived.assembly.joints:
        fastener = derived.shelf.fastener(joint.joint.fastener)
        step = derived.work.setting(joint.id)
        hole_mm = derived.pattern.hole(joint.joint.stack[0]).diameter_mm
        yield DiagramJoint(
            id=joint.id,
            kind=joint.joint.kind,
            fastener=fastener.name if fastener else joint.joint.fastener,
            head_mm=fastener.head_mm if fastener else hole_mm,
            stack=tuple(part_name(derived.assembly, part) for part, _ in joint.stack),
            parts=joint.parts,
            step=step.id if step else None,
            state=BenchState.WAITING,
        )
