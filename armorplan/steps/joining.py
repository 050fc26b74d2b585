"""Steps that hold parts together: threading, dry fit, marks, fasteners, the last fit."""

from collections.abc import Iterator

from armorplan.assembly.model import SidedJoint, SidedThread
from armorplan.drying.windows import handle_min
from armorplan.pattern.joining import JointKind, Motion
from armorplan.steps.drying_step import drying_step
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import names, part_name, piece_name, with_side
from armorplan.steps.scene import Group
from armorplan.workshop.fastening import choose_length, pinched_mm

SETTING = {
    JointKind.RIVET: StepKind.RIVET,
    JointKind.SCREW: StepKind.SCREW,
    JointKind.GLUE: StepKind.GLUE,
    JointKind.STITCH: StepKind.STITCH,
    JointKind.LACE: StepKind.LACE,
}
_VERBS = {
    StepKind.RIVET: "Rivet",
    StepKind.SCREW: "Screw",
    StepKind.GLUE: "Glue",
    StepKind.STITCH: "Stitch",
    StepKind.LACE: "Lace",
}


def _through_words(group: Group, thread: SidedThread) -> str:
    pattern, assembly = group.scene.assembly.pattern, group.scene.assembly
    slots = sum(pattern.has_slot(name) for name in thread.through)
    if not slots:
        return names(assembly, thread.hosts)
    return f"{'the slot' if slots == 1 else f'{slots} slots'} of {names(assembly, thread.hosts)}"


def threading_steps(group: Group) -> Iterator[Step]:
    """Yield each threading of a strap or keeper."""
    scene = group.scene
    for thread in scene.assembly.threads:
        if (thread.piece, thread.side) != (group.piece, group.side):
            continue
        yield group.hand_step(
            StepKind.THREAD,
            thread.id,
            f"Thread {part_name(scene.assembly, thread.part)} through "
            f"{_through_words(group, thread)}",
            parts=tuple(dict.fromkeys((thread.part, *thread.hosts))),
            minutes=scene.reckon(StepKind.THREAD, parts=1),
        )


def fitting_steps(group: Group, parts: tuple[str, ...]) -> Iterator[Step]:
    """Yield the dry fit and, where straps find their place on the wearer, marks and punching."""
    scene, assembly = group.scene, group.scene.assembly
    joints = scene.joints_in(group.piece, group.side)
    if not joints:
        return
    name = piece_name(assembly, group.piece, group.side)
    # A joint to another piece is tried here too, so that piece's parts are on the bench as well.
    tried = tuple(dict.fromkeys((*parts, *(p for j in joints for p in j.parts))))
    yield group.hand_step(
        StepKind.DRY_FIT,
        group.piece,
        f"Dry-fit {name} with pins",
        parts=tried,
        joints=tuple(j.id for j in joints),
        minutes=scene.reckon(StepKind.DRY_FIT, parts=len(tried), holes=len(joints)),
        detail=f"{len(joints)} joints with temporary pins; bend fully; sign off before any rivet.",
    )
    placed = tuple(j for j in joints if j.joint.placed_on_wearer)
    if not placed:
        return
    touched = tuple(dict.fromkeys(part for j in placed for part in j.parts))
    yield group.hand_step(
        StepKind.MARK,
        group.piece,
        f"Mark the strap places of {name} on the wearer",
        parts=touched,
        joints=tuple(j.id for j in placed),
        minutes=scene.reckon(StepKind.MARK, holes=len(placed)),
    )
    for part_id in touched:
        holes = [
            hole
            for j in placed
            for part, hole in j.stack
            if part == part_id and scene.waits_for_fit(hole)
        ]
        if holes:
            yield group.hand_step(
                StepKind.PUNCH_MARKED,
                part_id,
                f"Punch {len(holes)} marked {'hole' if len(holes) == 1 else 'holes'} in "
                f"{part_name(assembly, part_id)}",
                parts=(part_id,),
                minutes=scene.reckon(StepKind.PUNCH_MARKED, holes=len(holes)),
            )


def _fastener_words(group: Group, joint: SidedJoint) -> str:
    assembly = group.scene.assembly
    stack_mm = sum(assembly.part(part).part.thickness_mm for part, _ in joint.stack)
    layers = " on ".join(part_name(assembly, part) for part, _ in joint.stack)
    fastener = group.scene.shelf.fastener(joint.joint.fastener)
    if fastener is None:
        return f"{layers}; stack {stack_mm:.1f} mm."
    length_mm = choose_length(stack_mm, fastener)
    post = f"post {length_mm:g} mm" if length_mm else "no post on sale fits"
    turning = ", must turn" if joint.joint.motion is Motion.TURNING else ""
    pinched = f"{stack_mm:.1f} mm, {pinched_mm(stack_mm):.1f} mm pinched"
    return f"{layers}; stack {pinched}, {fastener.name}, {post}{turning}."


def _where(group: Group, joint: SidedJoint) -> str:
    """Return where a joint sits: its place in its seam, or its parts, counted where several."""
    assembly = group.scene.assembly
    seam = assembly.seam_of(joint.id)
    if seam is not None:
        name = with_side(seam.seam.name, seam.side)
        return f"{name}, {seam.joints.index(joint.id) + 1} of {len(seam.joints)}"
    where = names(assembly, joint.parts) + (" on itself" if len(joint.parts) == 1 else "")
    alike = group.scene.alike[joint.id]
    return f"{where}, {alike.index(joint.id) + 1} of {len(alike)}" if len(alike) > 1 else where


def setting_steps(group: Group) -> Iterator[Step]:
    """Yield the setting of each joint, trayed by its seam, and the drying of glue."""
    scene = group.scene
    for joint in scene.joints_in(group.piece, group.side):
        kind, where = SETTING[joint.joint.kind], _where(group, joint)
        seam = scene.assembly.seam_of(joint.id)
        step = group.hand_step(
            kind,
            joint.id,
            f"{_VERBS[kind]} {where}",
            parts=joint.parts,
            joints=(joint.id,),
            minutes=scene.reckon(kind, parts=len(joint.parts), holes=1),
            tray=f"seam:{seam.id}" if seam else f"{kind}",
            fastener=joint.joint.fastener,
            detail=_fastener_words(group, joint),
        )
        yield step
        glue = scene.shelf.treatment(joint.joint.fastener)
        if kind is StepKind.GLUE and glue is not None:
            yield drying_step(group, step, glue, handle_min(glue, scene.climate))


def closing_steps(group: Group, parts: tuple[str, ...]) -> Iterator[Step]:
    """Yield the last fit on the wearer and the inspection."""
    scene = group.scene
    name = piece_name(scene.assembly, group.piece, group.side)
    yield group.hand_step(
        StepKind.FIT,
        group.piece,
        f"Fit {name} on the wearer",
        parts=parts,
        minutes=scene.reckon(StepKind.FIT, parts=len(parts)),
        detail="All bends free, straps hold, nothing pinches. Costume, not protective equipment.",
    )
    yield group.hand_step(
        StepKind.INSPECT,
        group.piece,
        f"Inspect {name}",
        parts=parts,
        minutes=scene.reckon(StepKind.INSPECT, parts=len(parts)),
        detail="No sharp edge, no leaning rivet, strap tips lie away from the body.",
    )
