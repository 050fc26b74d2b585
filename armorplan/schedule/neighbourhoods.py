"""Which part of a plan to free at once, so that the solver can lay it better: neighbourhoods."""

from collections.abc import Callable, Iterable, Mapping
from random import Random

from armorplan.schedule.coats import Coats
from armorplan.schedule.measures import job_end
from armorplan.schedule.problem import Placed, Problem

Lies = Mapping[str, Placed]
_LATE_FIRST = 0.75
"""How often a build is chosen among those that hold the plan back, and not among all."""


class Grounds:
    """What of a problem may move, and what of it belongs together."""

    def __init__(self, problem: Problem) -> None:
        self._problem = problem
        self.movable = tuple(a.id for a in problem.activities if a.fixed_start_min is None)
        moves = frozenset(self.movable)
        self._moves = moves
        self._dips = {a.id for a in problem.activities if a.dip is not None}
        self._people = {a.id for a in problem.activities if a.people}
        self._partners: dict[str, list[str]] = {i: [] for i in moves}
        self._around: dict[str, list[str]] = {i: [] for i in moves}
        for lag in problem.lags:
            if {lag.first, lag.then} <= moves:
                for one, other in ((lag.first, lag.then), (lag.then, lag.first)):
                    self._around[one].append(other)
                    if lag.is_window and not lag.wish:
                        self._partners[one].append(other)
        in_jobs = [tuple(i for i in job.activities if i in moves) for job in problem.jobs]
        self._jobs = [names for names in in_jobs if names]
        self._coats = Coats(problem)

    def closed(self, free: Iterable[str], lies: Lies) -> frozenset[str]:
        """Return what is freed, with the rest of its batches and what must follow it soon."""
        batches: dict[tuple[int, str | None, str], list[str]] = {}
        for name in self._dips & self._moves:
            at = lies[name]
            batches.setdefault((at.start_min, at.who, at.mode), []).append(name)
        done: set[str] = set()
        todo = sorted(self._moves.intersection(free))
        while todo:
            name = todo.pop()
            if name in done:
                continue
            done.add(name)
            todo += self._partners[name]
            if name in self._dips:
                todo += batches[lies[name].start_min, lies[name].who, lies[name].mode]
        return frozenset(done)

    def hours(self, lies: Lies, size: int, rng: Random) -> set[str]:
        """Free what lies about one moment."""
        if not self.movable:
            return set()
        return self._about(self.movable, lies, lies[rng.choice(self.movable)].start_min, size)

    def ending(self, lies: Lies, size: int, rng: Random) -> set[str]:
        """Free what holds the plan back: a late build's end, or what ends last, and what is about."""
        last = max(lies[i].end_min for i in self._held_back(lies, rng) or self.movable)
        return self._about(self.movable, lies, last - rng.randrange(1 + last // 8), size)

    def builds(self, lies: Lies, size: int, rng: Random) -> set[str]:
        """Free two builds, one of them late if any is, as far as they lie about one moment."""
        if not self._jobs:
            return self.hours(lies, size, rng)
        held = self._held_back(lies, rng)
        other = rng.choice(self._jobs)
        names = (*held, *other)
        return self._about(names, lies, lies[rng.choice(names)].start_min, size)

    def mixed(self, lies: Lies, size: int, rng: Random) -> set[str]:
        """Free the last part of a build that holds the plan back, and what lies beside it."""
        if not self._jobs:
            return self.ending(lies, size, rng)
        held = self._held_back(lies, rng)
        centre = lies[rng.choice(held)].start_min
        free = self._about(held, lies, centre, size // 2)
        return free | self._about(self.movable, lies, centre, size - len(free))

    def vats(self, lies: Lies, size: int, rng: Random) -> set[str]:
        """Free dips, what leads to them and what follows."""
        dips = sorted(self._dips & self._moves)
        if not dips:
            return self.strand(lies, size, rng)
        centre = lies[rng.choice(dips)].start_min
        free = self._about(dips, lies, centre, max(2, size // 4))
        return self._spread_from(sorted(free), size, rng)

    def coats(self, lies: Lies, size: int, rng: Random) -> set[str]:
        """Free two batches of one family, of whatever builds, so that they can be one."""
        free, centre = self._coats.draw(lies, rng)
        if not free:
            return self.vats(lies, size, rng)
        return free | self._about(self.movable, lies, centre, max(1, size - len(free)))

    def strand(self, lies: Lies, size: int, rng: Random) -> set[str]:
        """Free what hangs together by what has to follow what."""
        del lies
        return self._spread_from([rng.choice(self.movable)], size, rng) if self.movable else set()

    def hands(self, lies: Lies, size: int, rng: Random) -> set[str]:
        """Free what is done by hand about one moment, and leave what dries to follow."""
        by_hand = sorted(self._people & self._moves)
        if not by_hand:
            return self.hours(lies, size, rng)
        return self._about(by_hand, lies, lies[rng.choice(by_hand)].start_min, size)

    def _held_back(self, lies: Lies, rng: Random) -> tuple[str, ...]:
        """Return what may move of a build: of one that is late, or else of any."""
        moves = self._moves
        if not self._jobs:
            return ()
        late = [
            names
            for job in self._problem.jobs
            if job.due_min is not None
            and job_end(job, lies) > job.due_min
            and (names := tuple(i for i in job.activities if i in moves))
        ]
        return rng.choice(late if late and rng.random() < _LATE_FIRST else self._jobs)

    def _spread_from(self, todo: list[str], size: int, rng: Random) -> set[str]:
        free: set[str] = set()
        while todo and len(free) < size:
            name = todo.pop(rng.randrange(len(todo)))
            if name not in free:
                free.add(name)
                todo += [i for i in self._around[name] if i not in free]
        return free

    @staticmethod
    def _about(names: Iterable[str], lies: Lies, minute: int, size: int) -> set[str]:
        """Return so many of these that lie nearest to a minute."""

        def distance(name: str) -> tuple[int, str]:
            at = lies[name]
            return max(0, at.start_min - minute, minute - at.end_min), name

        return set(sorted(set(names), key=distance)[: max(1, size)])


Neighbourhood = Callable[[Grounds, Lies, int, Random], set[str]]
KINDS: Mapping[str, Neighbourhood] = {
    "hours": Grounds.hours,
    "ending": Grounds.ending,
    "builds": Grounds.builds,
    "mixed": Grounds.mixed,
    "vats": Grounds.vats,
    "coats": Grounds.coats,
    "strand": Grounds.strand,
    "hands": Grounds.hands,
}
