"""A buckle is put on the flat end of its strap, and the strap folded over it then."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.joining import FormKind, Route
from armorplan.pattern.parts import PartKind
from armorplan.pattern.wearing import HardwareUse
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part
from armorplan.steps.model import StepKind

_GROUND = Ground(code="hardware-before-fold", force=Force.USUAL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for hardware in facts.assembly.hardware:
        mount = facts.step_for(StepKind.MOUNT, hardware.id)
        if mount is None or facts.is_stud(hardware):
            continue
        for fold in facts.dry_folds(hardware.part):
            yield _GROUND.before(
                mount.id,
                fold.id,
                f"Its bar slides on to the flat end of {facts.name(hardware.part)}; then it is folded "
                "over it.",
                about=(hardware.part,),
            )


_TURN = replace(sketch_form("turn", "strap", route=Route.DRY), kind=FormKind.FOLD)
_STRAP = sketch(sketch_part("strap", kind=PartKind.STRAP), forms=(_TURN,))

RULE = Rule(
    code=_GROUND.code,
    name="Buckle on the flat strap, then fold",
    why="The bar goes over the flat end and the tongue through its slot; folding over the bar then "
    "gives the loop its size. A strap folded before has to be opened again, and cracks at the grain.",
    mend="Damp the fold a little, unless it is finished, open it slowly, put the buckle in, fold again.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A buckle in a strap that is folded by hand",
            pattern=replace(
                _STRAP, hardware=(HardwareUse(id="buckle", use="buckle", part="strap"),)
            ),
            expects=frozenset({("put-on/buckle", "curve-by-hand/turn")}),
        ),
        Example(title="A fold with nothing in it", pattern=_STRAP),
    ),
)
