"""A coat goes on a dry one."""

from collections.abc import Iterator

from armorplan.kernel.units import span_words
from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import COATS, Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_treatment

_GROUND = Ground(code="dry-between-coats", force=Force.SPOIL)


def _derive(facts: Facts) -> Iterator[Relation]:
    coats = facts.work.of_kind(*COATS)
    by_place = {(s.tray, s.coat): s for s in coats}
    for step in coats:
        then = by_place.get((step.tray, step.coat + 1))
        dry = facts.work.drying_of(step.id)
        if then is None or dry is None:
            continue
        yield _GROUND.before(
            dry.id,
            then.id,
            f"Coat {then.coat} on a wet coat {step.coat} lifts it again: wait about "
            f"{span_words(dry.minutes)}, on a usual day in this room.",
            about=step.parts,
            numbers=(Quantity(name="dry to the touch", value=dry.minutes, unit="min"),),
        )


RULE = Rule(
    code=_GROUND.code,
    name="Let each coat dry",
    why="A second coat on a wet first one drags and lifts it, and leaves streaks and bubbles.",
    mend="Stop, let everything dry through, and go over it with one thin coat in circles. A finish"
    " that has gone cloudy has to be stripped and laid again.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Two coats of finish",
            pattern=sketch(
                sketch_part("plate"), treatments=(sketch_treatment("finish", "plate", coats=2),)
            ),
            expects=frozenset({("dry/finish.coat-1.finish", "finish/finish.coat-2")}),
        ),
        Example(
            title="One coat of finish",
            pattern=sketch(
                sketch_part("plate"), treatments=(sketch_treatment("finish", "plate"),)
            ),
        ),
    ),
)
