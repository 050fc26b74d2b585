"""How much leather a step wets, and what evaporates from it into the room: told at the step."""

from dataclasses import replace

from armorplan.assembly.model import Assembly, SidedJoint
from armorplan.drying.vapour import Vapour, vapour_caution, vapour_of
from armorplan.geometry.areas import outline_dm2
from armorplan.kernel.units import MM2_PER_DM2
from armorplan.steps.model import Step
from armorplan.steps.scene import Scene
from armorplan.workshop.shelf import TreatmentEntry, TreatmentKind

FACES = {
    TreatmentKind.CASING: 2,
    TreatmentKind.DYE: 2,
    TreatmentKind.OIL: 1,
    TreatmentKind.FINISH: 1,
    TreatmentKind.CLEANER: 1,
    TreatmentKind.HARDENER: 2,
    TreatmentKind.GLUE: 1,
}
"""Faces that are wiped: dye and water on both, the rest on the grain (common practice, no source)."""
GLUED_FACES = 2


def glued_dm2(assembly: Assembly, joint: SidedJoint) -> float:
    """Return the area in dm² that a glue joint holds: as written, else the smaller layer's."""
    if joint.joint.area_mm2 is not None:
        return joint.joint.area_mm2 / MM2_PER_DM2
    return min(outline_dm2(assembly.part(part).part) for part in joint.parts)


def coated_dm2(assembly: Assembly, part_ids: tuple[str, ...]) -> float:
    """Return the area in dm² of one face of these parts, each as often as it is cut."""
    parts = (assembly.part(part).part for part in part_ids)
    return sum(outline_dm2(part) * part.count for part in parts)


def vapour_at(
    scene: Scene, step: Step, entry: TreatmentEntry, *, dipped: bool = False
) -> Vapour | None:
    """Return what evaporates from a step's own leather; ``None`` where nothing does that burns."""
    if step.joints:
        joints = (scene.assembly.joint(joint) for joint in step.joints)
        area_dm2 = sum(glued_dm2(scene.assembly, joint) for joint in joints)
        faces = GLUED_FACES
    else:
        area_dm2, faces = coated_dm2(scene.assembly, step.parts), FACES[entry.kind]
    return vapour_of(
        entry, area_dm2=area_dm2, dipped=dipped, faces=faces, volume_m3=scene.room.volume_m3
    )


def with_vapour(scene: Scene, step: Step, entry: TreatmentEntry, *, dipped: bool = False) -> Step:
    """Return a step with what evaporates from its own leather among its cautions.

    Unchanged where nothing does that burns. What other steps leave wet adds to it.
    """
    vapour = vapour_at(scene, step, entry, dipped=dipped)
    if vapour is None:
        return step
    return replace(step, cautions=(*step.cautions, vapour_caution(vapour)))
