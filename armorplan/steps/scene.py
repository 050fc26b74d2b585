"""What the deriving modules share: the assembly, the shelf, the air, and how minutes add up."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from math import ceil

from armorplan.assembly.model import Assembly, Side, SidedJoint
from armorplan.geometry.areas import edge_length_mm
from armorplan.pattern.parts import PartKind
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import step_id, tray_id
from armorplan.workshop.shelf import Duration, Shelf
from armorplan.workshop.shop import Climate

_MM_PER_CM = 10.0


@dataclass(frozen=True, kw_only=True)
class Scene:
    """One build with what its minutes are reckoned from."""

    assembly: Assembly
    shelf: Shelf
    climate: Climate

    def groups(self) -> Iterator[tuple[str, Side, tuple[str, ...]]]:
        """Yield each (piece, side) with its sided part ids, in the pattern's order."""
        found: dict[tuple[str, Side], list[str]] = {}
        for sided in self.assembly.parts:
            found.setdefault((sided.part.piece, sided.side), []).append(sided.id)
        for (piece, side), parts in found.items():
            yield piece, side, tuple(parts)

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

    def edge_cm(self, part_ids: tuple[str, ...]) -> float:
        """Return the length of all edges of these parts in cm."""
        return sum(edge_length_mm(self.assembly.part(p).part) for p in part_ids) / _MM_PER_CM

    def reckon(self, kind: StepKind, *, parts: int = 0, holes: int = 0, cm: float = 0.0) -> int:
        """Return hands-on minutes of a step from the durations catalogue, rounded up, at least 1."""
        entry = self.entry(kind)
        minutes = (
            entry.fixed_min
            + entry.per_part_min * parts
            + entry.per_hole_min * holes
            + entry.per_cm_min * cm
        )
        return max(1, ceil(minutes))

    def entry(self, kind: StepKind) -> Duration:
        """Return the durations entry of a kind; KeyError where the catalogue lacks it."""
        return self.shelf.duration(kind.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """One piece on one side, and the making of its steps' ids, trays, tools and cautions."""

    scene: Scene
    piece: str
    side: Side

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
