"""The armour as it is to be made: parts and joints once for each side."""

from dataclasses import dataclass, field
from enum import StrEnum
from itertools import pairwise
from typing import TYPE_CHECKING

from armorplan.pattern.joining import Form, Joint, Seam, Thread, Treatment
from armorplan.pattern.parts import Part
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.wearing import HardwareUse

if TYPE_CHECKING:
    import networkx as nx


class Side(StrEnum):
    """Which side of the wearer; ``single`` for a piece that is not one of a pair."""

    SINGLE = "single"
    LEFT = "left"
    RIGHT = "right"

    def tag(self, plain_id: str) -> str:
        """Return the id as it reads on this side: ``strap`` or ``strap.left``."""
        return plain_id if self is Side.SINGLE else f"{plain_id}.{self.value}"


@dataclass(frozen=True, slots=True, kw_only=True)
class SidedPart:
    """A part on one side. ``id`` carries the side: ``strap.left``."""

    id: str
    part: Part
    side: Side


@dataclass(frozen=True, slots=True, kw_only=True)
class SidedJoint:
    """A joint on one side; ``stack`` holds (sided part id, hole id), the outermost first.

    A layer that is glued or stitched over its surface has no hole: its hole id is empty.
    """

    id: str
    joint: Joint
    piece: str
    side: Side
    stack: tuple[tuple[str, str], ...]

    @property
    def parts(self) -> tuple[str, ...]:
        """Sided part ids it passes, outermost first, each once."""
        return tuple(dict.fromkeys(part for part, _ in self.stack))

    @property
    def closes_on_itself(self) -> bool:
        """Tell whether it passes one part twice: a loop, a folded strap."""
        return len(self.parts) < len(self.stack)

    @property
    def takes_pin(self) -> bool:
        """Tell whether it has holes at the dry fit: what is placed on the wearer is marked then."""
        return all(hole for _, hole in self.stack) and not self.joint.placed_on_wearer


@dataclass(frozen=True, slots=True, kw_only=True)
class SidedSeam:
    """A seam on one side; ``joints`` are sided joint ids along the row."""

    id: str
    seam: Seam
    piece: str
    side: Side
    joints: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SidedThread:
    """A thread on one side, all ids sided but slots, which keep the drawing's id.

    ``hosts`` are the parts it passes: those with the slots, and keepers by name.
    """

    id: str
    thread: Thread
    piece: str
    side: Side
    part: str
    through: tuple[str, ...]
    hosts: tuple[str, ...]
    closed_by: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SidedHardware:
    """A buckle or ring on one side; part and joints sided."""

    id: str
    hardware: HardwareUse
    piece: str
    side: Side
    part: str
    held_by: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SidedForm:
    """A form on one side; parts and seams sided."""

    id: str
    form: Form
    piece: str
    side: Side
    parts: tuple[str, ...]
    seams: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SidedTreatment:
    """A treatment of one piece on one side: one dip a piece; schedule merges dips by batch key."""

    id: str
    treatment: Treatment
    piece: str
    side: Side
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """A part that lies over another joint's head: ``covered_pct`` of the head's area."""

    cover: str
    joint: str
    covered_pct: float
    declared: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembly:
    """Everything a build is made of, sided ids throughout, in the pattern's order."""

    build: str
    pattern: Pattern
    parts: tuple[SidedPart, ...]
    joints: tuple[SidedJoint, ...] = ()
    seams: tuple[SidedSeam, ...] = ()
    threads: tuple[SidedThread, ...] = ()
    forms: tuple[SidedForm, ...] = ()
    treatments: tuple[SidedTreatment, ...] = ()
    covers: tuple[Cover, ...] = ()
    hardware: tuple[SidedHardware, ...] = ()
    _parts: dict[str, SidedPart] = field(init=False, repr=False, compare=False)
    _joints: dict[str, SidedJoint] = field(init=False, repr=False, compare=False)
    _of_part: dict[str, list[SidedJoint]] = field(init=False, repr=False, compare=False)
    _seams: dict[str, SidedSeam] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Index parts, joints and seams once."""
        of_part: dict[str, list[SidedJoint]] = {}
        for joint in self.joints:
            for part in joint.parts:
                of_part.setdefault(part, []).append(joint)
        object.__setattr__(self, "_of_part", of_part)
        object.__setattr__(self, "_seams", {j: s for s in self.seams for j in s.joints})
        object.__setattr__(self, "_parts", {p.id: p for p in self.parts})
        object.__setattr__(self, "_joints", {j.id: j for j in self.joints})

    def part(self, part_id: str) -> SidedPart:
        """Return a sided part; KeyError where there is none."""
        return self._parts[part_id]

    def joint(self, joint_id: str) -> SidedJoint:
        """Return a sided joint; KeyError where there is none."""
        return self._joints[joint_id]

    def joints_of(self, part_id: str) -> tuple[SidedJoint, ...]:
        """Return the joints that pass a sided part, in the pattern's order."""
        return tuple(self._of_part.get(part_id, ()))

    def seam_of(self, joint_id: str) -> SidedSeam | None:
        """Return the seam a sided joint belongs to, or ``None``."""
        return self._seams.get(joint_id)

    def graph(self) -> "nx.MultiGraph[str]":
        """Return the assembly graph: sided parts as nodes, an edge for each two layers that meet.

        A joint of three layers gives two edges, each keyed by the joint's id. A joint that closes
        a part on itself gives a loop.
        """
        import networkx as nx

        graph: nx.MultiGraph[str] = nx.MultiGraph()
        graph.add_nodes_from(p.id for p in self.parts)
        for joint in self.joints:
            layers = [part for part, _ in joint.stack]
            for outer, inner in pairwise(layers):
                graph.add_edge(outer, inner, key=joint.id)
        return graph
