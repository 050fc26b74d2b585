"""What lights up in every view when something is chosen."""

from collections.abc import Iterable

from armorplan.app.derived import Derived
from armorplan.app.rows import Selection


def light_steps(derived: Derived, steps: Iterable[str]) -> Selection:
    """Light the parts and joints of these steps."""
    chosen = [derived.work.step(step) for step in steps if derived.work.has(step)]
    return Selection(
        steps=tuple(step.id for step in chosen),
        parts=tuple(dict.fromkeys(p for step in chosen for p in step.parts)),
        joints=tuple(dict.fromkeys(j for step in chosen for j in step.joints)),
    )


def light_joint(derived: Derived, joint_id: str) -> Selection:
    """Light a fastener, the step that sets it, and the layers it passes; nothing if unknown."""
    if not any(joint.id == joint_id for joint in derived.assembly.joints):
        return Selection()
    step = derived.work.setting(joint_id)
    return Selection(
        steps=(step.id,) if step else (),
        parts=derived.assembly.joint(joint_id).parts,
        joints=(joint_id,),
    )


def light_part(derived: Derived, part_id: str, done: frozenset[str]) -> Selection:
    """Light a part, its joints, and the first of its steps that is still to do."""
    if not any(part.id == part_id for part in derived.assembly.parts):
        return Selection()
    mine = {step.id for step in derived.work.touching(part_id)}
    ordered = [step for step in derived.order if step in mine]
    undone = [step for step in ordered if step not in done] or ordered[-1:]
    return Selection(
        steps=tuple(undone[:1]),
        parts=(part_id,),
        joints=tuple(joint.id for joint in derived.assembly.joints_of(part_id)),
    )
