"""A part has to be cut before anything can be done with it."""

from collections.abc import Iterator

from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import PAPER, Facts
from armorplan.rules.model import Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(code="cut-before-use", force=Force.CANNOT, source="follows from the step itself")
_LATER_ANYWAY = (
    *(StepKind.DRIP, StepKind.WATCH, StepKind.DRY, StepKind.CURE),
    *(StepKind.CHECK, StepKind.INSPECT, StepKind.PACK),
)
"""They follow a wet step, a trial or the last fit, which waits for the cut itself."""
_NOT_USES = frozenset((*PAPER, StepKind.CUT, *_LATER_ANYWAY))


def _hung(facts: Facts, step: Step) -> bool:
    """Tell whether a step hangs pieces together, which waits for the work on them itself."""
    return facts.in_harness(step) and step.kind is not StepKind.OWN


def _derive(facts: Facts) -> Iterator[Relation]:
    for cut in facts.work.of_kind(StepKind.CUT):
        part = cut.parts[0]
        for step in facts.work.touching(part):
            if step.kind not in _NOT_USES and not _hung(facts, step):
                yield _GROUND.before(
                    cut.id, step.id, f"{facts.name(part)} has to be cut first.", about=(part,)
                )


RULE = Rule(
    code=_GROUND.code,
    name="Cut before use",
    why="A part has to be cut out before anything can be done with it: bevel, punch, dye, rivet.",
    mend="It cannot happen. If a step is ticked before the cut, one of the two ticks is wrong: "
    "take it back.",
    force=_GROUND.force,
    source=_GROUND.source,
    derive=_derive,
    examples=(
        Example(
            title="A bevelled plate is cut, then bevelled and fitted",
            pattern=sketch(sketch_part("plate", bevelled=True)),
            expects=frozenset(
                {
                    ("cut/plate", "bevel/plate"),
                    ("cut/plate", "fit/piece"),
                }
            ),
        ),
        Example(title="Without parts there is nothing to cut", pattern=sketch()),
    ),
)
