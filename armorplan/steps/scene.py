"""What the deriving modules share: the assembly, the shelf, the air, and how minutes add up."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from math import ceil

from armorplan.assembly.model import Assembly, Side, SidedJoint
from armorplan.drying.body import Body
from armorplan.geometry.alike.likeness import LookAlike, look_alikes
from armorplan.geometry.areas import edge_length_mm
from armorplan.kernel.units import MM_PER_CM
from armorplan.pattern.choosing import cut_by_machine, time_factor
from armorplan.pattern.parts import Harness, Hole, MadeOn, PartKind
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import piece_name, step_id, tray_id
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Duration, Shelf

_DECIMALS = 6
"""Minutes are added up to far less than a second: what is beyond is only binary noise."""
BY_MACHINE = "cut by machine"
_FROM_TREATMENTS = frozenset(
    (
        StepKind.CASE,
        StepKind.DYE,
        StepKind.OIL,
        StepKind.FINISH,
        StepKind.DRIP,
        StepKind.WATCH,
        StepKind.DRY,
        StepKind.CURE,
    )
)
"""Kinds that take their times from the treatments, not from the durations."""


@dataclass(frozen=True, kw_only=True)
class Scene:
    """One build with what its minutes are reckoned from."""

    assembly: Assembly
    shelf: Shelf
    room: Room

    def body_of(self, part_ids: tuple[str, ...], *, dipped: bool = False) -> Body:
        """Return the thickest of these parts as it dries: once it is dry, all of them are."""
        thicknesses = (self.assembly.part(part).part.thickness_mm for part in part_ids)
        return Body(thickness_mm=max(thicknesses, default=None), dipped=dipped)

    def thin_of(self, part_ids: tuple[str, ...], *, dipped: bool = False) -> Body | None:
        """Return the thinnest of parts of mixed thickness; ``None``: all are alike."""
        thick_mm = {self.assembly.part(part).part.thickness_mm for part in part_ids}
        if len(thick_mm) <= 1:
            return None
        return Body(thickness_mm=min(thick_mm), dipped=dipped)

    def groups(self) -> "Iterator[Group]":
        """Yield each piece on each side, in the pattern's order, then each harness."""
        found: dict[tuple[str, Side], list[str]] = {}
        for sided in self.assembly.parts:
            found.setdefault((sided.part.piece, sided.side), []).append(sided.id)
        for (piece, side), parts in found.items():
            yield Group(scene=self, piece=piece, side=side, parts=tuple(parts))
        for harness in self.assembly.pattern.harnesses:
            yield from self._hung(harness)

    def _hung(self, harness: Harness) -> "Iterator[Group]":
        """Yield a harness on the sides it is joined on, and on those it is tried on as a whole.

        One that has pieces made once is worn whole, so it is tried on once, with both sides.
        """
        members = [p for p in self.assembly.parts if p.part.piece in harness.pieces]
        made = {member.side for member in members}
        whole = {Side.SINGLE} if Side.SINGLE in made else made
        for side in (Side.LEFT, Side.RIGHT, Side.SINGLE):
            if not (side in whole or self.joints_in(harness.id, side)):
                continue
            with_it = made if side is Side.SINGLE else {side, Side.SINGLE}
            parts = tuple(member.id for member in members if member.side in with_it)
            yield Group(
                scene=self,
                piece=harness.id,
                side=side,
                parts=parts,
                is_harness=True,
                is_whole=side in whole,
            )

    @cached_property
    def in_harness(self) -> frozenset[str]:
        """Ids of the pieces that hang in a harness."""
        return frozenset(p for h in self.assembly.pattern.harnesses for p in h.pieces)

    def made_in(self, part_id: str) -> tuple[Hole, ...]:
        """Return the holes of a sided part: without those of joints made on the other side only."""
        pattern, part = self.assembly.pattern, self.assembly.part(part_id).part
        here = {
            hole for j in self.assembly.joints_of(part_id) for p, hole in j.stack if p == part_id
        }
        joined = {hole for joint in pattern.joints for hole in joint.stack}
        return tuple(hole for hole in part.holes if hole.id in here or hole.id not in joined)

    def waits_for_fit(self, hole_id: str) -> bool:
        """Tell whether a hole is punched only after it was marked on the wearer.

        Of a joint placed on the wearer, the outermost strap's own hole is punched flat on the
        bench; the holes it meets are marked at the fit.
        """
        return hole_id in self._marked_holes

    @cached_property
    def _marked_holes(self) -> frozenset[str]:
        found: set[str] = set()
        pattern = self.assembly.pattern
        for joint in pattern.joints:
            if joint.placed_on_wearer:
                flat = next((hole for hole in joint.stack if self._is_strap(hole)), None)
                found.update(hole for hole in joint.stack if hole != flat)
        return frozenset(found)

    def _is_strap(self, hole_id: str) -> bool:
        pattern = self.assembly.pattern
        return pattern.part(pattern.hole(hole_id).part).kind is PartKind.STRAP

    def is_own_shape(self, part_id: str) -> bool:
        """Tell whether a part of a pair is no mirror of another: made on one side, or copied."""
        part = self.assembly.part(part_id).part
        return part.copied or part.made_on is not MadeOn.BOTH

    def parts_of(self, piece: str, side: Side) -> tuple[str, ...]:
        """Return the sided ids of a piece's parts on one side."""
        here = (p for p in self.assembly.parts if (p.part.piece, p.side) == (piece, side))
        return tuple(p.id for p in here)

    def joints_in(self, piece: str, side: Side) -> tuple[SidedJoint, ...]:
        """Return the joints worked with one piece on one side."""
        return tuple(j for j in self.assembly.joints if (j.piece, j.side) == (piece, side))

    @cached_property
    def alike(self) -> dict[str, tuple[str, ...]]:
        """For each joint outside the seams, the joints of its kind between the same parts."""
        groups: dict[tuple[tuple[str, ...], str], list[str]] = {}
        for joint in self.assembly.joints:
            if self.assembly.seam_of(joint.id) is None:
                groups.setdefault((joint.parts, joint.joint.kind), []).append(joint.id)
        return {joint: tuple(group) for group in groups.values() for joint in group}

    def look_alikes(self, plain_parts: tuple[str, ...]) -> tuple[LookAlike, ...]:
        """Return the parts of a piece that look alike; both sides of a pair ask for the same."""
        if plain_parts not in self._look_alikes:
            parts = tuple(map(self.assembly.pattern.part, plain_parts))
            self._look_alikes[plain_parts] = look_alikes(parts)
        return self._look_alikes[plain_parts]

    @cached_property
    def _look_alikes(self) -> dict[tuple[str, ...], tuple[LookAlike, ...]]:
        return {}

    def edge_cm(self, part_ids: tuple[str, ...]) -> float:
        """Return the length of all edges of these parts in cm, each as often as it is cut."""
        parts = [self.assembly.part(p).part for p in part_ids]
        return sum(part.count * edge_length_mm(part) for part in parts) / MM_PER_CM

    def count(self, part_ids: tuple[str, ...]) -> int:
        """Return how many shapes these parts are: one that is cut four times counts four."""
        return sum(self.assembly.part(p).part.count for p in part_ids)

    def reckon(self, kind: StepKind, *, parts: int = 0, holes: int = 0, cm: float = 0.0) -> int:
        """Return hands-on minutes of a step from the durations catalogue, rounded up, at least 1."""
        entry = self.entry(kind)
        minutes = (
            entry.fixed_min
            + entry.per_part_min * parts
            + entry.per_hole_min * holes
            + entry.per_cm_min * cm
        )
        return self.rounded(kind, minutes)

    def rounded(self, kind: StepKind, minutes: float) -> int:
        """Return minutes times what the chosen options make of this kind, rounded up, at least 1."""
        factor = time_factor(self.assembly.pattern, kind.value)
        return max(1, ceil(round(minutes * factor, _DECIMALS)))

    def entry(self, kind: StepKind) -> Duration:
        """Return the durations entry of a kind; an empty one where the catalogue lacks it."""
        machine = kind is StepKind.CUT and cut_by_machine(self.assembly.pattern)
        names = (BY_MACHINE, kind.value) if machine else (kind.value,)
        known = (self._durations[name] for name in names if name in self._durations)
        return next(known, Duration(kind=kind.value))

    def knows(self, kind: StepKind) -> bool:
        """Tell whether the catalogues hold what a kind of step needs."""
        return kind in _FROM_TREATMENTS or kind.value in self._durations

    @cached_property
    def _durations(self) -> dict[str, Duration]:
        return {entry.kind: entry for entry in self.shelf.durations}


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """One piece or harness on one side, and the making of its steps' ids, trays and cautions.

    Attributes:
        parts: sided ids of its parts.
        is_harness: it is a harness; its parts are those of its pieces.
        is_whole: it is tried on as it is here; a harness may be joined on sides it is not worn by.
    """

    scene: Scene
    piece: str
    side: Side
    parts: tuple[str, ...]
    is_harness: bool = False
    is_whole: bool = True

    @property
    def name(self) -> str:
        """Its name, with the side where it is one of a pair."""
        return piece_name(self.scene.assembly, self.piece, self.side)

    @property
    def is_mirror(self) -> bool:
        """It is the right of a pair, and the left, drawn and tried first, shows its shape."""
        left = self.scene.parts_of(self.piece, Side.LEFT) if self.side is Side.RIGHT else ()
        return any(not self.scene.is_own_shape(part) for part in left)

    @property
    def mirror_parts(self) -> tuple[str, ...]:
        """The parts of the right that the left of a pair shows the shape of, or the fit."""
        if self.side is not Side.LEFT:
            return ()
        right = self.scene.parts_of(self.piece, Side.RIGHT)
        mirrored = any(not self.scene.is_own_shape(part) for part in self.parts)
        return right if mirrored else ()

    def sided(self, plain_parts: tuple[str, ...], beside: tuple[str, ...] = ()) -> tuple[str, ...]:
        """Return sided ids of its parts, and of those beside, that go by these in the pattern."""
        part = self.scene.assembly.part
        return tuple(p for p in (*self.parts, *beside) if part(p).part.id in plain_parts)

    def has_all(self, plain_parts: tuple[str, ...], beside: tuple[str, ...] = ()) -> bool:
        """Tell whether all these parts of the pattern are made here, on this side, or beside."""
        part = self.scene.assembly.part
        return {part(p).part.id for p in (*self.parts, *beside)}.issuperset(plain_parts)

    def id(self, kind: StepKind, subject: str) -> str:
        """Return a step id within this group."""
        return step_id(self.scene.assembly.build, self.piece, self.side, kind, subject)

    def tray(self, name: str) -> str:
        """Return a tray id within this group."""
        return tray_id(self.scene.assembly.build, self.piece, self.side, name)

    def hand_step(  # noqa: PLR0913 - every value is a field of the step it makes
        self,
        kind: StepKind,
        subject: str,
        title: str,
        *,
        parts: tuple[str, ...],
        minutes: int,
        tray: str = "",
        joints: tuple[str, ...] = (),
        fastener: str | None = None,
        detail: str = "",
    ) -> Step:
        """Return a hands-on step with tool and cautions from the durations catalogue."""
        entry = self.scene.entry(kind)
        return Step(
            id=self.id(kind, subject),
            kind=kind,
            piece=self.piece,
            side=self.side,
            title=title,
            tray=self.tray(tray or kind.value),
            parts=parts,
            joints=joints,
            minutes=minutes,
            tool=entry.tool,
            fastener=fastener,
            detail=detail,
            cautions=entry.cautions,
        )
