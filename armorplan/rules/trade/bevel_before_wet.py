"""Edges are bevelled on dry, undyed leather."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import COATS, Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind

_GROUND = Ground(code="bevel-before-dye", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for bevel in facts.work.of_kind(StepKind.BEVEL):
        part = bevel.parts[0]
        for step in facts.work.touching(part, StepKind.CASE, *COATS):
            text = (
                f"Wet leather tears under the beveller: bevel {facts.name(part)} dry."
                if step.kind is StepKind.CASE
                else f"A bevel cut later shows raw, undyed leather at the edge of "
                f"{facts.name(part)}."
            )
            yield _GROUND.before(bevel.id, step.id, text, about=(part,))


RULE = Rule(
    code=_GROUND.code,
    name="Bevel before casing and dye",
    why="Dry leather cuts clean, wet leather tears; and dye has to reach the bevelled edge, "
    "which it cannot if the bevel is cut afterwards.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A bevelled plate that is dyed",
            pattern=sketch(
                sketch_part("plate", bevelled=True),
                treatments=(sketch_treatment("dye", "plate"),),
            ),
            expects=frozenset({("bevel/plate", "dye/dye.coat-1")}),
        ),
        Example(
            title="A plate with square edges has nothing to bevel",
            pattern=sketch(sketch_part("plate"), treatments=(sketch_treatment("dye", "plate"),)),
        ),
    ),
)
