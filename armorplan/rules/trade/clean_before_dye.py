"""Grease and water marks come off before the dye, from leather that has its shape."""

from collections.abc import Iterator

from armorplan.kernel.units import span_words
from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind

_GROUND = Ground(code="clean-before-dye", force=Force.SPOIL)
_SHAPING = (StepKind.TOOL, StepKind.FORM, StepKind.HARDEN)


def _derive(facts: Facts) -> Iterator[Relation]:
    for clean in facts.work.of_kind(StepKind.CLEAN):
        for step in facts.work.of_kind(*_SHAPING):
            touched = shared(step, clean.parts)
            if touched and not (step.kind is StepKind.HARDEN and facts.is_wax(step)):
                yield _GROUND.before(
                    facts.end_of(step).id,
                    clean.id,
                    f"Shaping puts hands and water on {facts.names(touched)} once more: cleaned when "
                    "that is over and dry.",
                    about=touched,
                )
        dry = facts.end_of(clean)
        for dye in facts.first_coats(StepKind.DYE):
            touched = shared(dye, clean.parts)
            if touched:
                yield _GROUND.before(
                    dry.id,
                    dye.id,
                    f"The grease of a hand keeps dye out of {facts.names(touched)}, and the print of "
                    f"a thumb stays for good: cleaned first, and {span_words(dry.minutes)} to dry.",
                    about=touched,
                    numbers=(Quantity(name="drying", value=dry.minutes, unit="min"),),
                )


RULE = Rule(
    code=_GROUND.code,
    name="Clean before dye",
    why="Where a hand, glue or wax has been, dye stays out and leaves a blotch. So leather is wiped "
    "evenly all over when it has its shape, and dyed as soon as that is dry.",
    mend="A second even coat over everything hides most blotches. What still shows is cleaned and "
    "dyed once more; it gets darker each time.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A plate that is shaped damp and dyed",
            pattern=sketch(
                sketch_part("plate"),
                forms=(sketch_form("bow", "plate"),),
                treatments=(sketch_treatment("dye", "plate"),),
            ),
            expects=frozenset(
                {("dry/bow.form", "clean/piece"), ("dry/piece.clean", "dye/dye.coat-1")}
            ),
        ),
        Example(
            title="A plate that keeps its own colour",
            pattern=sketch(sketch_part("plate"), treatments=(sketch_treatment("oil", "plate"),)),
        ),
    ),
)
