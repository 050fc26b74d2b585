"""Nothing permanent before the dry fit is signed off."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.joining import Joint, JointKind
from armorplan.pattern.parts import Harness, Piece
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.model import StepKind

_GROUND = Ground(code="dry-fit-before-permanent", force=Force.SPOIL)

_STAYS = {
    JointKind.RIVET: "rivet",
    JointKind.GLUE: "glued joint",
    JointKind.STITCH: "stitched row",
}


def _derive(facts: Facts) -> Iterator[Relation]:
    for fit in facts.work.of_kind(StepKind.DRY_FIT):
        hung = facts.in_harness(fit)
        for joint, step in facts.joint_steps():
            tried = step.piece == fit.piece or not hung
            if not (tried and shared(fit, joint.parts)):
                continue
            if joint.joint.kind.is_permanent:
                text = (
                    "The dry fit is the last point at which anything is cheap to change; this "
                    f"{_STAYS[joint.joint.kind]} stays."
                )
            elif hung:
                text = (
                    "The dry fit of pieces that hang together is of their joints: set before, it "
                    "leaves nothing to try on pins."
                )
            else:
                continue
            yield _GROUND.before(fit.id, step.id, text, about=joint.parts)


_UPPER = sketch_part("upper", holes={"u": (10.0, 10.0)})
_LOWER = sketch_part("lower", holes={"l": (10.0, 10.0)})
_SCREW = Joint(id="s", kind=JointKind.SCREW, stack=("u", "l"), fastener="screw_post")

RULE = Rule(
    code=_GROUND.code,
    name="Dry fit before anything permanent",
    why="With pins in all joints the piece is worn and bent as it will be. Whatever is wrong "
    "shows while it still costs nothing. A set rivet has to be drilled out, glue has to be "
    "torn. A screw post or a lace opens again, so that within a piece it may be set earlier; usual "
    "practice is to wait with it too. Between the pieces of a harness it waits: where those joints "
    "are set, nothing is left to try.",
    mend="Fit it as it is, before the next fastener. What binds has to be opened: drill only the "
    "head away, push the shank out from the front, and set a new rivet, one size up where the"
    " hole has worn.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A rivet waits for the dry fit",
            pattern=sketch(_UPPER, _LOWER, joints=(sketch_rivet("r", "u", "l"),)),
            expects=frozenset({("dry-fit/piece", "rivet/r")}),
        ),
        Example(
            title="A screw post opens again and need not wait",
            pattern=sketch(_UPPER, _LOWER, joints=(_SCREW,)),
        ),
        Example(
            title="A screw post that hangs two pieces of a harness together waits",
            pattern=replace(
                sketch(_UPPER, replace(_LOWER, piece="other"), joints=(_SCREW,)),
                pieces=(Piece(id="piece", name="Piece"), Piece(id="other", name="Other piece")),
                harnesses=(Harness(id="arm", name="Arm", pieces=("piece", "other")),),
            ),
            expects=frozenset({("dry-fit/arm", "screw/s")}),
        ),
    ),
)
