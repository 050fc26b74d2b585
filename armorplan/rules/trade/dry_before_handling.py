"""Nothing is handled before it is dry."""

from collections.abc import Iterator

from armorplan.kernel.units import span_words
from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_treatment
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(code="dry-before-handling", force=Force.SPOIL)
_HANDLING = (
    StepKind.THREAD,
    StepKind.DRY_FIT,
    StepKind.FORM_DRY,
    StepKind.FIT,
)


def _glued(facts: Facts, wet: Step) -> tuple[Step, ...]:
    """Return what has to wait for glue: hammered joints through its layers, and the last fit.

    More glue on the same layers goes on while the first is still wet.
    """
    layers = set(wet.parts)
    joints = (
        step
        for joint, step in facts.joint_steps()
        if layers <= set(joint.parts) and step.kind is not StepKind.GLUE
    )
    return (*joints, *(fit for fit in facts.work.of_kind(StepKind.FIT) if _tries(facts, fit, wet)))


def _tries(facts: Facts, fit: Step, wet: Step) -> bool:
    """Tell whether a last fit tries what was glued: on its piece, or on the pieces hung together."""
    return fit.piece == wet.piece or not (facts.in_harness(fit) or facts.in_harness(wet))


def _text(wet: Step, names: str, minutes: int) -> str:
    if wet.kind is StepKind.GLUE:
        return f"The glue between {names} slides under the hammer until it has set {span_words(minutes)}."
    return (
        f"{names}: wet leather takes every fingerprint and smears; it needs {span_words(minutes)} to be "
        "handled."
    )


def _derive(facts: Facts) -> Iterator[Relation]:
    handling = [
        step
        for step in facts.work.of_kind(*_HANDLING)
        if not (step.kind is StepKind.FIT and facts.in_harness(step))
    ]
    for wet, dry in facts.wet_before_handling():
        for step in _glued(facts, wet) if wet.kind is StepKind.GLUE else handling:
            shared = tuple(p for p in dry.parts if p in step.parts)
            if shared:
                yield _GROUND.before(
                    dry.id,
                    step.id,
                    _text(wet, facts.names(shared), dry.minutes),
                    about=shared,
                    numbers=(Quantity(name="drying", value=dry.minutes, unit="min"),),
                )


RULE = Rule(
    code=_GROUND.code,
    name="Dry before handling",
    why="Wet dye comes off on hands and on the next part, a wet finish keeps every print, damp "
    "leather loses the shape it was given, and wet glue slides.",
    mend="Lay it down again and let it dry. Even out prints with another coat all over, since a "
    "patch shows; tie a shape that slackened back on its block, damped again if it is not "
    "dyed yet.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A dyed plate is fitted when dry",
            pattern=sketch(sketch_part("plate"), treatments=(sketch_treatment("dye", "plate"),)),
            expects=frozenset({("dry/dye.coat-1.dye", "fit/piece")}),
        ),
        Example(title="An undyed plate waits for nothing", pattern=sketch(sketch_part("plate"))),
    ),
)
