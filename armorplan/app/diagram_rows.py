"""The diagram of the parts as rows: real outlines, each side where it can be seen."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import pairwise

import networkx as nx

from armorplan.app.derived import Derived
from armorplan.app.laid_sides import Turn, laid_up_deg, turner
from armorplan.app.mark_rows import mark_rows
from armorplan.app.rows import BenchState, Diagram, DiagramHole, DiagramJoint, DiagramPart
from armorplan.assembly.model import Side
from armorplan.geometry.slot_rings import slot_rings
from armorplan.pattern.parts import Point, Ring
from armorplan.steps.naming import part_name


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
        turn = turner(derived.pattern)
        self._parts = tuple(_part_rows(derived, turn))
        self._holes = tuple(_hole_rows(derived, turn))
        self._joints = tuple(_joint_rows(derived))
        self._marks = tuple(mark_rows(derived.assembly, derived.shapes))

    def at(self, state_of: Callable[[str], BenchState]) -> Diagram:
        """Return the rows of the diagram; ``state_of`` tells the state of a step."""
        return Diagram(
            parts=self._parts,
            holes=self._holes,
            joints=tuple(
                joint if joint.step is None else replace(joint, state=state_of(joint.step))
                for joint in self._joints
            ),
            marks=self._marks,
        )


def _part_rows(derived: Derived, turn: Turn) -> Iterator[DiagramPart]:
    layers = _layers(derived)
    for sided in derived.assembly.parts:
        place = turn(sided)
        outline = tuple(place(p) for p in sided.part.outline)
        yield DiagramPart(
            id=sided.id,
            name=part_name(derived.assembly, sided.id),
            kind=sided.part.kind,
            piece=sided.part.piece,
            outline=outline,
            slots=tuple(tuple(place(p) for p in ring) for ring in slot_rings(sided.part)),
            label_at=_middle(outline),
            layer=layers[sided.id],
            side="" if sided.side is Side.SINGLE else sided.side.value,
            plain_name=sided.part.name,
            up_deg=laid_up_deg(sided),
            from_inside=sided.part.drawn_from_inside,
        )


def _hole_rows(derived: Derived, turn: Turn) -> Iterator[DiagramHole]:
    joint_at = {place: joint.id for joint in derived.assembly.joints for place in joint.stack}
    for sided in derived.assembly.parts:
        place = turn(sided)
        for hole in sided.part.holes:
            yield DiagramHole(
                id=sided.side.tag(hole.id),
                part=sided.id,
                joint=joint_at.get((sided.id, hole.id)),
                centre=place(hole.centre),
                diameter_mm=hole.diameter_mm,
            )


def _joint_rows(derived: Derived) -> Iterator[DiagramJoint]:
    """Yield the joints; what is glued or stitched over its surface has no head to show."""
    for joint in derived.assembly.joints:
        shelf, used = derived.shelf, joint.joint.fastener
        fastener = shelf.fastener(used)
        named = fastener or shelf.treatment(used) or shelf.supply(used)
        step = derived.work.setting(joint.id)
        holes = [derived.pattern.hole(hole) for _, hole in joint.stack[:1] if hole]
        yield DiagramJoint(
            id=joint.id,
            kind=joint.joint.kind,
            fastener=named.name if named else used,
            head_mm=fastener.head_mm if fastener else sum(hole.diameter_mm for hole in holes),
            stack=tuple(part_name(derived.assembly, part) for part, _ in joint.stack),
            parts=joint.parts,
            step=step.id if step else None,
            state=BenchState.WAITING,
        )
