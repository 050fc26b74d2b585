"""Parts that look alike are numbered when they come from the knife, before anything mixes them."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.model import StepKind

_GROUND = Ground(code="number-straight-away", force=Force.USUAL)
_MIXING = (StepKind.BEVEL, StepKind.SKIVE, StepKind.PUNCH, StepKind.PREPARE_STRAP)


def _derive(facts: Facts) -> Iterator[Relation]:
    for number in facts.work.of_kind(StepKind.NUMBER):
        for part in number.parts:
            for step in facts.work.touching(part, *_MIXING):
                yield _GROUND.before(
                    number.id,
                    step.id,
                    f"{facts.name(part)} has a part like it. It is numbered while it still lies "
                    "beside its print, before it goes from tool to tool.",
                    about=(part,),
                )


RULE = Rule(
    code=_GROUND.code,
    name="Number look-alikes straight from the knife",
    why="While a part lies beside its paper print nobody mistakes it. After bevelling and punching "
    "a heap of petals has to be sorted out again, print by print.",
    mend="Sort them out on their prints now, and number them before the next tool.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Two plates of one outline, told apart by a hole; one is bevelled",
            pattern=sketch(
                sketch_part("plate", bevelled=True),
                sketch_part("other_plate", holes={"h": (10.0, 10.0)}),
            ),
            expects=frozenset(
                {("number/piece", "bevel/plate"), ("number/piece", "punch/other_plate")}
            ),
        ),
        Example(title="A plate like no other", pattern=sketch(sketch_part("p", bevelled=True))),
    ),
)
