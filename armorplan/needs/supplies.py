"""Thread and lace by the length of their rows, glue by the area it holds."""

from collections.abc import Container

from armorplan.assembly.model import Assembly, SidedJoint
from armorplan.geometry.row_lengths import ROWS, row_mm
from armorplan.kernel.units import ML_PER_LITRE, MM_PER_M
from armorplan.needs.measures import priced
from armorplan.needs.model import GlueNeed, RunNeed
from armorplan.pattern.joining import JointKind
from armorplan.steps.wetted import GLUED_FACES, glued_dm2
from armorplan.workshop.shelf import Shelf

GLUE_ML_PER_DM2 = 2.5
"""Contact cement on one face, where the shelf does not say: a litre for about 4 m² (common
practice, no source; from memory)."""


def _by_supply(
    assembly: Assembly, kinds: Container[JointKind]
) -> dict[tuple[str, str], list[SidedJoint]]:
    groups: dict[tuple[str, str], list[SidedJoint]] = {}
    for joint in assembly.joints:
        if joint.joint.kind in kinds:
            key = (joint.joint.kind.value, joint.joint.fastener)
            groups.setdefault(key, []).append(joint)
    return dict(sorted(groups.items()))


def run_needs(assembly: Assembly, shelf: Shelf) -> tuple[RunNeed, ...]:
    """Return thread and lace in metres: each row times what a metre of it takes, and the ends."""
    found = []
    for (kind, supply_id), joints in _by_supply(assembly, ROWS).items():
        entry = shelf.supply(supply_id)
        length_m = sum(row_mm(assembly.pattern, one.joint) for one in joints) / MM_PER_M
        metres = (
            length_m * entry.per_seam + len(joints) * entry.extra_mm / MM_PER_M if entry else None
        )
        found.append(
            RunNeed(
                supply=supply_id,
                name=entry.name if entry else supply_id,
                kind=entry.kind if entry else kind,
                rows=len(joints),
                row_m=length_m,
                metres=metres,
                cost=priced(metres, entry.price_per_m if entry else None),
            )
        )
    return tuple(found)


def glue_needs(assembly: Assembly, shelf: Shelf) -> tuple[GlueNeed, ...]:
    """Return glue in ml: both faces of each joint coated once."""
    found = []
    for (_, glue_id), joints in _by_supply(assembly, (JointKind.GLUE,)).items():
        entry = shelf.treatment(glue_id)
        area_dm2 = sum(glued_dm2(assembly, joint) for joint in joints)
        per_dm2 = entry.wipe_ml_per_dm2 if entry else 0.0
        ml = area_dm2 * GLUED_FACES * (per_dm2 or GLUE_ML_PER_DM2)
        found.append(
            GlueNeed(
                glue=glue_id,
                name=entry.name if entry else glue_id,
                joints=len(joints),
                area_dm2=area_dm2,
                ml=ml,
                cost=priced(ml / ML_PER_LITRE, entry.price_per_litre if entry else None),
            )
        )
    return tuple(found)
