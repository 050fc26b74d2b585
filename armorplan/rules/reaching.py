"""What the shapes say of reach, on each side of a build: for the rules that keep a tool's way open."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from armorplan.assembly.model import Side, SidedJoint, SidedSeam
from armorplan.geometry.reach.bars import Bar
from armorplan.geometry.reach.ends import ShutIn
from armorplan.geometry.reach.gathered import Reach, reach_of
from armorplan.geometry.reach.model import Margin, Row, Standing
from armorplan.geometry.reach.words import shut
from armorplan.relations.model import Quantity
from armorplan.rules.facts import Facts
from armorplan.steps.model import Step
from armorplan.steps.naming import with_side

Sides = dict[str, list[SidedJoint]]
LEAST_MIN = 0.2
"""What costs fewer minutes is no reason for an order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Barred:
    """A joint on one side, and the steps the last of which makes it harder or impossible to set.

    Attributes:
        of: the steps that set the rows; never empty, never the joint's own.
        when: that the rows are shut, in words.
        dearer_min: minutes that it costs more afterwards; infinite where it cannot be done.
    """

    joint: SidedJoint
    step: Step
    of: frozenset[str]
    when: str
    before: Margin
    after: Margin

    @property
    def dearer_min(self) -> float:
        """Minutes that the joint costs more once the rows are shut."""
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
            groups = [*(row.joints for row in closing), bar.own]
            steps = (steps_for(facts, sided, each, joint.side) for each in groups)
            of = frozenset(step for each in steps for step in each)
            words = [shut(with_side(row.name, joint.side) for row in closing)] if closing else []
            if bar.own:
                words.append(_set(rows_of[bar.joint], bar.own, joint.side))
            found = barred_by(facts, joint, of, " and ".join(words), (bar.before, bar.after))
            if found is not None:
                yield found


def barred_by(
    facts: Facts,
    joint: SidedJoint,
    closing: frozenset[str],
    when: str,
    margins: tuple[Margin, Margin],
) -> Barred | None:
    """Return a joint barred by these steps; ``None`` where no step sets it, or none bars it."""
    step = facts.work.setting(joint.id)
    if step is None or not (others := closing - {step.id}):
        return None
    before, after = margins
    return Barred(joint=joint, step=step, of=others, when=when, before=before, after=after)


def row_barred(facts: Facts, shut_in: Iterable[ShutIn]) -> Iterator[Barred]:
    """Yield on each side what the rest of a row does to a joint of it."""
    sided = sides_of(facts)
    for each in shut_in:
        for joint in sided.get(each.joint, ()):
            of = steps_for(facts, sided, each.of, joint.side)
            when = _set(each.row, each.of, joint.side)
            found = barred_by(facts, joint, of, when, (each.before, each.after))
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


def steps_for(facts: Facts, sided: Sides, joints: Iterable[str], side: Side) -> frozenset[str]:
    """Return the steps that set joints on one side; of what is made once, or for what is, all."""
    found: list[str] = []
    for plain in joints:
        alike = sided.get(plain, [])
        same = [each.id for each in alike if each.side in (side, Side.SINGLE)]
        found += same or (each.id for each in alike)
    return facts.steps_setting(tuple(found))


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
