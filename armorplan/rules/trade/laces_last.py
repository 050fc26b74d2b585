"""Laces come last of a piece: they are the quickest to open and to close."""

from collections.abc import Iterator

from armorplan.pattern.joining import Joint, JointKind
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.model import StepKind

_GROUND = Ground(code="laces-last", force=Force.USUAL)


def _derive(facts: Facts) -> Iterator[Relation]:
    joints = [(j, step) for j, step in facts.joint_steps() if step.kind is not StepKind.LACE]
    for lace, then in facts.joint_steps():
        if then.kind is not StepKind.LACE:
            continue
        for joint, first in joints:
            if first.piece == then.piece and set(joint.parts) & set(lace.parts):
                yield _GROUND.before(
                    facts.end_of(first).id,
                    then.id,
                    f"A lace closes {facts.names(lace.parts)} to the hammer. It is tied in a moment, "
                    "and untied again for every repair.",
                    about=(*lace.parts, joint.id),
                )


_PLATE = sketch_part("plate", holes={"p1": (10.0, 10.0), "p2": (70.0, 10.0)})
_OTHER = sketch_part("other", holes={"o1": (20.0, 30.0), "o2": (60.0, 30.0)})
_LACE = Joint(id="tie", kind=JointKind.LACE, stack=("p1", "o1"))

RULE = Rule(
    code=_GROUND.code,
    name="Laces last",
    why="A lace pulls edges together and closes a piece to the hand. It opens again at any time, and "
    "nothing else does so easily. So everything that needs a hammer or glue is done before.",
    mend="Untie the lace, as far as it has to be open, and tie it again afterwards.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Two plates with a rivet and a lace",
            pattern=sketch(_PLATE, _OTHER, joints=(_LACE, sketch_rivet("r", "p2", "o2"))),
            expects=frozenset({("rivet/r", "lace/tie")}),
        ),
        Example(title="A lace alone", pattern=sketch(_PLATE, _OTHER, joints=(_LACE,))),
    ),
)
