"""What closes a part: joints of it with itself, seams of a closure, rings of plates.

A pivot closes nothing, nor does what fastens a strap, a trim or a lining.
"""

from collections.abc import Iterator
from itertools import pairwise
from typing import cast

from armorplan.assembly.model import Assembly, SidedJoint
from armorplan.geometry.reach.lying_flat import Hanging
from armorplan.geometry.reach.net import reach_net
from armorplan.pattern.joining import FormKind, JointKind, Motion
from armorplan.pattern.parts import PartKind

_Neighbours = dict[str, dict[str, list[str]]]
_PLATES = (PartKind.PLATE, PartKind.LAME, PartKind.COP)
_RING = 3
_CHAINED = 2
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

    Three plates or more that go round, or two that are joined by two seams, if the rows draw them
    round: plates that only lie flat on each other close nothing. That the shapes tell (``reach``).
    """
    return (ring for ring in _rings(assembly, part) if _draws_round(assembly, part, ring))


def _rings(assembly: Assembly, part: str) -> Iterator[tuple[str, ...]]:
    neighbours = _neighbours(assembly)
    if part in _going_round(neighbours):
        for block in _blocks(neighbours):
            if part in block and len(block) >= _RING:
                yield tuple(sorted(_within(neighbours, block)))
    for joints in neighbours.get(part, {}).values():
        rows = {seam.id for joint in joints if (seam := assembly.seam_of(joint))}
        if len(rows) >= _ROWS:
            yield tuple(joints)


def _draws_round(assembly: Assembly, part: str, ring: tuple[str, ...]) -> bool:
    """Tell whether a part is shut round once the rows of a ring are made."""
    plain = assembly.part(part).part.id
    made = {assembly.joint(joint).joint.id for joint in ring}
    shells = reach_net(assembly.pattern).shells.values()
    shell = next((shell for shell in shells if plain in shell.parts), None)
    if shell is None:
        return True
    rows = {row.id for row in shell.rows if not made.isdisjoint(row.joints)}
    return Hanging(shell.rows, frozenset()).is_enclosed((plain,), rows)


def _neighbours(assembly: Assembly) -> _Neighbours:
    """Return which plates are fastened to which, with the joints of each two."""
    found: _Neighbours = {}
    for joint in assembly.joints:
        plates = [p for p in joint.parts if assembly.part(p).part.kind in _PLATES]
        if joint.joint.motion is Motion.FIXED:
            for one, other in pairwise(plates):
                joints = found.setdefault(one, {}).setdefault(other, [])
                found.setdefault(other, {})[one] = joints
                joints.append(joint.id)
    return found


def _going_round(neighbours: _Neighbours) -> set[str]:
    """Return the plates left when ends are taken off chains again and again: only they may ring."""
    left = {plate: len(others) for plate, others in neighbours.items()}
    ends = [plate for plate, others in left.items() if others < _CHAINED]
    while ends:
        end = ends.pop()
        if left.pop(end, None) is None:
            continue
        for other in neighbours[end]:
            if other in left:
                left[other] -= 1
                if left[other] < _CHAINED:
                    ends.append(other)
    return set(left)


def _blocks(neighbours: _Neighbours) -> Iterator[set[str]]:
    import networkx as nx

    graph: nx.Graph[str] = nx.Graph()
    graph.add_edges_from((one, other) for one, others in neighbours.items() for other in others)
    return cast("Iterator[set[str]]", nx.biconnected_components(graph))


def _within(neighbours: _Neighbours, block: set[str]) -> Iterator[str]:
    """Yield the joints between plates of a block."""
    for one in block:
        for other, joints in neighbours[one].items():
            if other in block and one < other:
                yield from joints
