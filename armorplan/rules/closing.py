"""What closes a part: joints of it with itself, seams of a closure, rings of plates.

A pivot closes nothing, nor does what fastens a strap, a trim or a lining.
"""

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING, cast

from armorplan.assembly.model import Assembly, SidedJoint
from armorplan.pattern.joining import FormKind, JointKind, Motion
from armorplan.pattern.parts import PartKind

if TYPE_CHECKING:
    import networkx as nx

_PLATES = (PartKind.PLATE, PartKind.LAME, PartKind.COP)
_RING = 3
_ROWS = 2


def closing_joints(assembly: Assembly, part: str) -> Iterator[SidedJoint]:
    """Yield the joints of a part each of which closes it: with itself, or in a closure's seam."""
    closures = [form for form in assembly.forms if form.form.kind is FormKind.CLOSURE]
    seams = {seam for form in closures for seam in form.seams}
    for joint in assembly.joints_of(part):
        seam = assembly.seam_of(joint.id)
        if _joins_itself(joint, part) or (seam is not None and seam.id in seams):
            yield joint


def _joins_itself(joint: SidedJoint, part: str) -> bool:
    """Tell whether a joint passes a part twice; of a lace, that part and no other."""
    passes = sum(layer == part for layer, _ in joint.stack)
    return passes > 1 and (joint.joint.kind is not JointKind.LACE or joint.parts == (part,))


def closing_rings(assembly: Assembly, part: str) -> Iterator[tuple[str, ...]]:
    """Yield the joints of each ring of plates that a part is in: the last of them closes it.

    Three plates or more that go round, or two that are joined by two seams.
    """
    import networkx as nx

    neighbours = _neighbours(assembly)
    if part not in neighbours:
        return
    blocks = cast("Iterator[set[str]]", nx.biconnected_components(neighbours))
    for block in blocks:
        if part in block and len(block) >= _RING:
            edges = neighbours.subgraph(block).edges
            yield tuple(sorted(j for edge in edges for j in neighbours.edges[edge]["joints"]))
    for other in neighbours.adj[part]:
        joints = neighbours.edges[part, other]["joints"]
        rows = {seam.id for joint in joints if (seam := assembly.seam_of(joint))}
        if len(rows) >= _ROWS:
            yield tuple(joints)


def _neighbours(assembly: Assembly) -> "nx.Graph[str]":
    """Return which plates are fastened to which, with the joints of each two."""
    import networkx as nx

    graph: nx.Graph[str] = nx.Graph()
    for joint in assembly.joints:
        plates = [p for p in joint.parts if assembly.part(p).part.kind in _PLATES]
        if joint.joint.motion is Motion.FIXED:
            for one, other in pairwise(plates):
                graph.add_edge(one, other)
                graph.edges[one, other].setdefault("joints", []).append(joint.id)
    return graph
