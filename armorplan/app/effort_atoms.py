"""What is set in one go: rows of the shells, and seats that hold the same parts. Plain ids."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from armorplan.assembly.model import Assembly, Side
from armorplan.geometry.reach.model import ReachNet
from armorplan.steps.model import SETS_JOINT, Step, Work

_SIDES = {side: at for at, side in enumerate(Side)}


@dataclass(frozen=True, slots=True, kw_only=True)
class SetTogether:
    """Joints that are set in one go.

    Attributes:
        id: of its first joint.
        row: the row's id in the net of reach; empty for seats and for what lies in no shell.
        joints: plain ids; of a row in their order along it.
    """

    id: str
    row: str
    joints: tuple[str, ...]


def setting_steps_of(work: Work, assembly: Assembly) -> dict[str, Step]:
    """Return by plain joint the step that sets it: of a pair, the one on the left."""
    found: dict[str, Step] = {}
    for step in work.steps:
        for joint in step.joints if step.kind in SETS_JOINT else ():
            plain = assembly.joint(joint).joint.id
            if plain not in found or _SIDES[step.side] < _SIDES[found[plain].side]:
                found[plain] = step
    return found


def set_together(
    net: ReachNet, steps: Mapping[str, Step], listed: Callable[[str], tuple[int, ...]]
) -> tuple[SetTogether, ...]:
    """Return what is set in one go, as the pattern lists it.

    Joints of one row that different pieces or kinds of step set are set apart.

    Args:
        net: rows of the shells.
        steps: by plain joint the step that sets it.
        listed: where a step stands in the pattern's own order.
    """
    rows = {j: row.id for shell in net.shells.values() for row in shell.rows for j in row.joints}
    along = {
        j: at for s in net.shells.values() for row in s.rows for at, j in enumerate(row.joints)
    }
    groups: dict[tuple[object, ...], list[str]] = {}
    for joint in sorted(steps, key=lambda one: listed(steps[one].id)):
        step, row = steps[joint], rows.get(joint, "")
        what = row or (step.parts, step.tray, joint in net.access)
        groups.setdefault((step.piece, step.kind, what), []).append(joint)
    return tuple(
        SetTogether(
            id=joints[0],
            row=rows.get(joints[0], ""),
            joints=tuple(sorted(joints, key=along.__getitem__) if joints[0] in rows else joints),
        )
        for joints in groups.values()
    )


def one_by_one(groups: Iterable[SetTogether], apart: frozenset[str]) -> tuple[SetTogether, ...]:
    """Return the groups with those named taken apart into single joints."""
    return tuple(
        single
        for group in groups
        for single in (
            [SetTogether(id=j, row=group.row, joints=(j,)) for j in group.joints]
            if group.id in apart
            else [group]
        )
    )
