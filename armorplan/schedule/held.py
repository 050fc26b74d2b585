"""Places held from the end of one activity to the start of others, while a plan is laid."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from armorplan.schedule.levels import FOREVER, Level
from armorplan.schedule.problem import Hold, Placed, Problem
from armorplan.schedule.trials import Tail


@dataclass(slots=True, kw_only=True)
class _Held:
    """A hold, and from when till when it takes its place as things stand."""

    hold: Hold
    level: Level
    span: tuple[int, int] | None = None

    def change(self, span: tuple[int, int] | None) -> None:
        if self.span is not None:
            self.level.give_back(*self.span, self.hold.amount)
        if span is not None:
            self.level.take(*span, self.hold.amount)
        self.span = span


class HeldPlaces:
    """The holds of a problem: each takes its place as soon as what it counts from is laid.

    Until all that ends it is laid too, it takes its place for ever, so that nothing laid in
    between can be in the way.
    """

    def __init__(
        self, problem: Problem, levels: Mapping[str, Level], placed: Mapping[str, Placed]
    ) -> None:
        self._placed = placed
        self._history = frozenset(placed)
        self._held = [_Held(hold=h, level=levels[h.resource]) for h in problem.holds]
        self._by_first: dict[str, list[_Held]] = {}
        self._by_last: dict[str, list[_Held]] = {}
        for held in self._held:
            self._by_first.setdefault(held.hold.first, []).append(held)
            for name in dict.fromkeys(held.hold.until):
                self._by_last.setdefault(name, []).append(held)

    def settle(self, name: str) -> None:
        """Take or give back what holds take now that an activity was laid or taken up."""
        for held in (*self._by_first.get(name, ()), *self._by_last.get(name, ())):
            span = self._span(held.hold, self._till(held.hold))
            if span != held.span:
                held.change(span)

    def tails(self, names: Iterable[str]) -> list[Tail]:
        """Return what is held after these end together; of one place, all as long as the longest."""
        tails: dict[str, Tail] = {}
        for held in (h for name in names for h in self._by_first.get(name, ())):
            amount, till = held.hold.amount, self._till(held.hold)
            known = tails.get(held.hold.resource)
            if known is not None:
                amount, till = amount + known.amount, max(till, known.till_min)
            tails[held.hold.resource] = Tail(held.level, amount, till)
        return list(tails.values())

    def begun(self) -> list[Hold]:
        """Return the holds that have begun and are not ended yet, by when they begin."""
        begun = [h for h in self._held if h.span is not None and h.span[1] == FOREVER]
        return [h.hold for h in sorted(begun, key=lambda h: h.span or (0, 0))]

    def lift(self, name: str) -> list[str]:
        """Let go of the holds that an activity ends, as the last of those to be laid.

        What else ends them is laid: until that starts they go on. Returns the activities they
        begin with; to settle those puts the holds back.
        """
        lifted = [
            held
            for held in self._by_last.get(name, ())
            if held.span is not None
            and held.span[1] == FOREVER
            and all(other in self._placed for other in held.hold.until if other != name)
        ]
        for held in lifted:
            held.change(self._span(held.hold, self._laid_till(held.hold)))
        return [held.hold.first for held in lifted]

    def latest(self, name: str) -> int:
        """Return when an activity has to start at the latest, so that what it ends has room.

        What begins a hold is laid only where it has room for ever; history lies where it lies,
        and where its places are full what hangs there has to be taken down before.
        """
        latest = FOREVER
        for held in self._by_last.get(name, ()):
            if held.hold.first in self._history:
                since = max(self._placed[held.hold.first].end_min, self._laid_till(held.hold))
                latest = min(latest, held.level.full_from(since, 0))
        return latest

    def _span(self, hold: Hold, till_min: int) -> tuple[int, int] | None:
        first = self._placed.get(hold.first)
        if first is None:
            return None
        return (first.end_min, till_min) if first.end_min < till_min else None

    def _till(self, hold: Hold) -> int:
        is_laid = all(name in self._placed for name in hold.until)
        return self._laid_till(hold) if is_laid else FOREVER

    def _laid_till(self, hold: Hold) -> int:
        """Return the last start of what is laid already of those that end a hold."""
        laid = (self._placed[name] for name in hold.until if name in self._placed)
        return max((p.start_min for p in laid), default=-FOREVER)


def take_known_holds(
    problem: Problem, levels: Mapping[str, Level], placed: Mapping[str, Placed]
) -> None:
    """Take what holds take whatever else is laid: as long as what is placed already says."""
    for hold in problem.holds:
        first = placed.get(hold.first)
        starts = [placed[name].start_min for name in hold.until if name in placed]
        if first is not None and starts:
            levels[hold.resource].take(first.end_min, max(starts), hold.amount)
