"""Faces that will be glued are masked before the finish, on leather that is dry."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_glue, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind

_GROUND = Ground(code="mask-before-finish", force=Force.SPOIL)
_WET = (StepKind.TOOL, StepKind.FORM, StepKind.HARDEN, StepKind.DYE, StepKind.OIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for mask in facts.work.of_kind(StepKind.MASK):
        for wet in facts.last_coats(*_WET):
            touched = shared(wet, mask.parts)
            if touched:
                yield _GROUND.before(
                    facts.end_of(wet).id,
                    mask.id,
                    "Tape does not hold on damp leather, and pulls off dye that is not dry: let "
                    f"{facts.names(touched)} dry first.",
                    about=touched,
                )
        for finish in facts.first_coats(StepKind.FINISH):
            touched = shared(finish, mask.parts)
            if touched:
                yield _GROUND.before(
                    mask.id,
                    finish.id,
                    f"Glue holds the finish, and the finish comes off: the glue face of "
                    f"{facts.names(touched)} stays free of it under tape.",
                    about=(*touched, *mask.joints),
                )


RULE = Rule(
    code=_GROUND.code,
    name="Mask glue faces before the finish",
    why="A finish lies on the leather like a skin. Glue put on it holds the skin, and the first pull "
    "lifts both. So whatever will be glued is covered with tape while the finish goes on, once the "
    "leather is dry enough for tape to hold.",
    mend="Strip the finish from the glue face with its own solvent, with gloves and air, roughen the "
    "face down to the fibres, and try the glue on it in one corner first.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A plate that is oiled and finished, and gets a glued patch",
            pattern=sketch(
                sketch_part("patch"),
                sketch_part("plate"),
                joints=(sketch_glue("g", "patch", "plate"),),
                treatments=(sketch_treatment("oil", "plate"), sketch_treatment("finish", "plate")),
            ),
            expects=frozenset(
                {("dry/oil.coat-1.oil", "mask/g"), ("mask/g", "finish/finish.coat-1")}
            ),
        ),
        Example(
            title="A patch on a plate that gets no finish",
            pattern=sketch(
                sketch_part("patch"),
                sketch_part("plate"),
                joints=(sketch_glue("g", "patch", "plate"),),
            ),
        ),
    ),
)
