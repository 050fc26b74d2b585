"""Parts that look alike are numbered before dye hides the pen and water the mark."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import COATS, Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind

_GROUND = Ground(code="number-before-wet", force=Force.SPOIL)
_WET = (StepKind.CASE, StepKind.CLEAN, *COATS)


def _derive(facts: Facts) -> Iterator[Relation]:
    for number in facts.work.of_kind(StepKind.NUMBER):
        for step in facts.first_coats(*_WET):
            touched = shared(step, number.parts)
            if touched:
                yield _GROUND.before(
                    number.id,
                    step.id,
                    f"Look-alikes: {facts.names(touched)}. Out of one tray nobody tells them apart "
                    "again, and on wet or dyed leather no mark is seen.",
                    about=touched,
                )


RULE = Rule(
    code=_GROUND.code,
    name="Number look-alikes before anything wet",
    why="Petals and lames often differ by a few millimetres, which shows at the last hole. In the"
    " dye tray they all look the same, and afterwards a pen no longer shows. So each is "
    "stamped inside with its number, its side and an arrow to the top, while it is dry and "
    "undyed.",
    mend="Lay each part on its paper print until outline and holes agree, and scratch its number "
    "into the flesh side with an awl.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Two petals of one outline, told apart by a hole, that are oiled",
            pattern=sketch(
                sketch_part("petal", holes={"h": (10.0, 10.0)}),
                sketch_part("other_petal"),
                treatments=(sketch_treatment("oil", "petal", "other_petal"),),
            ),
            expects=frozenset({("number/piece", "oil/oil.coat-1")}),
        ),
        Example(
            title="A petal that is like no other",
            pattern=sketch(sketch_part("petal"), treatments=(sketch_treatment("oil", "petal"),)),
        ),
    ),
)
