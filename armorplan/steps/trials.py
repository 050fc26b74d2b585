"""Trials on the wearer: what is looked for, the dry fit, marks, the last fit, and packing."""

from collections.abc import Iterator

from armorplan.assembly.model import SidedJoint
from armorplan.pattern.wearing import CheckTime
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import part_name
from armorplan.steps.scene import Group
from armorplan.steps.wearing_words import girth_words, hanging_words

_AT = {
    CheckTime.MOCK_UP: "on the card mock-up",
    CheckTime.DRY_FIT: "at the dry fit",
    CheckTime.FIT: "at the last fit",
}


def check_steps(group: Group, when: CheckTime) -> Iterator[Step]:
    """Yield what the pattern wants looked for at one of the trials."""
    if not group.is_whole:
        return
    in_card = when is CheckTime.MOCK_UP
    if in_card and group.is_mirror:
        # Card is tried once for a pair.
        return
    beside = group.mirror_parts if in_card else ()
    for check in group.scene.assembly.pattern.fit_checks:
        mine = check.piece == group.piece and check.when is when
        if not (mine and group.has_all(check.parts, beside)):
            continue
        yield group.hand_step(
            StepKind.CHECK,
            group.side.tag(check.id),
            f"Check {_AT[when]} of {group.name}: {check.name.removesuffix('.')}",
            parts=group.sided(check.parts, beside) if check.parts else (*group.parts, *beside),
            minutes=group.scene.reckon(StepKind.CHECK),
            tray=f"{StepKind.CHECK}:{when}",
            detail=check.notes,
        )


def fitting_steps(group: Group) -> Iterator[Step]:
    """Yield the dry fit and, where straps find their place on the wearer, marks and punching."""
    scene = group.scene
    joints = scene.joints_in(group.piece, group.side)
    if not joints:
        return
    # A joint to another piece is tried here too, so that piece's parts are on the bench as well.
    tried = tuple(dict.fromkeys((*group.parts, *(p for j in joints for p in j.parts))))
    pins = f"{_tried_words(joints)}; bend fully; sign off before any rivet."
    yield group.hand_step(
        StepKind.DRY_FIT,
        group.piece,
        f"Dry-fit {group.name} with pins",
        parts=tried,
        joints=tuple(j.id for j in joints),
        minutes=scene.reckon(StepKind.DRY_FIT, parts=len(tried), holes=len(joints)),
        detail=" ".join((*hanging_words(group), pins)),
    )
    placed = tuple(j for j in joints if j.joint.placed_on_wearer)
    if placed:
        yield from _marking(group, placed)


def _tried_words(joints: tuple[SidedJoint, ...]) -> str:
    """Say how many joints are tried on pins, and how many find their place on the wearer."""
    placed = sum(joint.joint.placed_on_wearer for joint in joints)
    pinned = sum(joint.takes_pin for joint in joints)
    count = f"{pinned} {'joint' if pinned == 1 else 'joints'} to try on temporary pins"
    return f"{count}, {placed} to mark on the wearer" if placed else count


def _marking(group: Group, placed: tuple[SidedJoint, ...]) -> Iterator[Step]:
    scene, assembly = group.scene, group.scene.assembly
    touched = tuple(dict.fromkeys(part for j in placed for part in j.parts))
    plain = {assembly.part(part).part.id for part in touched}
    yield group.hand_step(
        StepKind.MARK,
        group.piece,
        f"Mark the strap places of {group.name} on the wearer",
        parts=touched,
        joints=tuple(j.id for j in placed),
        minutes=scene.reckon(StepKind.MARK, holes=len(placed)),
        detail=" ".join(girth_words(assembly.pattern, plain)),
    )
    for part_id in touched:
        met = [hole for j in placed for part, hole in j.stack if part == part_id]
        holes = [hole for hole in met if scene.waits_for_fit(hole)]
        if holes:
            yield group.hand_step(
                StepKind.PUNCH_MARKED,
                part_id,
                f"Punch {len(holes)} marked {'hole' if len(holes) == 1 else 'holes'} in "
                f"{part_name(assembly, part_id)}",
                parts=(part_id,),
                minutes=scene.reckon(StepKind.PUNCH_MARKED, holes=len(holes)),
            )


def closing_steps(group: Group) -> Iterator[Step]:
    """Yield the last fit on the wearer and the inspection."""
    if not group.is_whole:
        return
    scene = group.scene
    free = "All bends free, straps hold, nothing pinches. Costume, not protective equipment."
    yield group.hand_step(
        StepKind.FIT,
        group.piece,
        f"Fit {group.name} on the wearer",
        parts=group.parts,
        minutes=scene.reckon(StepKind.FIT, parts=len(group.parts)),
        detail=" ".join((*hanging_words(group), free)),
    )
    yield from check_steps(group, CheckTime.FIT)
    yield group.hand_step(
        StepKind.INSPECT,
        group.piece,
        f"Inspect {group.name}",
        parts=group.parts,
        minutes=scene.reckon(StepKind.INSPECT, parts=len(group.parts)),
        detail="No sharp edge, no leaning rivet, strap tips lie away from the body.",
    )


def packing_steps(group: Group) -> Iterator[Step]:
    """Yield the packing: of a piece that hangs in no harness, or of the harness as a whole."""
    if not group.is_whole or group.piece in group.scene.in_harness:
        return
    yield group.hand_step(
        StepKind.PACK,
        group.piece,
        f"Label and pack {group.name}",
        parts=group.parts,
        minutes=group.scene.reckon(StepKind.PACK, parts=len(group.parts)),
        detail="Flat parts flat, formed ones stuffed, nothing crushed; spare rivets and how to "
        "care for it with it.",
    )
