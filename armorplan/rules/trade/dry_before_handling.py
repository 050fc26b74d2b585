"""Nothing is handled before it is dry."""

from collections.abc import Iterator

from armorplan.kernel.units import span_words
from armorplan.relations.model import Before, BeforeAll, Force, Quantity, Relation
from armorplan.rules.facts import GIVES_WAY, Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import (
    sketch,
    sketch_glue,
    sketch_part,
    sketch_rivet,
    sketch_treatment,
)
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(code="dry-before-handling", force=Force.SPOIL)
_HANDLING = (
    StepKind.THREAD,
    StepKind.DRY_FIT,
    StepKind.FORM_DRY,
    StepKind.FIT,
)


def _glued(facts: Facts, wet: Step) -> tuple[Step, ...]:
    """Return what has to wait for glue: joints through all its layers, and the last fit.

    More glue on the same layers goes on while the first is still wet. What is set beside the glue,
    through one of its layers, may come before it (``rules.wet_glue``).
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


def _text(facts: Facts, wet: Step, step: Step, shared: tuple[str, ...], minutes: int) -> str:
    if wet.kind is not StepKind.GLUE:
        return (
            f"{facts.names(shared)}: wet leather takes every fingerprint and smears; on a usual day "
            f"in this room it needs about {span_words(minutes)} to be handled."
        )
    between = facts.names(wet.parts)
    if step.kind is StepKind.FIT:
        return f"Worn before it has set {span_words(minutes)}, the glue between {between} lets go."
    return f"The glue between {between} {GIVES_WAY[step.kind]} until it has set {span_words(minutes)}."


def after_drying(facts: Facts, wet: Step, dry: Step, step: Step) -> Before | None:
    """Return a drying before what handles the same parts; ``None`` where they share none."""
    shared = tuple(p for p in dry.parts if p in step.parts)
    if not shared:
        return None
    return _GROUND.before(
        dry.id,
        step.id,
        _text(facts, wet, step, shared, dry.minutes),
        about=shared,
        numbers=(drying_time(dry),),
    )


def punched_after_drying(facts: Facts, dry: Step, punch: Step) -> Before | None:
    """Return a drying before the punching of the same part; ``None`` where they share none."""
    shared = tuple(p for p in dry.parts if p in punch.parts)
    if not shared:
        return None
    return _GROUND.before(
        dry.id,
        punch.id,
        f"{facts.names(shared)}: under the mallet wet leather is crushed round the punch and takes "
        "every print of block and hand; on a usual day in this room it needs about "
        f"{span_words(dry.minutes)} to be handled.",
        about=shared,
        numbers=(drying_time(dry),),
    )


def drying_time(dry: Step, name: str = "drying") -> Quantity:
    """Return how long something dries on a usual day, for a reason."""
    return Quantity(name=name, value=dry.minutes, unit="min")


def last_after_drying(facts: Facts, dry: Step, wet: Step, of: frozenset[str]) -> BeforeAll:
    """Return the drying of glue before the last of what covers it."""
    text = f"The glue between {facts.names(wet.parts)} slides until it has set {span_words(dry.minutes)}."
    return _GROUND.before_all(dry.id, of, text, about=wet.parts, numbers=(drying_time(dry),))


def _derive(facts: Facts) -> Iterator[Relation]:
    handling = [
        step
        for step in facts.work.of_kind(*_HANDLING)
        if not (step.kind is StepKind.FIT and facts.in_harness(step))
    ]
    for wet, dry in facts.wet_before_handling():
        for step in _glued(facts, wet) if wet.kind is StepKind.GLUE else handling:
            relation = after_drying(facts, wet, dry, step)
            if relation is not None:
                yield relation


RULE = Rule(
    code=_GROUND.code,
    name="Dry before handling",
    why="Wet dye comes off on hands and on the next part, a wet finish keeps every print, damp "
    "leather loses the shape it was given, and wet glue slides. What goes through all layers of a "
    "glued face waits until it has set. What is set or bent beside it, through one of them, may be "
    "done before the glue, and is usually done so; where it comes after the glue, whatever the "
    "reason, it waits for the drying too. A part that is punched only after a coat, because its maker "
    "says so, is dry as well before it comes under the mallet.",
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
        Example(
            title="A trim glued to a plate and riveted through both, and a strap riveted to the plate",
            pattern=sketch(
                sketch_part("trim", holes={"t": (10.0, 10.0)}),
                sketch_part("plate", holes={"p": (10.0, 10.0), "q": (60.0, 10.0)}),
                sketch_part("strap", holes={"s": (10.0, 10.0)}),
                joints=(
                    sketch_glue("g", "trim", "plate"),
                    sketch_rivet("through", "t", "p"),
                    sketch_rivet("beside", "s", "q"),
                ),
            ),
            expects=frozenset({("dry/g.glue", "rivet/through"), ("dry/g.glue", "fit/piece")}),
        ),
        Example(title="An undyed plate waits for nothing", pattern=sketch(sketch_part("plate"))),
    ),
)
