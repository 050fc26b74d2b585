"""The char that a laser leaves comes off before water, dye, oil, finish or glue reach the leather."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import COATS, Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import by_machine, sketch, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind

_GROUND = Ground(code="char-before-dye", force=Force.SPOIL)
_TAKES_IT_UP = (StepKind.CASE, StepKind.CLEAN, *COATS, StepKind.BURNISH, StepKind.GLUE)


def _derive(facts: Facts) -> Iterator[Relation]:
    for char in facts.work.of_kind(StepKind.CHAR):
        for part in char.parts:
            for step in facts.work.touching(part, *_TAKES_IT_UP):
                yield _GROUND.before(
                    char.id,
                    step.id,
                    f"The soot at the edges of {facts.name(part)} runs into the grain with the first "
                    "water or dye, takes no dye itself, and lets glue go: it comes off first.",
                    about=(part,),
                )


RULE = Rule(
    code=_GROUND.code,
    name="Char off before dye",
    why="A laser leaves soot on edges and in holes. Wet, it runs into the grain and stays as a grey "
    "seam; dye does not take on it, and glue holds the soot instead of the leather.",
    mend="Sand the edges back to brown leather and dye them once more. A grey seam in the grain is "
    "hidden by a darker dye, or under a trim.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A dyed plate that a machine cuts",
            pattern=by_machine(
                sketch(sketch_part("plate"), treatments=(sketch_treatment("dye", "plate"),))
            ),
            expects=frozenset(
                {
                    ("take-off-char/piece", "clean/piece"),
                    ("take-off-char/piece", "dye/dye.coat-1"),
                }
            ),
        ),
        Example(
            title="A dyed plate that a knife cuts",
            pattern=sketch(sketch_part("plate"), treatments=(sketch_treatment("dye", "plate"),)),
        ),
    ),
)
