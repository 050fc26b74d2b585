"""A fold is made before the rivet that holds it."""

from collections.abc import Iterator

from armorplan.pattern.joining import Route
from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_rivet
from armorplan.steps.model import StepKind

_GROUND = Ground(code="fold-before-held", force=Force.CANNOT, source="follows from the shapes")


def _derive(facts: Facts) -> Iterator[Relation]:
    for fold in facts.work.of_kind(StepKind.FORM_DRY):
        for joint, step in facts.joint_steps():
            if joint.closes_on_itself and set(joint.parts) & set(fold.parts):
                yield _GROUND.before(
                    fold.id,
                    step.id,
                    f"The two layers of {facts.names(shared(fold, joint.parts))} lie on each other only once it "
                    "is folded.",
                    about=(*joint.parts, joint.id),
                )


_STRAP = sketch_part("strap", kind=PartKind.STRAP, holes={"s1": (8.0, 20.0), "s2": (40.0, 20.0)})
_LOOP = (sketch_rivet("loop", "s1", "s2"),)

RULE = Rule(
    code=_GROUND.code,
    name="Fold before what holds the fold",
    why="A strap folded round the bar of a buckle, or a loop closed on itself, is held by a "
    "fastener through both its layers. They lie on each other only once the fold is made.",
    mend="It cannot happen. A rivet set through one layer only has to come out again.",
    force=_GROUND.force,
    source=_GROUND.source,
    derive=_derive,
    examples=(
        Example(
            title="A strap folded by hand and riveted to itself",
            pattern=sketch(
                _STRAP, joints=_LOOP, forms=(sketch_form("turn", "strap", route=Route.DRY),)
            ),
            expects=frozenset({("curve-by-hand/turn", "rivet/loop")}),
        ),
        Example(
            title="A loop that needs no folding of its own", pattern=sketch(_STRAP, joints=_LOOP)
        ),
    ),
)
