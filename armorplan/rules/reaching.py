"""What the shapes say of reach, on each side of a build: for the rules that keep a tool's way open."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from math import inf

from armorplan.assembly.model import SidedJoint, SidedSeam
from armorplan.geometry.reach.bars import Bar
from armorplan.geometry.reach.gathered import Reach
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Margin, Row, Standing
from armorplan.geometry.reach.row_words import some_set
from armorplan.geometry.reach.words import shut, standing_words
from armorplan.geometry.sources import COMPUTED
from armorplan.geometry.told import listed
from armorplan.kernel.units import about_words
from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Ground
from armorplan.rules.reach_sides import Sides, View, is_whole, sides_of, steps_for, views_of
from armorplan.steps.model import Step
from armorplan.steps.naming import with_side
from armorplan.workshop.constants import PRACTICE

BY_REACH = frozenset(
    ("reach-before-closed", "row-from-deep-end", "easier-while-open", "deep-end-easier")
)
"""Codes of the rules that rest on what a tool reaches."""
BY_TOOLS = f"{COMPUTED} and the tools on the shelf"
"""Where what tools reach comes from."""
MINUTES_TOO = f"{BY_TOOLS}; minutes: {PRACTICE}"
BEFORE_CLOSED = Ground(code="reach-before-closed", force=Force.CANNOT, source=BY_TOOLS)
FROM_DEEP_END = Ground(code="row-from-deep-end", force=Force.CANNOT, source=BY_TOOLS)
_NOT_LAST = " So the row is not ended there."
ALONG = "along the leather from the opening"
NEEDS = "a straight tool needs at least"
"""Numbers of a relation by reach: how far in its joint lies at most and at least."""
LEAST_MIN = 0.2
"""What costs fewer minutes is no reason for an order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Barred:
    """A joint on one side, and the steps the last of which makes it harder or impossible to set.

    Attributes:
        of: the steps that set the rows; never empty, never the joint's own.
        when: that the rows are shut, in words.
        in_own_row: joints of its own row take part in it.
        undo_min: minutes of undoing and redoing a row that opens again (lace, screws); infinite
            where none of them does.
        dearer_min: minutes that it costs more afterwards, or those of opening a row again;
            infinite where it cannot be done.
    """

    joint: SidedJoint
    step: Step
    of: frozenset[str]
    when: str
    before: Margin
    after: Margin
    undo_min: float = inf
    in_own_row: bool = False

    @property
    def dearer_min(self) -> float:
        """Minutes that the joint costs more once the rows are shut."""
        if self.after.standing is Standing.CANNOT:
            return self.undo_min
        return self.step.minutes * (self.after.effort - self.before.effort)

    @property
    def about(self) -> tuple[str, ...]:
        """Ids of its parts and of the joint."""
        return (*self.joint.parts, self.joint.id)


def barred(facts: Facts, view: View, bars: Iterable[Bar]) -> Iterator[Barred]:
    """Yield each bar on each side it holds on."""
    named = {row.id: row for row in view.reach.rows}
    rows_of = {joint: row for row in named.values() for joint in row.joints}
    sided = sides_of(facts)
    for bar in bars:
        for joint in view.seen(sided, bar.joint):
            closing = [named[row] for row in sorted(bar.rows)]
            some = _by_rows(rows_of, (*sorted(bar.own), *sorted(bar.more)))
            groups = (*(row.joints for row in closing), *some.values())
            of = steps_for(facts, sided, (each for group in groups for each in group), joint)
            if of is None:
                continue
            words = [shut(with_side(row.name, joint.side) for row in closing)] if closing else []
            words += [
                some_set(named[row], joints, with_side(named[row].name, joint.side))
                for row, joints in some.items()
            ]
            found = barred_by(facts, joint, of, listed(words), (bar.before, bar.after))
            if found is not None:
                undo_min = _undo_min(facts, view, (bar.joint, groups), joint)
                yield replace(found, undo_min=undo_min, in_own_row=bool(bar.own))


def _by_rows(rows_of: Mapping[str, Row], joints: Iterable[str]) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for joint in joints:
        row = rows_of[joint].id
        found[row] = (*found.get(row, ()), joint)
    return found


def barred_by(
    facts: Facts,
    joint: SidedJoint,
    closing: frozenset[str],
    when: str,
    margins: tuple[Margin, Margin],
) -> Barred | None:
    """Return a joint barred by these steps; ``None`` where no step sets it, or none bars it."""
    step = facts.work.setting(joint.id)
    if step is None or not closing or step.id in closing:
        return None
    before, after = margins
    return Barred(joint=joint, step=step, of=closing, when=when, before=before, after=after)


def row_barred(facts: Facts, view: View) -> Iterator[Barred]:
    """Yield on each side what the rest of a row does to a joint of it."""
    sided = sides_of(facts)
    for each in view.reach.shut_in:
        for joint in view.seen(sided, each.joint):
            of = steps_for(facts, sided, each.of, joint)
            when = some_set(each.row, each.of, with_side(each.row.name, joint.side))
            margins = (each.before, each.after)
            found = None if of is None else barred_by(facts, joint, of, when, margins)
            if found is not None:
                yield found


def is_out_of_reach(facts: Facts, reach: Reach, found: Barred) -> bool:
    """Tell whether a joint cannot be set afterwards: no row opens again, and its shell is whole."""
    cannot = found.after.standing is Standing.CANNOT
    possible = found.before.standing is not Standing.CANNOT and found.undo_min == inf
    return cannot and possible and is_whole(facts, reach, found.joint)


def grave_bars(reach: Reach) -> Iterator[Bar]:
    """Yield all that leaves joints out of reach: by whole rows, and where all is known by joints.

    By joints it is stricter, by rows it is what a maker has in mind: where it holds it is told.
    """
    for bar in (*reach.bars, *reach.own_bars):
        if bar.after.standing is Standing.CANNOT:
            yield bar
    for bars in reach.sealed.values():
        yield from bars


def out_of_reach(facts: Facts, view: View, bars: Iterable[Bar]) -> Iterator[Relation]:
    """Yield what has to be set before the last of what shuts it in, since no tool gets there then.

    Args:
        facts: of the build.
        view: on some of its sides.
        bars: what leaves a joint out of reach there.
    """
    for found in barred(facts, view, bars):
        if is_out_of_reach(facts, view.reach, found):
            told = standing_words(facts.shelf, found.after)
            ground, so = (FROM_DEEP_END, _NOT_LAST) if found.in_own_row else (BEFORE_CLOSED, "")
            yield ground.before_all(
                found.step.id,
                found.of,
                f"Once {found.when}, no tool gets to '{found.step.title}': {told}.{so}",
                about=found.about,
                numbers=numbers(found),
            )


def costs_more(ground: Ground, found: Barred, text: str) -> Relation:
    """Return that a joint is better set before what shuts it in; the minutes are added to the text."""
    return ground.before_all(
        found.step.id,
        found.of,
        f"{text}, and it costs about {about_words(found.dearer_min)} more.",
        about=found.about,
        numbers=numbers(found),
        price_min=found.dearer_min,
    )


def _undo_min(
    facts: Facts,
    view: View,
    shut_by: tuple[str, Iterable[tuple[str, ...]]],
    seat: SidedJoint,
) -> float:
    """Return the minutes of undoing and redoing what opens again of the quickest of some rows.

    It counts where the joint is reached then; where one row is not enough, all that opens again is
    undone. Infinite: not even then is it.
    """
    (joint, groups), reach = (shut_by[0], tuple(shut_by[1])), view.reach
    sided = sides_of(facts)
    every, least = frozenset(each for group in groups for each in group), inf
    opening = [frozenset(each for each in group if _opens_again(sided, each)) for group in groups]
    for loose in (*filter(None, opening), frozenset[str]().union(*opening)):
        if not loose:
            continue
        opened = margin(reach.net, joint, every - loose, reach.bench)
        steps = steps_for(facts, sided, sorted(loose), seat)
        if opened.standing is not Standing.CANNOT and steps is not None:
            least = min(least, 2 * sum(facts.work.step(each).minutes for each in steps))
    return least


def _opens_again(sided: Sides, joint: str) -> bool:
    return not any(each.joint.kind.is_permanent for each in sided.get(joint, ()))


def along_row(facts: Facts, seam: SidedSeam) -> tuple[str, ...]:
    """Return a seam's sided joints in the order in which the row is best set, by its reach."""
    view = next(view for view in views_of(facts) if seam.side in view.sides)
    run = view.reach.runs.get(seam.seam.id)
    sided = {facts.assembly.joint(each).joint.id: each for each in seam.joints}
    if run is None or set(run) != set(sided):
        return seam.joints
    return tuple(sided[each] for each in run)


def numbers(found: Barred) -> tuple[Quantity, ...]:
    """Return the numbers behind a bar: the way in, what a straight tool needs, its reach.

    An opening that stands as wide as one likes has no number.
    """
    after, way = found.after, found.after.way
    told = [
        (ALONG, None if way is None else way.along_mm),
        (NEEDS, None if way is None else way.least_mm),
        ("opening", after.opening_mm),
        ("reach", after.reach_mm),
    ]
    known = [
        Quantity(name=name, value=value, unit="mm")
        for name, value in told
        if value is not None and value < inf
    ]
    if found.after.standing is not Standing.CANNOT:
        known.append(Quantity(name="costs more", value=found.dearer_min, unit="min"))
    return tuple(known)
