"""Joints that have to move are set, and moved, before the fixed seams beside them."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.assembly.model import SidedJoint
from armorplan.pattern.joining import JointKind, Motion
from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet

_GROUND = Ground(code="pivots-before-fixed", force=Force.USUAL)
_PLATES = (PartKind.PLATE, PartKind.LAME, PartKind.COP)


def _derive(facts: Facts) -> Iterator[Relation]:
    joints = list(facts.joint_steps())
    fixed = [(joint, step) for joint, step in joints if _is_seam(facts, joint)]
    for pivot, first in joints:
        if pivot.joint.motion is Motion.FIXED:
            continue
        for joint, then in fixed:
            both = set(pivot.parts) & set(joint.parts)
            if both and first.piece == then.piece and not facts.hides(pivot.parts, joint.id):
                yield _GROUND.before(
                    facts.end_of(first).id,
                    then.id,
                    f"Whether {facts.names(pivot.parts)} move freely shows once their joint is set: "
                    "it is bent through its whole way while the seam beside it can still be shifted.",
                    about=(*pivot.parts, pivot.id),
                )


def _is_seam(facts: Facts, joint: SidedJoint) -> bool:
    """Tell whether a joint rivets plates to each other for good and without motion."""
    kinds = {facts.assembly.part(part).part.kind for part in joint.parts}
    hammered = joint.joint.kind is JointKind.RIVET and joint.joint.motion is Motion.FIXED
    return hammered and len(joint.parts) > 1 and kinds <= set(_PLATES)


_COP = sketch_part("cop", kind=PartKind.COP, holes={"c1": (10.0, 10.0), "c2": (60.0, 10.0)})
_LAME = sketch_part("lame", kind=PartKind.LAME, holes={"l": (30.0, 10.0)})
_RIM = sketch_part("rim", holes={"r": (30.0, 30.0)})
_PIVOT = replace(sketch_rivet("pivot", "l", "c1"), motion=Motion.TURNING)

RULE = Rule(
    code=_GROUND.code,
    name="Moving joints before fixed seams",
    why="A pivot that pinches, or lames that bite each other, show when the joint is bent through its "
    "whole way. As long as the seams beside it are still on pins, a few millimetres can be given. So "
    "set a pivot, flex it, set the next, flex both; and close the fixed seams last.",
    mend="Flex it now. If it pinches, tap the pivot's head sideways, or set it anew over a card that is "
    "pulled out afterwards; only then open the seam.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A lame that turns on a cop, and a rim riveted to the cop",
            pattern=sketch(_COP, _LAME, _RIM, joints=(_PIVOT, sketch_rivet("seam", "c2", "r"))),
            expects=frozenset({("rivet/pivot", "rivet/seam")}),
        ),
        Example(
            title="A cop with nothing that moves",
            pattern=sketch(_COP, _RIM, joints=(sketch_rivet("seam", "c2", "r"),)),
        ),
    ),
)
