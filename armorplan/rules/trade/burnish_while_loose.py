"""An edge is burnished most easily while its part is loose."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, SLOWER, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.model import SETS_JOINT, StepKind

_GROUND = Ground(code="burnish-while-loose", force=Force.EASIER)
_LATER = (StepKind.MOUNT, *SETS_JOINT)


def _derive(facts: Facts) -> Iterator[Relation]:
    for burnish in facts.work.of_kind(StepKind.BURNISH):
        part = burnish.parts[0]
        for step in facts.work.touching(part, *_LATER):
            if not facts.in_harness(step):
                yield _GROUND.before(
                    burnish.id,
                    step.id,
                    f"Round the edge of a loose {facts.name(part)} the slicker runs in one go; "
                    "beside a strap or another plate it stops.",
                    about=(part,),
                    price_min=SLOWER * burnish.minutes,
                )


RULE = Rule(
    code=_GROUND.code,
    name="Burnish while the part is loose",
    why="The slicker wants to run along the whole edge, on a part that lies at the rim of the bench. "
    "Edges of layers that are glued or stitched into one edge are burnished together afterwards; "
    "there this does not hold.",
    mend="Go round what is in the way with a small slicker or a piece of canvas over a stick.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A burnished plate that is riveted",
            pattern=sketch(
                replace(sketch_part("plate", holes={"p": (10.0, 10.0)}), burnished=True),
                sketch_part("lame", holes={"l": (30.0, 10.0)}),
                joints=(sketch_rivet("r", "p", "l"),),
            ),
            expects=frozenset({("burnish/plate", "rivet/r")}),
        ),
        Example(
            title="A burnished plate by itself",
            pattern=sketch(replace(sketch_part("plate"), burnished=True)),
        ),
    ),
)
