"""What a tool still reaches once rows are shut, but sets with more trouble, is better set before."""

from collections.abc import Iterable, Iterator
from math import inf

from armorplan.geometry.reach.bars import Bar
from armorplan.geometry.reach.model import Standing
from armorplan.geometry.reach.words import standing_words
from armorplan.geometry.told import begun
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Example, Ground, Rule
from armorplan.rules.reach_sides import View, views_of
from armorplan.rules.reach_sketches import sketch_tube
from armorplan.rules.reaching import LEAST_MIN, MINUTES_TOO, Barred, barred, costs_more
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(
    code="easier-while-open",
    force=Force.EASIER,
    source=MINUTES_TOO,
)


def _derive(facts: Facts) -> Iterator[Relation]:
    for view in views_of(facts):
        shut = (bar for bar in view.reach.own_bars if bar.after.standing is Standing.CANNOT)
        yield from dearer(facts, view, (*view.reach.bars, *shut))


def dearer(facts: Facts, view: View, bars: Iterable[Bar]) -> Iterator[Relation]:
    """Yield what costs minutes once it is barred, be it those of opening a row again.

    Args:
        facts: of the build.
        view: on some of its sides.
        bars: what makes joints harder there, or leaves them out of reach.
    """
    for found in barred(facts, view, bars):
        if LEAST_MIN <= found.dearer_min < inf and not _waits(facts, found.step):
            yield _relation(facts, view, found)


def _waits(facts: Facts, step: Step) -> bool:
    """Tell whether a step waits for shut rows whatever it costs.

    Laces are drawn last; what hangs pieces together waits until each of them is ready.
    """
    return step.kind is StepKind.LACE or facts.in_harness(step)


def _relation(facts: Facts, view: View, found: Barred) -> Relation:
    flat = found.before.standing is Standing.FLAT
    title = f"'{found.step.title}'"
    outside = found.joint.joint.id in view.reach.bench.outside
    told = standing_words(facts.shelf, found.after, outside=outside)
    if found.after.standing is Standing.CANNOT:
        told += ", unless a row that opens again is undone for it and done anew"
    later = f"nothing forbids it later: once {found.when}, {told}"
    if flat:
        now = f"{title} is set while the leather still lies flat, where any tool serves"
        return costs_more(_GROUND, found, f"{now}. {begun(later)}")
    return costs_more(_GROUND, found, f"{title} is easier before, though {later}")


_SPOTS = (20.0, 110.0, 190.0, 280.0)

RULE = Rule(
    code=_GROUND.code,
    name="Easier while it is open",
    why="Flat on the bench a rivet takes its usual minutes; on a shaped part a little more; inside a "
    "shape it takes up to twice as long the further in the tool works, and at the end of its reach "
    "three times. So what sits inside is set before the rows that shut it in; only laces, and what hangs "
    "whole pieces together, wait until the rows are shut. Nothing forbids the "
    "other order: the minutes say what it costs. How much more each takes is common practice "
    "without a source, and yours to change, among the constants of the bench.",
    mend="Set it with the tool that is named, by the opening that is left: support the work so that "
    "the head stays square to the blow, and take the time it takes.",
    force=_GROUND.force,
    source=_GROUND.source,
    derive=_derive,
    examples=(
        Example(
            title="A strap in the middle of a tube of 300 mm",
            pattern=sketch_tube(long_mm=300.0, spots_mm=_SPOTS, strap_mm=150.0),
            expects=frozenset(
                {("rivet/on", " | ".join(f"rivet/row_{n}" for n in range(len(_SPOTS))))}
            ),
        ),
        Example(
            title="The same tube without a strap",
            pattern=sketch_tube(long_mm=300.0, spots_mm=_SPOTS, strap_mm=None),
        ),
    ),
)
