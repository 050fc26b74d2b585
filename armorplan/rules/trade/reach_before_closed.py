"""What no tool reaches once rows are shut is set before the last of them is."""

from collections.abc import Iterator

from armorplan.relations.model import Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Example, Rule
from armorplan.rules.reach_sides import views_of
from armorplan.rules.reach_sketches import sketch_tube
from armorplan.rules.reaching import BEFORE_CLOSED, grave_bars, out_of_reach


def _derive(facts: Facts) -> Iterator[Relation]:
    for view in views_of(facts):
        bars = (bar for bar in grave_bars(view.reach) if not bar.own)
        yield from out_of_reach(facts, view, bars)


_DEEP = (50.0, 150.0, 250.0, 350.0, 450.0, 550.0, 650.0)
_SHORT = (20.0, 110.0, 190.0, 280.0)

RULE = Rule(
    code=BEFORE_CLOSED.code,
    name="What lies deep before its shell is shut",
    why="Behind a rivet stands an anvil, and a straight anvil gets in only by an opening that it fits "
    "through, and only as far as it is long. Each row that is set takes an opening away. What lies "
    "further from every opening left than the longest tool reaches has to be set while one of the "
    "rows is still open. It is said only where even the least that a straight tool can need is more "
    "than its reach: a shallow dish needs almost nothing, a tube all of its depth. Pins count as "
    "set. Tools, their reach and their openings are those of the shelf.",
    mend="Take out rivets of the row nearest to it until the tool goes in, set it, and set them anew; "
    "or use a screw post, or a longer horn. What says here that it cannot be done is reckoned: "
    "where it did reach, say so by setting this aside with a note.",
    force=BEFORE_CLOSED.force,
    source=BEFORE_CLOSED.source,
    derive=_derive,
    examples=(
        Example(
            title="A strap in the middle of a tube of 700 mm, and a horn of 250 mm",
            pattern=sketch_tube(long_mm=700.0, spots_mm=_DEEP, strap_mm=350.0),
            expects=frozenset(
                {("rivet/on", " | ".join(f"rivet/row_{n}" for n in range(len(_DEEP))))}
            ),
        ),
        Example(
            title="In a tube of 300 mm the horn reaches it from either mouth",
            pattern=sketch_tube(long_mm=300.0, spots_mm=_SHORT, strap_mm=150.0),
        ),
    ),
)
