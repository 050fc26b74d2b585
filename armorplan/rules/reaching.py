"""What the shapes say of reach, on each side of a build: for the rules that keep a tool's way open."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from math import inf

from armorplan.assembly.model import Side, SidedJoint, SidedSeam
from armorplan.geometry.reach.bars import Bar
from armorplan.geometry.reach.ends import ShutIn
from armorplan.geometry.reach.gathered import Reach, reach_of
from armorplan.geometry.reach.model import Margin, Row, Standing
from armorplan.geometry.reach.words import shut, standing_words
from armorplan.geometry.sources import COMPUTED
from armorplan.relations.model import Quantity, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Ground
from armorplan.steps.model import Step
from armorplan.steps.naming import with_side
from armorplan.workshop.constants import PRACTICE

Sides = dict[str, list[SidedJoint]]
BY_REACH = frozenset(
    ("reach-before-closed", "row-from-deep-end", "easier-while-open", "deep-end-easier")
)
"""Codes of the rules that rest on what a tool reaches."""
BY_TOOLS = f"{COMPUTED} and the tools on the shelf"
"""Where what tools reach comes from."""
MINUTES_TOO = f"{BY_TOOLS}; minutes: {PRACTICE}"
LEAST_MIN = 0.2
"""What costs fewer minutes is no reason for an order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Barred:
    """A joint on one side, and the steps the last of which makes it harder or impossible to set.

    Attributes:
        of: the steps that set the rows; never empty, never the joint's own.
        when: that the rows are shut, in words.
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


def reach_in(facts: Facts) -> Reach:
    """Return what the shapes say of reach, with the tools of the shelf."""
    return reach_of(facts.assembly.pattern, facts.shelf)


def barred(facts: Facts, bars: Iterable[Bar], rows: Iterable[Row]) -> Iterator[Barred]:
    """Yield each bar on each side it holds on."""
    named = {row.id: row for row in rows}
    rows_of = {joint: row for row in named.values() for joint in row.joints}
    sided = sides_of(facts)
    for bar in bars:
        for joint in sided.get(bar.joint, ()):
            closing = [named[row] for row in sorted(bar.rows)]
            own = (bar.own,) if bar.own else ()
            groups = tuple(tuple(each) for each in (*(row.joints for row in closing), *own))
            of = steps_for(facts, sided, (each for some in groups for each in some), joint)
            if of is None:
                continue
            words = [shut(with_side(row.name, joint.side) for row in closing)] if closing else []
            if bar.own:
                words.append(_set(rows_of[bar.joint], bar.own, joint.side))
            found = barred_by(facts, joint, of, " and ".join(words), (bar.before, bar.after))
            if found is not None:
                yield replace(found, undo_min=_undo_min(facts, sided, groups, joint))


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


def row_barred(facts: Facts, shut_in: Iterable[ShutIn]) -> Iterator[Barred]:
    """Yield on each side what the rest of a row does to a joint of it."""
    sided = sides_of(facts)
    for each in shut_in:
        for joint in sided.get(each.joint, ()):
            of = steps_for(facts, sided, each.of, joint)
            when = _set(each.row, each.of, joint.side)
            margins = (each.before, each.after)
            found = None if of is None else barred_by(facts, joint, of, when, margins)
            if found is not None:
                yield found


def _set(row: Row, joints: Collection[str], side: Side) -> str:
    """Say what of a row is set: all the rest, or the joints on one side, by their places in it."""
    name = with_side(row.name, side)
    if len(joints) == len(row.joints) - 1:
        return f"all the rest of {name} is set"
    places = sorted(row.joints.index(each) + 1 for each in joints)
    if len(places) == 1:
        return f"number {places[0]} of {name} is set"
    return f"numbers {places[0]} to {places[-1]} of {name} are set"


def sides_of(facts: Facts) -> Sides:
    """Return by plain id the joints of each side."""
    found: Sides = {}
    for joint in facts.assembly.joints:
        found.setdefault(joint.joint.id, []).append(joint)
    return found


def steps_for(
    facts: Facts, sided: Sides, joints: Iterable[str], seat: SidedJoint
) -> frozenset[str] | None:
    """Return the steps that set joints on the side of another; of what is made once, or for it, all.

    ``None`` where they never are all set there: one of them is made on the other side only, on one
    side where the others are on both, or no step sets it.
    """
    found: list[SidedJoint] = []
    sides: set[frozenset[Side]] = set()
    for plain in joints:
        alike = sided.get(plain, [])
        here = alike if seat.side is Side.SINGLE else _here(alike, seat.side)
        if not here:
            return None
        sides.add(frozenset(each.side for each in here) - {Side.SINGLE})
        found += here
    steps = {facts.work.setting(each.id) for each in found}
    if len(sides - {frozenset()}) > 1 or None in steps:
        return None
    return frozenset(step.id for step in steps if step)


def _here(alike: Iterable[SidedJoint], side: Side) -> list[SidedJoint]:
    return [each for each in alike if each.side in (side, Side.SINGLE)]


def is_whole(facts: Facts, reach: Reach, joint: SidedJoint) -> bool:
    """Tell whether all plates of a joint's shell are made on its side: else the shell is another."""
    shell = reach.net.shell_of(joint.joint.id)
    if shell is None:
        return False
    made: dict[str, set[Side]] = {part: set() for part in shell.parts}
    for part in facts.assembly.parts:
        made.get(part.part.id, set()).add(part.side)
    if joint.side is Side.SINGLE:
        return (
            all(made.values()) and len({frozenset(s - {Side.SINGLE}) for s in made.values()}) == 1
        )
    return all({joint.side, Side.SINGLE} & sides for sides in made.values())


def is_out_of_reach(facts: Facts, reach: Reach, found: Barred) -> bool:
    """Tell whether a joint cannot be set afterwards: no row opens again, and its shell is whole."""
    cannot = found.after.standing is Standing.CANNOT
    possible = found.before.standing is not Standing.CANNOT and found.undo_min == inf
    return cannot and possible and is_whole(facts, reach, found.joint)


def out_of_reach(
    ground: Ground, facts: Facts, bars: Iterable[Bar], *, so: str = ""
) -> Iterator[Relation]:
    """Yield what has to be set before the last of what shuts it in, since no tool gets there then.

    Args:
        ground: of the rule.
        facts: of the build.
        bars: those that leave a joint out of reach count.
        so: what follows for the maker, a sentence.
    """
    reach = reach_in(facts)
    grave = (bar for bar in bars if bar.after.standing is Standing.CANNOT)
    for found in barred(facts, grave, reach.rows):
        if is_out_of_reach(facts, reach, found):
            told = standing_words(facts.shelf, found.after)
            yield ground.before_all(
                found.step.id,
                found.of,
                f"Once {found.when}, no tool gets to '{found.step.title}': {told}.{so and f' {so}'}",
                about=found.about,
                numbers=numbers(found),
            )


def costs_more(ground: Ground, found: Barred, text: str) -> Relation:
    """Return that a joint is better set before what shuts it in; the minutes are added to the text."""
    return ground.before_all(
        found.step.id,
        found.of,
        f"{text}, and it costs about {minutes_more(found.dearer_min)} more.",
        about=found.about,
        numbers=numbers(found),
        price_min=found.dearer_min,
    )


def _undo_min(
    facts: Facts, sided: Sides, groups: Iterable[tuple[str, ...]], seat: SidedJoint
) -> float:
    """Return the minutes of undoing and redoing the quickest of rows; infinite: none opens again.

    Each row of a bar is in the way: with one of them open again the joint is reached.
    """
    least = inf
    for group in groups:
        kinds = (each.joint.kind for plain in group for each in sided.get(plain, ()))
        if not any(kind.is_permanent for kind in kinds):
            steps = steps_for(facts, sided, group, seat) or frozenset()
            least = min(least, 2 * sum(facts.work.step(each).minutes for each in steps))
    return least


def along_row(facts: Facts, reach: Reach, seam: SidedSeam) -> tuple[str, ...]:
    """Return a seam's sided joints in the order in which the row is best set, by its reach."""
    run = reach.runs.get(seam.seam.id)
    sided = {facts.assembly.joint(each).joint.id: each for each in seam.joints}
    if run is None or set(run) != set(sided):
        return seam.joints
    return tuple(sided[each] for each in run)


def numbers(found: Barred) -> tuple[Quantity, ...]:
    """Return the numbers behind a bar: the way in, what a straight tool needs, its reach."""
    after, way = found.after, found.after.way
    told = [
        ("along the leather from the opening", None if way is None else way.along_mm),
        ("a straight tool needs at least", None if way is None else way.least_mm),
        ("opening", after.opening_mm),
        ("reach", after.reach_mm),
    ]
    known = [
        Quantity(name=name, value=value, unit="mm") for name, value in told if value is not None
    ]
    if found.after.standing is not Standing.CANNOT:
        known.append(Quantity(name="costs more", value=found.dearer_min, unit="min"))
    return tuple(known)


def minutes_more(dearer_min: float) -> str:
    """Say minutes to half a minute, where they come to one or more, else to a tenth."""
    if dearer_min < 1:
        return f"{dearer_min:.1f} minutes"
    half = round(2 * dearer_min) / 2
    return f"{half:g} minute{'s' * (half != 1)}"
