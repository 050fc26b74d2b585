"""What each joint takes in the order that is chosen, and the steps with those minutes.

The minutes a step is derived with are those of the flat bench; relations and the order of least
effort are reckoned from them. Once the order is found, each joint takes what its state in it asks.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import floor, isinf

from armorplan.app.effort_atoms import SetTogether
from armorplan.app.effort_rank import LeastEffort
from armorplan.app.effort_states import REACH
from armorplan.assembly.model import Assembly
from armorplan.geometry.reach.model import Margin
from armorplan.geometry.reach.words import standing_words
from armorplan.kernel.units import about_words
from armorplan.orders.effort_model import TICKS, Rise, in_ticks
from armorplan.steps.model import SETS_JOINT, Step, Work
from armorplan.workshop.shelf import Shelf

_SAME_MIN = 0.02
"""The table of rises is kept in hundredths of a minute: less is its rounding."""
_TINY = 1e-9
_STEP = 0.05
_TOLD_TIMES, _TOLD_MIN = 1.05, 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class JointTime:
    """What one joint takes in an order.

    Attributes:
        minutes: in all.
        whole_min: the same in whole minutes, never below 1; rounding is carried on from joint to joint.
        else_min: how much of ``minutes`` is for what reach knows nothing of, such as a cover in the way.
        margin: how far a tool gets there then.
        loaded: it is of a row that is loaded first and then set.
        outside: it is closed from outside alone, so that no tool has to get in.
    """

    minutes: float
    whole_min: int
    else_min: float
    margin: Margin
    loaded: bool
    outside: bool = False


def joint_times(effort: LeastEffort, order: Iterable[str]) -> dict[str, JointTime]:
    """Return what each joint takes in an order of all steps, by plain id, in that order.

    What is set in one go counts where it is begun.
    """
    place = {step: at for at, step in enumerate(order)}
    at = {joint: place[step.id] for joint, step in effort.steps.items()}
    groups = [
        (group, sorted(group.joints, key=at.__getitem__)) for group in effort.groups.values()
    ]
    groups.sort(key=lambda one: at[one[1][0]])
    base = {atom.id: in_ticks(atom.minutes) / TICKS for atom in effort.problem.atoms}
    rises: dict[str, list[Rise]] = {}
    for rise in effort.problem.rises:
        rises.setdefault(rise.atom, []).append(rise)
    found, done = dict[str, JointTime](), frozenset[str]()
    for group, joints in groups:
        mine = rises.get(group.id, ())
        told = base[group.id] + _most(mine, done, reach=True)
        more = _most(mine, done, reach=False)
        found |= _group_times(effort, (group, joints, done), told_min=told, more_min=more)
        done |= {group.id}
    joints = sorted(found, key=at.__getitem__)
    whole = whole_minutes(found[joint].minutes for joint in joints)
    return {j: replace(found[j], whole_min=each) for j, each in zip(joints, whole, strict=True)}


def _group_times(
    effort: LeastEffort,
    met: tuple[SetTogether, Sequence[str], frozenset[str]],
    *,
    told_min: float,
    more_min: float,
) -> dict[str, JointTime]:
    group, joints, done = met
    run, margins = effort.states.run(group, joints, done)
    by_reach = sum(run.each)
    # Where the table says the same, its hundredths are taken, so that all sums are alike.
    share = told_min / by_reach if abs(told_min - by_reach) < _SAME_MIN else 1.0
    more = more_min / len(joints)
    return {
        joint: JointTime(
            minutes=share * minutes + more,
            whole_min=1,
            else_min=more,
            margin=margin,
            loaded=run.loaded,
            outside=joint in effort.states.reach.bench.outside,
        )
        for joint, minutes, margin in zip(joints, run.each, margins, strict=True)
    }


def _most(rises: Iterable[Rise], done: frozenset[str], *, reach: bool) -> float:
    """Return what a group takes more after others: of rises of one kind the dearest, kinds added up."""
    dearest: dict[str, float] = {}
    for rise in rises:
        if (rise.why == REACH) is reach and rise.after <= done:
            dearest[rise.why] = max(dearest.get(rise.why, 0.0), rise.minutes)
    return sum(dearest.values())


def whole_minutes(minutes: Iterable[float]) -> list[int]:
    """Return minutes as whole ones, what rounding leaves carried on to the next; none below 1.

    Their sum is the rounded sum, but where some are below 1.

    >>> whole_minutes([3.4, 3.4, 3.4])
    [3, 4, 3]
    """
    found, spent, given = list[int](), 0.0, 0
    for each in minutes:
        spent += each
        found.append(max(1, floor(spent + 0.5 + _TINY) - given))
        given += found[-1]
    return found


def timed(work: Work, assembly: Assembly, shelf: Shelf, times: Mapping[str, JointTime]) -> Work:
    """Return the steps with the minutes that setting their joints takes, alike on both sides.

    Args:
        work: steps with the minutes of the flat bench.
        assembly: what the joints' plain ids are looked up in.
        shelf: names of the tools.
        times: by plain joint, of the chosen order.
    """
    steps = tuple(
        _in_time(step, times.get(assembly.joint(step.joints[0]).joint.id), shelf)
        if step.kind in SETS_JOINT
        else step
        for step in work.steps
    )
    return Work(steps=steps)


def _in_time(step: Step, time: JointTime | None, shelf: Shelf) -> Step:
    if time is None:
        return step
    detail = f"{step.detail} {longer_words(shelf, time)}".strip()
    return replace(step, minutes=time.whole_min, detail=detail)


def _near(effort: float) -> float:
    return round(effort / _STEP) * _STEP


def longer_words(shelf: Shelf, time: JointTime) -> str:
    """Say why a joint takes another time than on the flat bench; empty where it takes just that."""
    said = []
    effort = time.margin.effort
    if isinf(effort):
        times = shelf.constants.end_effort.value
        said.append(
            f"No way to set it is known here, so it counts {times:g} times the flat bench: "
            f"{standing_words(shelf, time.margin)}."
        )
    elif effort >= _TOLD_TIMES:
        how = standing_words(shelf, time.margin, outside=time.outside)
        said.append(f"{_near(effort):g} times the flat bench: {how}.")
    if time.else_min >= _TOLD_MIN:
        said.append(
            f"About {about_words(time.else_min)} more, since other things stand in its way."
        )
    if time.loaded:
        saved = f"{shelf.constants.load_row.value:g} %"
        said.append(f"Less {saved}, for the row is loaded first and then set.")
    return " ".join(said)
