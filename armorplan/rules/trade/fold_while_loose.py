"""A strap's own fold and the rivet that holds it are done while the strap lies loose."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.joining import Route
from armorplan.pattern.parts import PartKind
from armorplan.pattern.wearing import HardwareUse
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, SLOWER, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_rivet
from armorplan.steps.model import StepKind

_GROUND = Ground(code="fold-while-loose", force=Force.EASIER)


def _derive(facts: Facts) -> Iterator[Relation]:
    for prepare in facts.work.of_kind(StepKind.PREPARE_STRAP):
        strap = prepare.parts[0]
        own = [
            step
            for joint, step in facts.joint_steps()
            if joint.parts == (strap,) and joint.closes_on_itself
        ]
        mounts = facts.work.touching(strap, StepKind.MOUNT)
        folds = [s for s in facts.work.touching(strap, StepKind.FORM_DRY) if s.parts == (strap,)]
        for joint, step in facts.joint_steps():
            if strap in joint.parts and joint.parts != (strap,):
                for ready in (*mounts, *folds, *own):
                    yield _GROUND.before(
                        facts.end_of(ready).id,
                        step.id,
                        f"{facts.name(strap)} is folded round its buckle or ring most easily "
                        "while it lies loose on the bench.",
                        about=(strap,),
                        price_min=SLOWER * ready.minutes,
                    )


_STRAP = sketch_part(
    "strap",
    kind=PartKind.STRAP,
    holes={"s1": (8.0, 20.0), "s2": (30.0, 20.0), "s3": (72.0, 20.0)},
)
_PLATE = sketch_part("plate", holes={"p": (8.0, 8.0)})
_ON_PLATE = sketch_rivet("on", "s3", "p")

RULE = Rule(
    code=_GROUND.code,
    name="Fold a strap while it is loose",
    why="A buckle goes on its strap on the bench: fold, rivet, done. With the strap already on "
    "the armour it can be done too, only with the whole piece hanging from it.",
    mend="Lay the armour down beside the anvil, so that only the strap's end lies on it, and pad "
    "what rests on the bench.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A buckle strap is folded and held before it goes on the plate",
            pattern=sketch(
                _STRAP,
                _PLATE,
                joints=(sketch_rivet("loop", "s1", "s2"), _ON_PLATE),
                forms=(sketch_form("turn", "strap", route=Route.DRY),),
            ),
            expects=frozenset({("curve-by-hand/turn", "rivet/on"), ("rivet/loop", "rivet/on")}),
        ),
        Example(
            title="A strap with a ring that its rivet to the plate holds",
            pattern=replace(
                sketch(_STRAP, _PLATE, joints=(_ON_PLATE,)),
                hardware=(HardwareUse(id="ring", use="buckle", part="strap"),),
            ),
            expects=frozenset({("put-on/ring", "rivet/on")}),
        ),
        Example(
            title="A plain strap has no fold",
            pattern=sketch(_STRAP, _PLATE, joints=(_ON_PLATE,)),
        ),
    ),
)
