"""The same plan as early as it can be: the same people, ways, batches and sequences, no idle gaps."""

from collections.abc import Container, Iterator, Mapping
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

from armorplan.schedule.activity import Activity, Mode
from armorplan.schedule.company import everybody
from armorplan.schedule.keeping import order_pairs
from armorplan.schedule.network import ORIGIN
from armorplan.schedule.problem import Bath, Placed, Problem
from armorplan.schedule.soonest import Moment, Tie, earliest_times

Lies = Mapping[str, Placed]
Batches = dict[int, list[str]]
"""Of one bath: the dips that start together, by when."""


class _Taken(NamedTuple):
    """Something taken: from one moment till the last of some others.

    A hold begins as something ends. ``last`` is the last of what ends it in the plan at hand.
    """

    from_min: int
    till_min: int
    begins: Moment
    ends: tuple[Moment, ...]
    last: Moment


def pulled_earlier(problem: Problem, placed: tuple[Placed, ...]) -> tuple[Placed, ...]:
    """Return a plan that holds with nothing later than before: the same sequences, no idle gaps.

    With the sequences of everybody, every place and every bath kept, all starts can be at their
    least at once: lags, hours and sequences each leave the lesser of two plans allowed too.
    """
    lies = {p.id: p for p in placed}
    batches = _batches(problem, lies)
    fixed = {a.id for a in problem.activities if a.fixed_start_min is not None}
    # A dip that goes with one of history lies where that lies.
    fixed |= {i for bath in batches for ids in bath.values() if fixed & set(ids) for i in ids}
    tied = replace(
        problem,
        activities=tuple(_as_given(a, lies[a.id], fixed) for a in problem.activities),
        holds=(),
        baths=(),
    )
    ties = [tie for tie in _ties(problem, lies, batches) if tie.then.id not in fixed]
    starts, ends = earliest_times(tied, ties)
    return tuple(
        p if p.id in fixed else replace(p, start_min=starts[p.id], end_min=ends[p.id])
        for p in placed
    )


def _as_given(activity: Activity, placed: Placed, fixed: Container[str]) -> Activity:
    """Return an activity that only the person it was given to may do, as it was given.

    A dip takes as long as its batch. One whose table happens to give it no time stays: earlier it
    might take some, and need hands or a place that are taken then.
    """
    if activity.id in fixed:
        return replace(
            activity,
            fixed_start_min=placed.start_min,
            fixed_end_min=placed.end_min,
            fixed_who=placed.who,
            fixed_mode=placed.mode,
        )
    takes_no_time = activity.table is not None and placed.start_min == placed.end_min
    way = activity.way(placed.who, placed.mode) or Mode(who=placed.who, minutes=activity.minutes)
    takes = way.minutes if activity.dip is None else placed.end_min - placed.start_min
    return replace(
        activity,
        people=() if placed.who is None else (placed.who,),
        minutes=takes,
        modes=(),
        also=(*activity.also, *way.also),
        sitting_min=activity.sitting(way),
        dip=None,
        demands=(*activity.demands, *way.demands),
        earliest_min=placed.start_min if takes_no_time else activity.earliest_min,
    )


def _ties(problem: Problem, lies: Lies, batches: list[Batches]) -> Iterator[Tie]:
    for bath, started in zip(problem.baths, batches, strict=True):
        yield from _of_bath(problem, bath, [started[start] for start in sorted(started)], lies)
    yield from _of_people(problem, lies, batches)
    for resource in problem.resources:
        yield from _sequence([*_demanded(problem, resource.id, lies)])
    for rule in problem.before_last:
        last = max(sorted(rule.of), key=lambda i: lies[i].start_min)
        yield Tie(_end(rule.first), _start(last))
    for first, then in order_pairs(problem):
        if lies[first].start_min <= lies[then].start_min:
            yield Tie(_start(first), _start(then))


def _batches(problem: Problem, lies: Lies) -> list[Batches]:
    """Return the batches of each bath: which dips start at which minute."""
    found: dict[str, Batches] = {bath.id: {} for bath in problem.baths}
    for activity in problem.activities:
        placed = lies[activity.id]
        way = activity.way(placed.who, placed.mode)
        if activity.dip is not None and way is not None and way.bath in found:
            found[way.bath].setdefault(placed.start_min, []).append(activity.id)
    return list(found.values())


def _of_bath(problem: Problem, bath: Bath, batches: list[list[str]], lies: Lies) -> Iterator[Tie]:
    family = {a.id: a.dip.family for a in problem.activities if a.dip is not None}
    for batch in batches:
        for one, other in pairwise(batch):
            yield Tie(_start(one), _start(other))
            yield Tie(_start(other), _start(one))
    if batches and bath.holds not in ("", family[batches[0][0]]):
        yield Tie(_start(ORIGIN), _start(batches[0][0]), bath.change_min)
    for (one, *_), (other, *_) in pairwise(batches):
        takes_none = lies[one].start_min == lies[one].end_min
        change = 0 if family[one] == family[other] else bath.change_min
        yield Tie(_end(one), _start(other), max(change, takes_none))


def _of_people(problem: Problem, lies: Lies, batches: list[Batches]) -> Iterator[Tie]:
    """Return who follows whom in the same hands; a batch counts once."""
    counted = {i for bath in batches for ids in bath.values() for i in ids[1:]}
    busy: dict[str, list[Placed]] = {}
    for activity in problem.activities:
        placed = lies[activity.id]
        if placed.start_min < placed.end_min and activity.id not in counted:
            for person in everybody(activity, placed):
                busy.setdefault(person, []).append(placed)
    for things in busy.values():
        things.sort(key=lambda p: (p.start_min, p.end_min, p.id))
        for one, other in pairwise(things):
            yield Tie(_end(one.id), _start(other.id))


def _demanded(problem: Problem, resource: str, lies: Lies) -> Iterator[_Taken]:
    """Return what takes a resource, and what holds it till it is taken down."""
    for activity in problem.activities:
        placed = lies[activity.id]
        way = activity.way(placed.who, placed.mode)
        demands = (*activity.demands, *(way.demands if way else ()))
        if any(d.resource == resource for d in demands):
            end = _end(activity.id)
            yield _Taken(placed.start_min, placed.end_min, _start(activity.id), (end,), end)
    for hold in problem.holds:
        if hold.resource == resource and hold.until:
            last = max(hold.until, key=lambda i: lies[i].start_min)
            span = lies[hold.first].end_min, lies[last].start_min
            ends = tuple(_start(i) for i in hold.until)
            yield _Taken(*span, _end(hold.first), ends, _start(last))


def _sequence(takers: list[_Taken]) -> Iterator[Tie]:
    """Return what is taken before what: only the next, since those lead on to the others.

    What is not held at all in this plan is not held after.
    """
    held = [t for t in takers if t.from_min < t.till_min]
    for taken in takers:
        if taken.from_min >= taken.till_min:
            yield from (Tie(end, taken.begins) for end in taken.ends if taken.begins.is_end)
        elif taken.begins.is_end:  # A hold: it goes on to the same last of what ends it.
            yield Tie(taken.begins, taken.last)
    ended = sorted(held, key=lambda t: t.till_min)
    passed, latest_from = 0, -1
    for taken in sorted(held, key=lambda t: t.from_min):
        while passed < len(ended) and ended[passed].till_min <= taken.from_min:
            latest_from = max(latest_from, ended[passed].from_min)
            passed += 1
        at = passed - 1
        while at >= 0 and ended[at].till_min > latest_from:
            yield from (Tie(end, taken.begins) for end in ended[at].ends)
            at -= 1


def _start(name: str) -> Moment:
    return Moment(name, is_end=False)


def _end(name: str) -> Moment:
    return Moment(name, is_end=True)
