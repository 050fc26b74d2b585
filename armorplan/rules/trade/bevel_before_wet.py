"""Edges are bevelled on dry, undyed leather."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import COATS, Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet, sketch_treatment
from armorplan.steps.model import SETS_JOINT, StepKind

_GROUND = Ground(code="bevel-before-dye", force=Force.SPOIL)
_LATER = (StepKind.CASE, *COATS, StepKind.DRY_FIT, *SETS_JOINT)


def _derive(facts: Facts) -> Iterator[Relation]:
    for bevel in facts.work.of_kind(StepKind.BEVEL):
        part = bevel.parts[0]
        for step in facts.work.touching(part, *_LATER):
            if step.kind is StepKind.CASE:
                text = f"Wet leather tears under the beveller: bevel {facts.name(part)} dry."
            elif step.kind in COATS:
                text = (
                    f"A bevel cut later shows raw, undyed leather at the edge of "
                    f"{facts.name(part)}."
                )
            else:
                text = (
                    f"The beveller runs free only along the edges of a loose {facts.name(part)}."
                )
            yield _GROUND.before(bevel.id, step.id, text, about=(part,))


RULE = Rule(
    code=_GROUND.code,
    name="Bevel while dry, undyed and loose",
    why="The beveller takes a clean shaving from dry leather and tears wet leather. Dye has to "
    "reach the bevel, and it cannot if the bevel is cut afterwards. And once a part is "
    "riveted to another, the tool no longer runs along its edges.",
    mend="Bevel it all the same, with a fresh edge on the tool and where it can be reached. Then "
    "touch the raw edge up with dye on a swab and seal it with finish; look for a shade of "
    "difference in daylight.",
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
            title="A bevelled plate that is riveted raw",
            pattern=sketch(
                sketch_part("plate", bevelled=True, holes={"p": (10.0, 10.0)}),
                sketch_part("lame", holes={"l": (10.0, 10.0)}),
                joints=(sketch_rivet("r", "p", "l"),),
            ),
            expects=frozenset({("bevel/plate", "dry-fit/piece"), ("bevel/plate", "rivet/r")}),
        ),
        Example(
            title="A plate with square edges has nothing to bevel",
            pattern=sketch(sketch_part("plate"), treatments=(sketch_treatment("dye", "plate"),)),
        ),
    ),
)
