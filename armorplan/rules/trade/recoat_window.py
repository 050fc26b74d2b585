"""The next coat goes on while the one before still takes it."""

from collections.abc import Iterator

from armorplan.kernel.units import span_words
from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import COATS, Facts
from armorplan.rules.model import COMMON_PRACTICE, SLOWER, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_treatment

_GROUND = Ground(code="recoat-window", force=Force.EASIER)


def _derive(facts: Facts) -> Iterator[Relation]:
    coats = facts.work.of_kind(*COATS)
    by_place = {(s.tray, s.coat): s for s in coats}
    for step in coats:
        then = by_place.get((step.tray, step.coat + 1))
        most = (facts.window_min(step, then) or (0, None))[1] if then else None
        if then is None or most is None:
            continue
        scuff_min = SLOWER * then.minutes
        yield _GROUND.before(
            step.id,
            then.id,
            f"Coat {then.coat} bonds with coat {step.coat} by itself until {span_words(most)} after "
            "it, on a usual day in this room; later that one is scuffed first.",
            about=step.parts,
            numbers=(
                Quantity(name="most wait", value=most, unit="min"),
                Quantity(name="saves", value=scuff_min, unit="min"),
            ),
            lags=(0, most),
            price_min=scuff_min,
        )


_PLATE = sketch_part("plate")

RULE = Rule(
    code=_GROUND.code,
    name="Coat again in time",
    why="A finish that is only just dry takes the next coat into itself. Once it is hard, the next one "
    "lies on it like a skin and may peel where the leather bends, so it is scuffed with a fine pad and "
    "wiped first. That costs some minutes and no more: so the plan keeps the time where it can, and "
    "lets it go over a long weekend.",
    mend="Scuff the dry coat lightly with a fine pad, wipe it clean, and put the next one on.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Two coats of a finish that hardens",
            pattern=sketch(_PLATE, treatments=(sketch_treatment("lacquer", "plate", coats=2),)),
            expects=frozenset({("finish/lacquer.coat-1", "finish/lacquer.coat-2")}),
        ),
        Example(
            title="Two coats of a finish that takes the next one at any time",
            pattern=sketch(_PLATE, treatments=(sketch_treatment("finish", "plate", coats=2),)),
        ),
    ),
)
