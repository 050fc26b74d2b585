"""The last fit and the inspection come when everything is on."""

from collections.abc import Iterator

from armorplan.assembly.model import Side
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.model import SETS_JOINT, Step, StepKind

_GROUND = Ground(code="last-fit-last", force=Force.SPOIL, source="follows from the step itself")
_BEFORE = (
    StepKind.FREE,
    StepKind.CHAR,
    StepKind.BEVEL,
    StepKind.PUNCH,
    StepKind.PREPARE_STRAP,
    StepKind.THREAD,
    StepKind.SKIVE,
    StepKind.BURNISH,
    StepKind.MOUNT,
    StepKind.FORM_DRY,
    *SETS_JOINT,
)


def _counts(facts: Facts, step: Step, fit: Step) -> bool:
    """Tell whether a fit judges what a step does: on its own piece, or where pieces hang together.

    What hangs pieces together is judged with all of them, and each piece first by itself.
    """
    if facts.in_harness(step) or facts.in_harness(fit):
        one_side = Side.SINGLE in (step.side, fit.side) or step.side is fit.side
        return step.piece == fit.piece and one_side
    return bool(shared(step, fit.parts))


def _derive(facts: Facts) -> Iterator[Relation]:
    for fit in facts.work.of_kind(StepKind.FIT):
        for step in facts.work.of_kind(*_BEFORE):
            if _counts(facts, step, fit):
                yield _GROUND.before(
                    step.id,
                    fit.id,
                    "The last fit judges the whole piece, with everything on it.",
                    about=step.parts,
                )
        for alone in facts.work.of_kind(StepKind.FIT):
            if facts.in_harness(fit) and not facts.in_harness(alone) and shared(alone, fit.parts):
                yield _GROUND.before(
                    alone.id,
                    fit.id,
                    "A piece that pinches by itself pinches with the others too, and then hides "
                    "which of them does it.",
                )
        for inspect in facts.work.of_kind(StepKind.INSPECT):
            if (inspect.piece, inspect.side) == (fit.piece, fit.side):
                yield _GROUND.before(
                    fit.id,
                    inspect.id,
                    "What the wearer's movement loosens or rubs shows only after the fit.",
                )


_UPPER = sketch_part("upper", holes={"u": (10.0, 10.0)})
_LOWER = sketch_part("lower", holes={"l": (10.0, 10.0)})

RULE = Rule(
    code=_GROUND.code,
    name="The last fit comes last",
    why="A fit with a strap missing says nothing of the finished piece. And what the wearer's "
    "movement loosens or rubs shows only after it, at the inspection.",
    mend="Fit it once more with everything on, and look at it again afterwards.",
    force=_GROUND.force,
    source=_GROUND.source,
    derive=_derive,
    examples=(
        Example(
            title="A rivet, the fit, the inspection",
            pattern=sketch(_UPPER, _LOWER, joints=(sketch_rivet("r", "u", "l"),)),
            expects=frozenset(
                {
                    ("punch/upper", "fit/piece"),
                    ("punch/lower", "fit/piece"),
                    ("rivet/r", "fit/piece"),
                    ("fit/piece", "inspect/piece"),
                }
            ),
        ),
        Example(title="Without parts there is nothing to fit", pattern=sketch()),
    ),
)
