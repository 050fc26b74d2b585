"""What is wet dries from the moment the work on it ends."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_bath, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind

_GROUND = Ground(
    code="drying-starts-at-once", force=Force.CANNOT, source="follows from the step itself"
)
_WORDS = {
    StepKind.DRIP: "It drips by itself from the moment it is lifted from the bath.",
    StepKind.DRY: "Drying runs by itself from the moment the leather is laid down.",
    StepKind.CURE: "It cures by itself from the moment the leather is laid down.",
}


def _derive(facts: Facts) -> Iterator[Relation]:
    for wet, begun in facts.begins_with():
        own = "The wait runs by itself from the moment the step is done."
        text = own if wet.kind is StepKind.OWN else _WORDS[begun.kind]
        yield _GROUND.before(wet.id, begun.id, text, about=begun.parts, lags=(0, 0))


RULE = Rule(
    code=_GROUND.code,
    name="Drying starts by itself",
    why="Nobody starts a drying. It begins when the wet work ends, and goes on through the night "
    "and while the computer is off. So does the dripping after a bath, and the cure that goes on "
    "long after a coat is dry to handle.",
    mend="If the wet work was ticked late, set the time at which it ended; its drying then counts "
    "from there.",
    force=_GROUND.force,
    source=_GROUND.source,
    derive=_derive,
    examples=(
        Example(
            title="An oiled plate",
            pattern=sketch(sketch_part("plate"), treatments=(sketch_treatment("oil", "plate"),)),
            expects=frozenset({("oil/oil.coat-1", "dry/oil.coat-1.oil")}),
        ),
        Example(
            title="A plate dipped in a finish that drips off and cures",
            pattern=sketch(sketch_part("plate"), treatments=(sketch_bath("lacquer", "plate"),)),
            expects=frozenset(
                {
                    ("finish/lacquer.coat-1", "drip/lacquer.coat-1.finish"),
                    ("finish/lacquer.coat-1", "dry/lacquer.coat-1.finish"),
                    ("finish/lacquer.coat-1", "cure/lacquer.coat-1.finish"),
                }
            ),
        ),
        Example(title="A plate left as it is", pattern=sketch(sketch_part("plate"))),
    ),
)
