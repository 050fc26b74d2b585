"""The maker's own steps, as the pattern words them."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.steps.drying_step import waiting_step
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import with_side
from armorplan.steps.scene import Group


def own_steps(group: Group) -> Iterator[Step]:
    """Yield the own steps of a piece or harness, with the wait behind each that has one."""
    if not group.is_whole:
        return
    for own in group.scene.assembly.pattern.own_steps:
        if own.piece != group.piece or not group.has_all(own.parts):
            continue
        step = group.hand_step(
            StepKind.OWN,
            group.side.tag(own.id),
            with_side(own.name, group.side),
            parts=group.sided(own.parts) if own.parts else group.parts,
            minutes=group.scene.rounded(StepKind.OWN, own.minutes),
            detail=own.notes,
        )
        cautions = tuple(dict.fromkeys((*step.cautions, *own.cautions)))
        step = replace(step, tool=own.tool or step.tool, cautions=cautions)
        yield step
        if own.wait_min:
            yield waiting_step(group, step, own.wait_min)
