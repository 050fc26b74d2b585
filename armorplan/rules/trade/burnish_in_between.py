"""Edges are burnished after the dye and oil, and before the finish."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind

_GROUND = Ground(code="burnish-in-between", force=Force.SPOIL)
_EDGES = (StepKind.BEVEL, StepKind.SKIVE)
_WET = (StepKind.TOOL, StepKind.FORM, StepKind.HARDEN, StepKind.DYE, StepKind.OIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for burnish in facts.work.of_kind(StepKind.BURNISH):
        part = burnish.parts[0]
        name = facts.name(part)
        for edge in facts.work.touching(part, *_EDGES):
            yield _GROUND.before(
                edge.id, burnish.id, f"A cut opens the edge of {name} again.", about=(part,)
            )
        for wet in facts.last_coats(*_WET):
            if shared(wet, burnish.parts):
                yield _GROUND.before(
                    facts.end_of(wet).id,
                    burnish.id,
                    f"Wetting raises the fibres at the edge of {name}, and a closed edge takes no "
                    "colour: burnished when that is dry.",
                    about=(part,),
                )
        for finish in facts.first_coats(StepKind.FINISH):
            if shared(finish, burnish.parts):
                yield _GROUND.before(
                    burnish.id,
                    finish.id,
                    f"Rubbing smears a finish: the edge of {name} is burnished under it, not over it.",
                    about=(part,),
                )


RULE = Rule(
    code=_GROUND.code,
    name="Burnish after dye and oil, before finish",
    why="Rubbing lays the fibres of an edge down and closes it. After that no dye gets in, so it is "
    "coloured before; water raises the fibres again, so shaping is over; and a finish would smear "
    "under the slicker, so it comes afterwards.",
    mend="Over a finish: wipe the edge with the finish's solvent, rub it again, and finish the edge "
    "once more. Dye after burnishing: open the edge with fine paper, dye it, and rub it again.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A bevelled plate, oiled, burnished and finished",
            pattern=sketch(
                replace(sketch_part("plate", bevelled=True), burnished=True),
                treatments=(sketch_treatment("oil", "plate"), sketch_treatment("finish", "plate")),
            ),
            expects=frozenset(
                {
                    ("bevel/plate", "burnish/plate"),
                    ("dry/oil.coat-1.oil", "burnish/plate"),
                    ("burnish/plate", "finish/finish.coat-1"),
                }
            ),
        ),
        Example(
            title="A plate whose edges stay as they are cut",
            pattern=sketch(sketch_part("plate"), treatments=(sketch_treatment("oil", "plate"),)),
        ),
    ),
)
