"""A row is begun at its deep end where the rest of it would shut that end in for good."""

from collections.abc import Iterator

from armorplan.relations.model import Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Example, Rule
from armorplan.rules.reach_sides import views_of
from armorplan.rules.reach_sketches import sketch_cone
from armorplan.rules.reaching import FROM_DEEP_END, grave_bars, out_of_reach


def _derive(facts: Facts) -> Iterator[Relation]:
    for view in views_of(facts):
        bars = (bar for bar in grave_bars(view.reach) if bar.own)
        yield from out_of_reach(facts, view, bars)


_SPOTS = (30.0, 120.0, 210.0, 300.0)

RULE = Rule(
    code=FROM_DEEP_END.code,
    name="The deep end of a row first",
    why="While a row is open beyond a rivet, the leather parts there and the anvil goes in beside it. "
    "The last rivets of a row are reached by a mouth only. So the row of a deep cup is set from its "
    "bottom to its rim: the rivet at the bottom last would lie further in than any tool gets. How "
    "far an open row parts is common practice, and yours to change. Pins count as set.",
    mend="Take out the rivets next to it, as many as let the anvil in, set it, and set them anew. A "
    "screw post can be set where no anvil gets to, if two screwdrivers reach.",
    force=FROM_DEEP_END.force,
    source=FROM_DEEP_END.source,
    derive=_derive,
    examples=(
        Example(
            title="A cone 350 mm deep: its rivet at the tip, and a horn of 250 mm",
            pattern=sketch_cone(deep_mm=350.0, angle_deg=60.0, spots_mm=_SPOTS),
            expects=frozenset(
                {("rivet/row_0", " | ".join(f"rivet/row_{n}" for n in range(1, len(_SPOTS))))}
            ),
        ),
        Example(
            title="A cone 150 mm deep",
            pattern=sketch_cone(deep_mm=150.0, angle_deg=150.0, spots_mm=_SPOTS[:3]),
        ),
    ),
)
