"""Steps that hold parts together: threading and the setting of every joint."""

from collections.abc import Iterator
from itertools import groupby

from armorplan.assembly.model import SidedJoint, SidedThread
from armorplan.geometry.row_lengths import row_mm
from armorplan.geometry.stacks import joint_post, joint_stack
from armorplan.geometry.widths import LIMP
from armorplan.kernel.units import MM_PER_CM
from armorplan.pattern.joining import JointKind, Motion
from armorplan.steps.drying_step import curing_step, drying_step
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import names, part_name, with_side
from armorplan.steps.scene import Group
from armorplan.steps.wetted import with_vapour

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


def _passes(joint: SidedJoint) -> int:
    """Return how many holes are worked one by one: each of a lace, else the one of the joint."""
    return len(joint.joint.stack) if joint.joint.kind is JointKind.LACE else 1


def _fastener_words(group: Group, joint: SidedJoint) -> str:
    assembly = group.scene.assembly
    if joint.joint.kind is JointKind.LACE:
        return _lace_words(group, joint)
    stack = joint_stack(assembly.pattern, joint.joint)
    stack_mm = stack.most_mm
    layers = _layer_words(group, joint)
    fastener = group.scene.shelf.fastener(joint.joint.fastener)
    if fastener is None:
        bits = (f"stack {stack_mm:.1f} mm", *_held_by(group, joint))
        return f"{layers}; {', '.join(bits)}."
    held = joint_post(assembly.pattern, group.scene.shelf, joint.joint)
    if held is None:
        return f"{layers}; stack {stack_mm:.1f} mm, {fastener.name}."
    length_mm = held.length_mm
    post = f"post {length_mm:g} mm" if length_mm else "no post on sale fits"
    moves = {Motion.FIXED: "", Motion.TURNING: ", must turn", Motion.SLIDING: ", must slide"}
    pinched = f"{stack_mm:.1f} mm, {held.pinched_mm:.1f} mm pinched"
    return f"{layers}; stack {pinched}, {fastener.name}, {post}{moves[joint.joint.motion]}."


def _layer_words(group: Group, joint: SidedJoint) -> str:
    """Return the layers of a joint, the outermost first: ``Tab folded, on Cop``."""
    words = ""
    for part_id, layers in groupby(part for part, _ in joint.stack):
        part = group.scene.assembly.part(part_id).part
        words += part.name if not words else f" on {part.name}"
        if len(list(layers)) > 1:
            words += " folded," if part.kind in LIMP else " on itself,"
    return words.removesuffix(",")


def _held_by(group: Group, joint: SidedJoint) -> Iterator[str]:
    """Yield the glue, thread or lace that holds a joint, and the length of its row."""
    shelf, length_mm = group.scene.shelf, row_mm(group.scene.assembly.pattern, joint.joint)
    held = shelf.treatment(joint.joint.fastener) or shelf.supply(joint.joint.fastener)
    if held:
        yield held.name
    if length_mm:
        yield f"a row of {length_mm:.0f} mm"


def _lace_words(group: Group, joint: SidedJoint) -> str:
    holes = f"{len(joint.stack)} holes of {names(group.scene.assembly, joint.parts)}"
    return f"{', '.join((f'Through {holes}', *_held_by(group, joint)))}."


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
        row_cm = row_mm(scene.assembly.pattern, joint.joint) / MM_PER_CM
        step = group.hand_step(
            kind,
            joint.id,
            f"{_VERBS[kind]} {where}",
            parts=joint.parts,
            joints=(joint.id,),
            minutes=scene.reckon(kind, parts=len(joint.parts), holes=_passes(joint), cm=row_cm),
            tray=f"seam:{seam.id}" if seam else f"{kind}",
            fastener=joint.joint.fastener,
            detail=_fastener_words(group, joint),
        )
        glue = scene.shelf.treatment(joint.joint.fastener) if kind is StepKind.GLUE else None
        yield step if glue is None else with_vapour(scene, step, glue)
        if glue is not None:
            yield drying_step(group, step, glue)
            if cure := curing_step(group, step, glue):
                yield cure
