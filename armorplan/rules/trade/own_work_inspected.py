"""What a maker adds is done before the piece is inspected."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.own_work import OwnStep
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts, shared
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.model import StepKind

_GROUND = Ground(code="own-work-inspected", force=Force.USUAL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for own in facts.work.of_kind(StepKind.OWN):
        for inspect in facts.work.of_kind(StepKind.INSPECT):
            same = own.piece == inspect.piece or not facts.in_harness(inspect)
            if same and not (facts.in_harness(own) and own.piece != inspect.piece):
                touched = shared(inspect, own.parts)
                if touched:
                    yield _GROUND.before(
                        facts.end_of(own).id,
                        inspect.id,
                        f"The inspection looks at everything: '{own.title}' is done by then.",
                        about=touched,
                    )


_PLATE = sketch(sketch_part("plate"))

RULE = Rule(
    code=_GROUND.code,
    name="Your own steps before the inspection",
    why="A step you add yourself stands anywhere between the cut of its parts and the inspection. "
    "Where exactly, you say with an order of your own; without one it is only kept out of the time "
    "after the inspection, which should have seen it.",
    mend="Look once more at what it changed.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A number painted on by the maker, which dries for an hour",
            pattern=replace(
                _PLATE,
                own_steps=(
                    OwnStep(id="paint", name="Paint the number", piece="piece", wait_min=60),
                ),
            ),
            expects=frozenset({("dry/paint.own", "inspect/piece")}),
        ),
        Example(title="A plate with the usual work only", pattern=_PLATE),
    ),
)
