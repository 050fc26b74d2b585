"""Steps on the surface: cleaning, dye, oil and finish with their drying, masks for the glue."""

from collections.abc import Iterator
from itertools import pairwise

from armorplan.assembly.model import Side, SidedJoint, SidedTreatment
from armorplan.drying.spans import Stage
from armorplan.pattern.joining import Applying, JointKind
from armorplan.steps.drying_step import (
    curing_step,
    dripping_step,
    drying_step,
    watching_step,
)
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import lowered, names, with_side
from armorplan.steps.scene import Group, Scene
from armorplan.steps.wet_work import first_entry, treated
from armorplan.steps.wetted import with_vapour
from armorplan.steps.windows import first_turn_min
from armorplan.workshop.shelf import TreatmentEntry, TreatmentKind

_COAT_KIND = {
    TreatmentKind.DYE: StepKind.DYE,
    TreatmentKind.OIL: StepKind.OIL,
    TreatmentKind.FINISH: StepKind.FINISH,
}
_DIP = "|dip"
"""Ends the batch key of a coat that is dipped: it shares no bath with one that is wiped."""


def _my_coats(group: Group) -> Iterator[tuple[SidedTreatment, TreatmentEntry]]:
    scene = group.scene
    for sided in scene.assembly.treatments:
        entry = scene.shelf.treatment(sided.treatment.use)
        mine = (sided.piece, sided.side) == (group.piece, group.side)
        if mine and entry is not None and entry.kind in _COAT_KIND:
            yield sided, entry


def cleaning_steps(group: Group) -> Iterator[Step]:
    """Yield the cleaning of a piece before its first dye, where the shelf has a cleaner."""
    scene, entry = group.scene, first_entry(group, TreatmentKind.CLEANER)
    coats = _my_coats(group)
    dyed = tuple(p for sided, e in coats if e.kind is TreatmentKind.DYE for p in sided.parts)
    if entry is None or not dyed:
        return
    parts = tuple(dict.fromkeys(dyed))
    step = treated(
        group.hand_step(
            StepKind.CLEAN,
            group.piece,
            f"Clean {group.name} for the dye",
            parts=parts,
            minutes=scene.reckon(StepKind.CLEAN, parts=scene.count(parts)),
            detail="Grease of the hand keeps dye out and leaves blotches.",
        ),
        entry,
    )
    yield with_vapour(scene, step, entry)
    yield drying_step(group, step, entry)


def _coat_title(group: Group, sided: SidedTreatment, entry: TreatmentEntry, coat: int) -> str:
    """Return what is put on, which coat of it, and on which piece where there are several."""
    colour = f", {sided.treatment.colour}" if sided.treatment.colour else ""
    count = f", coat {coat} of {sided.treatment.coats}" if sided.treatment.coats > 1 else ""
    dipped = sided.treatment.applying is Applying.DIP
    name = f"Dip in {lowered(entry.name)}" if dipped else entry.name
    title = f"{name}{colour}{count}"
    if sided.id != sided.side.tag(sided.treatment.id):
        return f"{title}, {group.name}"
    return with_side(title, sided.side)


def is_dipped(step: Step) -> bool:
    """Tell whether a coat is dipped, not wiped on."""
    return (step.batch_key or "").endswith(_DIP)


def _coat_min(scene: Scene, sided: SidedTreatment, entry: TreatmentEntry) -> int:
    """Return the minutes of hands that one coat takes."""
    dipped, per_part_min = sided.treatment.applying is Applying.DIP, entry.per_part_min
    if dipped and entry.dip_per_part_min is not None:
        per_part_min = entry.dip_per_part_min
    minutes = entry.set_up_min + per_part_min * scene.count(sided.parts)
    return scene.rounded(_COAT_KIND[entry.kind], minutes)


def _coat(group: Group, sided: SidedTreatment, entry: TreatmentEntry, coat: int) -> Step:
    scene, kind = group.scene, _COAT_KIND[entry.kind]
    dipped = sided.treatment.applying is Applying.DIP
    who = names(scene.assembly, sided.parts)
    return Step(
        id=group.id(kind, f"{sided.id}.coat-{coat}"),
        kind=kind,
        piece=group.piece,
        side=group.side,
        title=f"{_coat_title(group, sided, entry, coat)}: {who}",
        tray=group.tray(f"{kind}:{sided.id}"),
        parts=sided.parts,
        minutes=_coat_min(scene, sided, entry),
        treatment=entry.id,
        coat=coat,
        batch_key=f"{entry.id}|{sided.treatment.colour or ''}|{coat}{_DIP * dipped}",
        detail=f"{'Dipped: ' * dipped}{who}",
        cautions=entry.cautions,
    )


def treatment_steps(group: Group) -> Iterator[Step]:
    """Yield each coat of each treatment of this piece and side, with what time does after it."""
    for sided, entry in _my_coats(group):
        count, dipped = sided.treatment.coats, sided.treatment.applying is Applying.DIP
        for coat in range(1, count + 1):
            step = _coat(group, sided, entry, coat)
            yield with_vapour(group.scene, step, entry, dipped=dipped)
            if dipped:
                yield from _after_bath(group, sided, step, entry)
            stage = Stage.HANDLE if coat == count else Stage.TOUCH
            yield drying_step(group, step, entry, stage=stage, dipped=dipped)
            if coat == count and (cure := curing_step(group, step, entry, dipped=dipped)):
                yield cure


def _after_bath(
    group: Group, sided: SidedTreatment, step: Step, entry: TreatmentEntry
) -> Iterator[Step]:
    """Yield the dripping of a dipped coat and the watch over it.

    Left and right are watched in one go where the second is dipped before the first has to be
    turned; else each has a watch of its own, and they are dipped and watched one after the other:
    one person cannot stand at the bath and at a watch.
    """
    drip = dripping_step(group, step, entry)
    if drip:
        yield drip
    left, right = _watched_in_one(group, sided, entry)
    if right is None or right is sided:
        both = (*(left.parts if left else ()), *sided.parts)
        watch = watching_step(group, step, entry, tuple(dict.fromkeys(both)))
        if watch:
            yield watch


def _watched_in_one(
    group: Group, sided: SidedTreatment, entry: TreatmentEntry
) -> tuple[SidedTreatment | None, SidedTreatment | None]:
    """Return a coat's left and right where the one still drips or waits while the other is dipped."""
    sides, scene = _sides(group, sided), group.scene
    pair = [side for side in sides if side is not None]
    bodies = (scene.body_of(side.parts, dipped=True) for side in pair)
    most = min((first_turn_min(scene.room, entry, body) for body in bodies), default=0)
    if any(_coat_min(scene, side, entry) > most for side in pair):
        return None, None
    return sides


def _sides(
    group: Group, sided: SidedTreatment
) -> tuple[SidedTreatment | None, SidedTreatment | None]:
    """Return one coat as it goes on the left and on the right of a pair, where there are both."""
    alike = {
        other.side: other
        for other in group.scene.assembly.treatments
        if (other.treatment.id, other.piece) == (sided.treatment.id, sided.piece)
    }
    left, right = alike.get(Side.LEFT), alike.get(Side.RIGHT)
    return (left, right) if left and right else (None, None)


SEALS = (TreatmentKind.OIL, TreatmentKind.FINISH)
"""Kinds after which no glue holds."""


def _treated(group: Group, *kinds: TreatmentKind) -> frozenset[str]:
    """Return the sided parts that get treatments of these kinds, whatever piece they belong to."""
    shelf = group.scene.shelf
    return frozenset(
        part
        for sided in group.scene.assembly.treatments
        if (entry := shelf.treatment(sided.treatment.use)) and entry.kind in kinds
        for part in sided.parts
    )


def _glued(group: Group) -> Iterator[SidedJoint]:
    for joint in group.scene.joints_in(group.piece, group.side):
        if joint.joint.kind is JointKind.GLUE:
            yield joint


def masking_steps(group: Group) -> Iterator[Step]:
    """Yield the masking of glue faces on parts that get oil or a finish: glue holds on neither."""
    sealed, scene = _treated(group, *SEALS), group.scene
    for joint in _glued(group):
        parts = tuple(part for part in joint.parts if part in sealed)
        if parts:
            yield group.hand_step(
                StepKind.MASK,
                joint.id,
                f"Mask the glue {_faces(joint)} of {names(scene.assembly, parts)}"
                f"{_for_joint(group, joint)}",
                parts=parts,
                joints=(joint.id,),
                minutes=scene.reckon(StepKind.MASK, parts=len(parts)),
                detail="Oil and finish spoil the glue: tape over where the layers will meet.",
            )


def roughening_steps(group: Group) -> Iterator[Step]:
    """Yield the roughening of both faces of each joint that glues grain or finished leather."""
    finished, scene = _treated(group, TreatmentKind.FINISH), group.scene
    for joint in _glued(group):
        if _meets_grain(group, joint) or finished.intersection(joint.parts):
            yield group.hand_step(
                StepKind.ROUGHEN,
                joint.id,
                f"Roughen the glue {_faces(joint)} of {names(scene.assembly, joint.parts)}"
                f"{_for_joint(group, joint)}",
                parts=joint.parts,
                joints=(joint.id,),
                minutes=scene.reckon(StepKind.ROUGHEN, parts=len(joint.stack)),
                detail="Through the grain, down to the fibres, within the mark; brush the dust off.",
            )


def _faces(joint: SidedJoint) -> str:
    return "face" if len(joint.stack) == 1 else "faces"


def _for_joint(group: Group, joint: SidedJoint) -> str:
    """Return which of several joints between the same parts is meant, or nothing."""
    alike = group.scene.alike.get(joint.id, ())
    return f", {alike.index(joint.id) + 1} of {len(alike)}" if len(alike) > 1 else ""


def _meets_grain(group: Group, joint: SidedJoint) -> bool:
    """Tell whether a grain side lies on the glue.

    An outer layer is glued with the side that lies inward, an inner one with the side that lies
    outward; a part folded on itself meets itself with the side that lies inward.
    """
    layers = [part for part, _ in joint.stack]
    out = {part: group.scene.assembly.part(part).part.grain_out for part in layers}
    return any(
        not out[outer] or (out[inner] and inner != outer) for outer, inner in pairwise(layers)
    )
