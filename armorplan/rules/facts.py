"""What rules look at: the assembly, its steps, and the shelf, with the look-ups rules share."""

from collections.abc import Iterator
from dataclasses import dataclass

from armorplan.assembly.model import Assembly, SidedJoint
from armorplan.steps.model import SETS_JOINT, Step, StepKind, Work
from armorplan.steps.naming import names, part_name
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Climate

COATS = (StepKind.DYE, StepKind.OIL, StepKind.FINISH)
PAPER = (StepKind.MEASURE, StepKind.MOCK_UP)


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """All a rule may know of one build."""

    assembly: Assembly
    work: Work
    shelf: Shelf
    climate: Climate

    def name(self, part_id: str) -> str:
        """Return a sided part's name in words."""
        return part_name(self.assembly, part_id)

    def names(self, part_ids: tuple[str, ...]) -> str:
        """Return part names in words."""
        return names(self.assembly, part_ids)

    def joint_steps(self) -> Iterator[tuple[SidedJoint, Step]]:
        """Yield each joint with the step that sets it."""
        for step in self.work.of_kind(*SETS_JOINT):
            yield self.assembly.joint(step.joints[0]), step

    def steps_setting(self, joints: tuple[str, ...]) -> frozenset[str]:
        """Return ids of the steps that set these joints."""
        found = (self.work.setting(joint) for joint in joints)
        return frozenset(step.id for step in found if step)

    def wet_ends(self) -> Iterator[tuple[Step, Step]]:
        """Yield each wet step with its drying, in the order they stand."""
        for dry in self.work.of_kind(StepKind.DRY):
            if dry.after is not None:
                yield self.work.step(dry.after), dry
