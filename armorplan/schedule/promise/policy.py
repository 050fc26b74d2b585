"""A plan as a policy: keep its sequence, start each thing as soon as what it waits for is there."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from heapq import heapify, heappop, heappush
from itertools import pairwise

from armorplan.schedule.activity import Window
from armorplan.schedule.problem import Lag, Plan, Problem
from armorplan.schedule.promise.chains import Turn, turns
from armorplan.schedule.promise.work import Work, pieces_of_work, windows_of
from armorplan.schedule.table import Table

_Lags = list[tuple[int, int, Lag]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """What a piece of work waits for: another's end (or start) and some minutes.

    ``is_turn``: it takes over the other's bath or room.
    """

    of: int
    gap_min: int = 0
    since_start: bool = False
    till_end: bool = False
    opens: Table | None = None
    is_turn: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Closing:
    """A window: it has to start soon after another ended.

    Attributes:
        of: whose end it follows.
        again: what is done again where it was missed, in turn, each with the lag to the next; the
            last is ``of`` with this very lag.
        goes_on: it follows in any case, even past closing time: the two are one go, somebody only
            looks in, or time alone does it.
    """

    of: int
    lag: Lag
    again: tuple[tuple[int, Lag], ...]
    goes_on: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One piece of work with all it waits for; the pieces stand in an order that keeps the waits.

    Attributes:
        windows: where it lies; ``None``: day and night.
        floor_min: it starts no sooner. What opens a window for hands starts not before the plan has
            it, or the hands might be elsewhere; likewise what counts back from what comes later.
        ahead: windows that open as this ends, to be looked at before it is begun: by number the
            piece that has to follow in time.
        change_min: so long its bath takes to be changed to another colour.
    """

    work: Work
    windows: tuple[Window, ...] | None
    floor_min: int
    waits: tuple[Wait, ...]
    closings: tuple[Closing, ...]
    ahead: tuple[tuple[int, Lag], ...]
    change_min: int = 0


def policy_of(problem: Problem, plan: Plan) -> tuple[Part, ...]:
    """Return a plan's pieces of work with their waits, each behind all it waits for."""
    works = pieces_of_work(problem, {p.id: p for p in plan.placed})
    at = {m.activity.id: k for k, work in enumerate(works) for m in work.members}
    found, last = [*turns(problem, works)], [*_before_last(problem, works, at)]
    lags = [(at[lag.first], at[lag.then], lag) for lag in problem.lags]
    lags = [(one, other, lag) for one, other, lag in lags if one != other]
    found += _room_first(works, found, lags)
    last += _room_first(works, last, lags)
    pairs = {(t.first, t.then) for t in (*found, *last)} | {(one, other) for one, other, _ in lags}
    order = _in_order(works, pairs | set(_one_by_one(works)))
    place = {k: n for n, k in enumerate(order)}
    ordered = tuple(works[k] for k in order)
    return tuple(
        _parts(
            problem,
            ordered,
            [
                *(_placed_turn(t, place, is_turn=True) for t in found),
                *(_placed_turn(t, place, is_turn=False) for t in last),
            ],
            [(place[one], place[other], lag) for one, other, lag in lags],
        )
    )


def _placed_turn(turn: Turn, place: Mapping[int, int], *, is_turn: bool) -> tuple[int, Wait]:
    return place[turn.then], Wait(
        of=place[turn.first],
        gap_min=turn.gap_min,
        since_start=turn.since_start,
        till_end=turn.till_end,
        is_turn=is_turn,
    )


def _one_by_one(works: Sequence[Work]) -> Iterator[tuple[int, int]]:
    """Yield what each person does one after the other."""
    mine: dict[str, list[int]] = {}
    for k, work in enumerate(works):
        for person in work.people if work.start_min < work.end_min else ():
            mine.setdefault(person, []).append(k)
    for chain in mine.values():
        yield from pairwise(chain)


def _room_first(works: Sequence[Work], found: Sequence[Turn], lags: _Lags) -> list[Turn]:
    """Let what is wet wait for the room of the drying that follows it at once."""
    wet = {other: one for one, other, lag in lags if lag.max_lag == 0 and not works[other].people}
    return [
        replace(turn, then=wet[turn.then], till_end=True)
        for turn in found
        if turn.then in wet and turn.first != wet[turn.then]
    ]


def _before_last(problem: Problem, works: Sequence[Work], at: Mapping[str, int]) -> Iterator[Turn]:
    """Yield that what the plan has last waits for what has to end before the last."""
    for rule in problem.before_last:
        last = max(sorted(rule.of), key=lambda i: works[at[i]].start_min)
        if at[rule.first] != at[last]:
            yield Turn(first=at[rule.first], then=at[last])


def _in_order(works: Sequence[Work], pairs: set[tuple[int, int]]) -> tuple[int, ...]:
    """Return an order in which what is waited for comes first; where that is a ring, the plan's.

    Only minimum lags that count backwards make rings: what starts before another has ended.
    """
    onward: dict[int, list[int]] = {}
    missing = [0] * len(works)
    for one, other in pairs:
        onward.setdefault(one, []).append(other)
        missing[other] += 1
    ready = [k for k, count in enumerate(missing) if not count]
    heapify(ready)
    left = set(range(len(works)))
    order: list[int] = []
    while left:
        k = heappop(ready) if ready else min(left)
        if k not in left:
            continue
        left.discard(k)
        order.append(k)
        for other in onward.get(k, ()):
            missing[other] -= 1
            if not missing[other]:
                heappush(ready, other)
    return tuple(order)


def _parts(
    problem: Problem, works: tuple[Work, ...], taken: list[tuple[int, Wait]], lags: _Lags
) -> Iterator[Part]:
    windows = [windows_of(problem, work) for work in works]
    waits: dict[int, dict[Wait, None]] = {}
    for k, wait in taken:
        waits.setdefault(k, {})[wait] = None
    into: dict[int, list[tuple[int, Lag]]] = {}
    ahead: dict[int, list[tuple[int, Lag]]] = {}
    for one, other, lag in lags:
        wait = Wait(of=one, gap_min=lag.min_lag, opens=lag.opens)
        waits.setdefault(other, {})[wait] = None
        if lag.is_window and not lag.wish and one < other:
            into.setdefault(other, []).append((one, lag))
            ahead.setdefault(one, []).append((other, lag))
    change = {bath.id: bath.change_min for bath in problem.baths}
    changed = _changed_first(problem, works)
    backwards = {other for one, other, _ in lags if one > other}
    for k, work in enumerate(works):
        is_kept = k in backwards or _opens_for_hands(k, works, ahead)
        planned = work.start_min if is_kept else 0
        soonest = max(m.activity.earliest_min for m in work.members)
        yield Part(
            work=work,
            windows=windows[k],
            floor_min=max(0, soonest, planned, changed.get(k, 0)),
            waits=tuple(w for w in waits.get(k, ()) if w.of < k),
            closings=tuple(_closing(one, lag, works, k, into) for one, lag in into.get(k, ())),
            ahead=tuple(ahead.get(k, ())),
            change_min=change.get(work.bath, 0),
        )


def _opens_for_hands(
    k: int, works: Sequence[Work], ahead: Mapping[int, list[tuple[int, Lag]]]
) -> bool:
    return any(
        bool(works[other].people) or _opens_for_hands(other, works, ahead)
        for other, _ in ahead.get(k, ())
    )


def _changed_first(problem: Problem, works: Sequence[Work]) -> dict[int, int]:
    """Return by when baths that hold another colour at the beginning can be changed."""
    found: dict[int, int] = {}
    for bath in problem.baths:
        batches = [k for k, work in enumerate(works) if work.bath == bath.id]
        first = min(batches, key=lambda k: works[k].start_min, default=None)
        if first is not None and bath.holds and works[first].family != bath.holds:
            found[first] = bath.change_min
    return found


def _closing(
    of: int,
    lag: Lag,
    works: Sequence[Work],
    k: int,
    into: Mapping[int, list[tuple[int, Lag]]],
) -> Closing:
    again = [(of, lag)]
    while not works[again[0][0]].people and again[0][0] in into:
        again.insert(0, into[again[0][0]][0])
    is_one_go = bool(lag.max_lag == 0 and works[of].people)
    goes_on = is_one_go or lag.min_lag < 0 or not works[k].people
    return Closing(of=of, lag=lag, again=tuple(again), goes_on=goes_on)
