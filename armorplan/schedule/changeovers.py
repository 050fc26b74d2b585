"""Who changes what a bath holds: emptying, scouring and filling a tray is somebody's work.

A plan only keeps the batches of two families so far apart; whose hands are free for it is looked
for here, in what the plan leaves free.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from armorplan.schedule.activity import Window
from armorplan.schedule.calendars import merged
from armorplan.schedule.company import everybody
from armorplan.schedule.problem import Bath, Placed, Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Changeover:
    """A bath that is changed before a batch.

    Attributes:
        family: what it holds afterwards.
        then: the first dip of the batch it is changed for.
        who: who may dip there and has nothing else to do meanwhile; ``None``: nobody.
        start_min, end_min: as late as somebody is free; else just before the batch.
    """

    bath: str
    family: str
    then: str
    who: str | None
    start_min: int
    end_min: int


def changeovers(problem: Problem, placed: Iterable[Placed]) -> tuple[Changeover, ...]:
    """Return the changes that a plan needs and that are still to be made, by start."""
    lies = {p.id: p for p in placed}
    free = _Free(problem, lies)
    gaps = sorted(
        (gap for bath in problem.baths for gap in _gaps(problem, bath, lies)),
        key=lambda gap: (gap.until_min, gap.bath.id),
    )
    found = (free.changed(gap) for gap in gaps)
    return tuple(sorted(found, key=lambda c: (c.start_min, c.bath)))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Gap:
    """Between two batches of different families."""

    bath: Bath
    family: str
    then: str
    from_min: int
    until_min: int
    people: tuple[str, ...]


def _gaps(problem: Problem, bath: Bath, lies: Mapping[str, Placed]) -> Iterator[_Gap]:
    dips = []
    people: dict[str, None] = {}
    for activity in problem.activities:
        if activity.dip is None or activity.id not in lies:
            continue
        here = [way for way in activity.ways if way.bath == bath.id]
        # Who dips only with somebody beside leaves changing the bath to them.
        people |= dict.fromkeys(way.who for way in here if way.who is not None and not way.also)
        placed = lies[activity.id]
        way = activity.way(placed.who, placed.mode)
        if way is not None and way.bath == bath.id:
            is_free = activity.fixed_start_min is None
            dips.append(
                (placed.start_min, activity.id, placed.end_min, activity.dip.family, is_free)
            )
    dips.sort()
    before = (0, "", 0, bath.holds, False)
    for (_, _, end, held, _), (start, name, _, family, is_free) in pairwise([before, *dips]):
        if is_free and held not in ("", family) and bath.change_min:
            yield _Gap(
                bath=bath,
                family=family,
                then=name,
                from_min=max(0, end),
                until_min=start,
                people=tuple(people),
            )


class _Free:
    """What a plan leaves free of everybody's hours; who changes a bath has less afterwards."""

    def __init__(self, problem: Problem, lies: Mapping[str, Placed]) -> None:
        self._hours = {worker.id: worker.windows for worker in problem.workers}
        self._busy: dict[str, list[Window]] = {}
        for activity in problem.activities:
            placed = lies.get(activity.id)
            for who in everybody(activity, placed) if placed else ():
                if placed is not None:
                    self._busy.setdefault(who, []).append((placed.start_min, placed.end_min))

    def changed(self, gap: _Gap) -> Changeover:
        """Return who changes a bath, and when."""
        minutes = gap.bath.change_min
        ends = {who: end for who in gap.people if (end := self._last_end(who, gap)) is not None}
        who = max(ends, key=lambda one: ends[one], default=None)
        end = gap.until_min if who is None else ends[who]
        if who is not None:
            self._busy.setdefault(who, []).append((end - minutes, end))
        return Changeover(
            bath=gap.bath.id,
            family=gap.family,
            then=gap.then,
            who=who,
            start_min=end - minutes,
            end_min=end,
        )

    def _last_end(self, who: str, gap: _Gap) -> int | None:
        """Return by when someone can have done it at the latest, in one go; ``None``: never."""
        busy = merged(self._busy.get(who, ()))
        last = None
        for begin, end in self._hours.get(who, ()):
            start, until = max(begin, gap.from_min), min(end, gap.until_min)
            taken = [(s, e) for s, e in busy if s < until and start < e]
            for (_, one), (other, _) in pairwise([(start, start), *taken, (until, until)]):
                if other - one >= gap.bath.change_min:
                    last = other if last is None else max(last, other)
        return last


def family_words(family: str) -> str:
    """Return what a bath holds in words: ``dye|tar black`` is tar black dye."""
    return " ".join(part for part in reversed(family.replace("_", " ").split("|")) if part)
