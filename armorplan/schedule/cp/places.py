"""Places and tools for the solver: what takes them while it runs, and what is left hanging there."""

from itertools import accumulate, pairwise

from armorplan.schedule.cp.acts import Acts
from armorplan.schedule.cp.draft import Draft
from armorplan.schedule.lag_spans import least_wait
from armorplan.schedule.problem import Hold, Resource
from armorplan.solving.model import Cumulative, NoOverlap

_Taker = tuple[str, int]
"""An interval and how much it takes."""
_Kept = tuple[int, int, int]
"""From, to and how much, by history."""


class Places:
    """Writes what every resource holds."""

    def __init__(self, draft: Draft, acts: Acts) -> None:
        self._draft = draft
        self._acts = acts
        minutes = [m for p in acts.history.values() for m in (p.start_min, p.end_min)]
        self._span = min([0, *minutes]), max([acts.most_min, *minutes])

    def lay(self) -> None:
        """Keep every resource to its capacity, and what runs to the hours of its place."""
        for resource in self._acts.problem.resources:
            takers, kept = self._takers(resource.id)
            for number, hold in enumerate(self._acts.problem.holds):
                if hold.resource == resource.id and hold.until and hold.amount:
                    self._lay_hold(number, hold, takers, kept)
            takers += self._kept(resource, kept)
            if takers:
                names, amounts = zip(*takers, strict=True)
                self._draft.need(
                    Cumulative(intervals=names, demands=amounts, capacity=resource.capacity)
                )
            if resource.windows is not None:
                self._lay_hours(resource)

    def _takers(self, resource: str) -> tuple[list[_Taker], list[_Kept]]:
        takers: list[_Taker] = []
        kept: list[_Kept] = []
        for activity in self._acts.problem.activities:
            always = sum(d.amount for d in activity.demands if d.resource == resource)
            placed = self._acts.history.get(activity.id)
            if placed is not None:
                by_way = activity.way(placed.who, placed.mode)
                demands = by_way.demands if by_way else ()
                amount = always + sum(d.amount for d in demands if d.resource == resource)
                kept.append((placed.start_min, placed.end_min, amount))
                continue
            if always and self._acts.takes(activity.id):
                takers.append((self._acts.interval(activity.id), always))
            for variant, literal in self._acts.chosen(activity.id):
                amount = sum(d.amount for d in variant.way.demands if d.resource == resource)
                if amount and variant.takes:
                    interval = self._acts.interval_of(activity.id, variant, literal)
                    takers.append((interval, amount))
        return takers, kept

    def _lay_hold(self, number: int, hold: Hold, takers: list[_Taker], kept: list[_Kept]) -> None:
        acts = self._acts
        if acts.history.keys() >= {hold.first, *hold.until}:
            last = max(acts.history[i].start_min for i in hold.until)
            kept.append((acts.history[hold.first].end_min, last, hold.amount))
            return
        till = self._taken_down(number, hold)
        hung = acts.end(hold.first)
        size = self._draft.number(
            f"hold {number} lasts",
            ((0, self._span[1] - self._span[0]),),
            lambda plan: plan.at((till, 0)) - plan.at(hung),
        )
        takers.append((self._draft.interval(hung, size, till), hold.amount))

    def _taken_down(self, number: int, hold: Hold) -> str:
        """Return the variable of a minute at or after the last of what ends a hold.

        Later is never easier, so it need not be told to be no later.
        """
        acts = self._acts
        if len(hold.until) == 1 and self._follows(hold.first, hold.until[0]):
            return acts.start(hold.until[0])
        till = self._draft.number(
            f"hold {number} till",
            (self._span,),
            lambda plan: max(plan.end(hold.first), *(plan.start(i) for i in hold.until)),
        )
        self._draft.gap(acts.end(hold.first), till, least=0)
        for name in hold.until:
            self._draft.gap((acts.start(name), 0), till, least=0)
        return till

    def _follows(self, first: str, then: str) -> bool:
        """Tell whether a lag keeps ``then`` from starting before ``first`` ends."""
        return any(
            least_wait(lag) >= 0
            for lag in self._acts.problem.lags
            if (lag.first, lag.then) == (first, then)
        )

    def _kept(self, resource: Resource, kept: list[_Kept]) -> list[_Taker]:
        """Return what history takes as a profile, cut to the capacity that it may exceed."""
        changes: dict[int, int] = {}
        for begin, end, amount in kept:
            if begin < end:
                changes[begin] = changes.get(begin, 0) + amount
                changes[end] = changes.get(end, 0) - amount
        minutes = sorted(minute for minute, amount in changes.items() if amount)
        levels = accumulate(changes[minute] for minute in minutes)
        takers = []
        for (begin, end), used in zip(pairwise(minutes), levels, strict=False):
            if used:
                interval = self._draft.interval(begin, end - begin)
                takers.append((interval, min(used, resource.capacity)))
        return takers

    def _lay_hours(self, resource: Resource) -> None:
        """Keep dips that take a place within its hours: all else starts where it fits."""
        opens = [self._span[0], *(m for w in resource.windows or () for m in w), self._span[1]]
        gaps = zip(opens[::2], opens[1::2], strict=True)
        shut = [self._draft.interval(a, b - a) for a, b in gaps if a < b]
        for activity in self._acts.problem.activities:
            if activity.dip is None or activity.id in self._acts.history or not shut:
                continue
            for variant, literal in self._acts.chosen(activity.id):
                demands = (*activity.demands, *variant.way.demands)
                if any(d.resource == resource.id for d in demands):
                    mine = self._acts.interval_of(activity.id, variant, literal)
                    self._draft.need(NoOverlap(intervals=(mine, *shut)))
