"""What a machine leaves to do by hand: spots it did not cut through, and the char of a laser."""

from collections.abc import Iterator

from armorplan.pattern.choosing import cut_by_machine
from armorplan.steps.model import Step, StepKind
from armorplan.steps.scene import Group


def after_machine_steps(group: Group) -> Iterator[Step]:
    """Yield the work on a piece's parts when they come off a machine; none where knives cut them."""
    scene = group.scene
    if not cut_by_machine(scene.assembly.pattern):
        return
    count = scene.count(group.parts)
    yield group.hand_step(
        StepKind.FREE,
        group.piece,
        f"Cut free what the machine left in {group.name}",
        parts=group.parts,
        minutes=scene.reckon(StepKind.FREE, parts=count),
        detail="Leather is of uneven thickness: look at each part from the flesh side before you lift "
        "it, and cut the spots that hold. Pulled out, the grain tears.",
    )
    yield group.hand_step(
        StepKind.CHAR,
        group.piece,
        f"Take the char off {group.name}",
        parts=group.parts,
        minutes=scene.reckon(StepKind.CHAR, parts=count, cm=scene.edge_cm(group.parts)),
        detail="After a laser only: brush edges and holes, then wipe with a barely damp cloth until it "
        "stays clean. Edges that are to take dye are sanded. A knife leaves no char: tick it off.",
    )
