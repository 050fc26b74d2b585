"""A row is begun at its deep end where the rest of it would make that end dearer to set."""

from collections.abc import Iterator

from armorplan.geometry.reach.words import standing_words
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Example, Ground, Rule
from armorplan.rules.reach_sides import views_of
from armorplan.rules.reach_sketches import sketch_cone
from armorplan.rules.reaching import LEAST_MIN, MINUTES_TOO, costs_more, row_barred

_GROUND = Ground(
    code="deep-end-easier",
    force=Force.EASIER,
    source=MINUTES_TOO,
)


def _derive(facts: Facts) -> Iterator[Relation]:
    for found in (each for view in views_of(facts) for each in row_barred(facts, view)):
        if found.dearer_min >= LEAST_MIN:
            told = standing_words(facts.shelf, found.after)
            later = f"though nothing forbids it later: once {found.when}, {told}"
            yield costs_more(_GROUND, found, f"'{found.step.title}' is easier before, {later}")


_SPOTS = (30.0, 80.0, 130.0, 180.0, 230.0)

RULE = Rule(
    code=_GROUND.code,
    name="From the deep end to the rim",
    why="Set from the rim, a row shuts itself in: each rivet further down has to be reached by the "
    "mouth. Set from the deep end, the row lies open before the anvil and each rivet costs no more "
    "than the one before it. Nothing forbids the other way in a shallow piece; the minutes say what "
    "it costs. They are common practice without a source, and yours to change.",
    mend="Go on from the rim with a tool that reaches, or take out the last two rivets and begin anew "
    "at the deep end.",
    force=_GROUND.force,
    source=_GROUND.source,
    derive=_derive,
    examples=(
        Example(
            title="A cone 250 mm deep: rim first, the two rivets nearest to its tip cost more",
            pattern=sketch_cone(deep_mm=250.0, angle_deg=90.0, spots_mm=_SPOTS),
            expects=frozenset(
                (f"rivet/row_{n}", " | ".join(f"rivet/row_{m}" for m in range(n + 1, 5)))
                for n in (0, 1)
            ),
        ),
        Example(
            title="A cone 80 mm deep",
            pattern=sketch_cone(deep_mm=80.0, angle_deg=150.0, spots_mm=(30.0, 60.0)),
        ),
    ),
)
