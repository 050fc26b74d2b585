"""A lining goes in while its plate still lies open."""

from collections.abc import Iterator

from armorplan.assembly.model import SidedJoint
from armorplan.pattern.joining import JointKind
from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_glue, sketch_part, sketch_rivet

_GROUND = Ground(code="lining-before-closed", force=Force.USUAL)
_FLAT = (JointKind.GLUE, JointKind.STITCH)
_PLATES = (PartKind.PLATE, PartKind.LAME, PartKind.COP)


def _derive(facts: Facts) -> Iterator[Relation]:
    joints = list(facts.joint_steps())
    for flat, first in joints:
        linings = _of_kind(facts, flat, PartKind.LINING)
        if flat.joint.kind not in _FLAT or not linings:
            continue
        lined = set(flat.parts) - linings
        for joint, then in joints:
            closes = len(_of_kind(facts, joint, *_PLATES)) > 1 and lined & set(joint.parts)
            if closes and joint.id != flat.id and not facts.hides(tuple(linings), joint.id):
                yield _GROUND.before(
                    facts.end_of(first).id,
                    then.id,
                    f"While {facts.names(tuple(sorted(lined)))} lies open, a lining can be pressed "
                    "down without a bubble to its very edge; once it is closed no hand gets in.",
                    about=(*flat.parts, joint.id),
                )


def _of_kind(facts: Facts, joint: SidedJoint, *kinds: PartKind) -> set[str]:
    return {part for part in joint.parts if facts.assembly.part(part).part.kind in kinds}


_PLATE = sketch_part("plate", holes={"p": (10.0, 10.0)})
_SIDE = sketch_part("side", holes={"s": (30.0, 10.0)})
_LINING = sketch_part("lining", kind=PartKind.LINING)
_CLOSING = sketch_rivet("closing", "p", "s")

RULE = Rule(
    code=_GROUND.code,
    name="Line a plate while it is open",
    why="A lining is glued or stitched over its whole face. On an open plate it is rolled on from one "
    "end, with no bubble, and clamped. Inside a closed cop or tube neither hand nor clamp reaches. "
    "What the lining is to cover, such as the burrs of straps, is set before it.",
    mend="Work in from the nearest opening with a bone folder, a strip at a time; or take out the last "
    "few rivets of a seam, line it, and set them again.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A plate with a glued lining that is closed by a rivet",
            pattern=sketch(
                _PLATE, _SIDE, _LINING, joints=(_CLOSING, sketch_glue("g", "plate", "lining"))
            ),
            expects=frozenset({("dry/g.glue", "rivet/closing")}),
        ),
        Example(
            title="A plate without a lining", pattern=sketch(_PLATE, _SIDE, joints=(_CLOSING,))
        ),
    ),
)
