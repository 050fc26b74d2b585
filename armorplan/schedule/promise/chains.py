"""Who hands what on to whom: a plan's sequence at each bath and place.

Keeping it makes a plan a set of waits and nothing else: whatever runs late only shifts what
follows. Of a place with room for many, each taker waits for those whose room it takes over
(N. Policella, A. Oddi, S. F. Smith, A. Cesta, 'Generating robust partial order schedules',
Principles and Practice of Constraint Programming, 2004; from memory).
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from armorplan.schedule.problem import Bath, Hold, Problem
from armorplan.schedule.promise.work import Work


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """``then`` takes over what ``first`` leaves; both are counted among the pieces of work.

    Attributes:
        gap_min: so long after.
        since_start: it is left as ``first`` starts: taken off a rack.
        till_end: it is taken as ``then`` ends: hung on a rack.
    """

    first: int
    then: int
    gap_min: int = 0
    since_start: bool = False
    till_end: bool = False


def turns(problem: Problem, works: Sequence[Work]) -> Iterator[Turn]:
    """Yield who takes over from whom; ``works`` are in the order of their starts."""
    for bath in problem.baths:
        yield from _at_bath(bath, works)
    at = {m.activity.id: k for k, work in enumerate(works) for m in work.members}
    for resource in problem.resources:
        takers = [*_demanded(resource.id, works), *_held(resource.id, problem.holds, works, at)]
        yield from _at_place(resource.capacity, takers, works)


def _at_bath(bath: Bath, works: Sequence[Work]) -> Iterator[Turn]:
    batches = [k for k, work in enumerate(works) if work.bath == bath.id]
    for one, other in pairwise(batches):
        if works[one].end_min <= works[other].start_min:
            differ = works[one].family != works[other].family
            yield Turn(first=one, then=other, gap_min=bath.change_min if differ else 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Taker:
    """Room taken from one instant of the plan to another: by whom, and who gives it back.

    ``after`` says of whose room it is, or was before others of its own hands had it, who gives it
    back and whether it was held.
    """

    since_min: int
    till_min: int
    amount: int
    by: int
    back: tuple[int, ...]
    is_held: bool
    after: tuple[tuple[tuple[int, ...], bool], ...] = ()


def _demanded(resource: str, works: Sequence[Work]) -> Iterator[_Taker]:
    for k, work in enumerate(works):
        demands = (d for m in work.members for d in (*m.activity.demands, *m.way.demands))
        amount = sum(d.amount for d in demands if d.resource == resource)
        if amount and work.start_min < work.end_min:
            yield _Taker(
                since_min=work.start_min,
                till_min=work.end_min,
                amount=amount,
                by=k,
                back=(k,),
                is_held=False,
            )


def _held(
    resource: str, holds: Sequence[Hold], works: Sequence[Work], at: Mapping[str, int]
) -> Iterator[_Taker]:
    for hold in holds:
        if hold.resource != resource or hold.first not in at:
            continue
        until = tuple(at[i] for i in hold.until if i in at)
        since = works[at[hold.first]].end_min
        till = max((works[k].start_min for k in until), default=since)
        if since < till:
            yield _Taker(
                since_min=since,
                till_min=till,
                amount=hold.amount,
                by=at[hold.first],
                back=until,
                is_held=True,
            )


def _at_place(capacity: int, takers: list[_Taker], works: Sequence[Work]) -> Iterator[Turn]:
    """Let each take over the room that was given back first."""
    room: list[tuple[int, int, _Taker | None]] = [(-1, capacity, None)]
    for one in sorted(takers, key=lambda t: (t.since_min, t.till_min, t.by)):
        taker, wanted, kept = one, one.amount, []
        for given_at, amount, giver in sorted(room, key=lambda r: r[0]):
            taken = min(wanted, amount) if given_at <= taker.since_min else 0
            wanted -= taken
            if taken and giver is not None:
                taker = _behind(giver, taker, works)
            if amount > taken:
                kept.append((given_at, amount - taken, giver))
        room = [*kept, (taker.till_min, taker.amount, taker)]
        for back, is_held in dict.fromkeys(taker.after):
            yield from _over(back, taker, is_held=is_held)


def _behind(giver: _Taker, taker: _Taker, works: Sequence[Work]) -> _Taker:
    """Return a taker that takes over a giver's room.

    What one person does is never done at once, in whatever order, so it need not wait; but who
    comes next waits for both, and both wait for whom the first of them waits for.
    """
    if _same_hands(giver, taker, works):
        return replace(taker, back=(*taker.back, *giver.back), after=(*taker.after, *giver.after))
    return replace(taker, after=(*taker.after, (giver.back, giver.is_held)))


def _same_hands(giver: _Taker, taker: _Taker, works: Sequence[Work]) -> bool:
    """Tell whether one person does both, who never does them at once."""
    both = set(works[giver.by].people) & set(works[taker.by].people)
    return bool(both) and not giver.is_held and not taker.is_held


def _over(backs: tuple[int, ...], taker: _Taker, *, is_held: bool) -> Iterator[Turn]:
    for back in backs:
        if back != taker.by:
            yield Turn(first=back, then=taker.by, since_start=is_held, till_end=taker.is_held)
