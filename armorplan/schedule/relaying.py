"""Lays a plan again and again in an order a little other than its own: quick, and proves nothing."""

from collections.abc import Iterator
from random import Random

from armorplan.schedule.batching import OF_A_BUILD, READY
from armorplan.schedule.behind import Behind
from armorplan.schedule.measures import any_due
from armorplan.schedule.orders_tried import Orders
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.ranks import urgent_ranks
from armorplan.schedule.sequence import Rank
from armorplan.schedule.serial import Stuck, serial_placings
from armorplan.schedule.trimming import trimmed

_WHOLE_STEPS = 700
"""A plan of up to so many steps is laid again as a whole, of a longer one some builds."""
_BUILDS = (4, 7)
"""So many builds at the least and at the most."""
_LAID_TWICE = 2
"""So many of them are laid again with the next few."""
_PATIENCES = (READY, READY, OF_A_BUILD)
"""How long dips wait as the rest is laid behind them, in each of these tries."""
_FINE = 1000
"""Orders of builds are told by whole numbers, so much finer than their places."""
_TRIES = 12
"""So many orders are tried of them in vain before others are drawn."""


class Relaying:
    """Lays again what is at hand: the whole, or of a long plan a few builds and then the rest.

    The same seed and the same plans at hand give the same ones again.
    """

    def __init__(self, problem: Problem, seed: int, placed: tuple[Placed, ...]) -> None:
        self._problem = problem
        self._rng = Random(seed)  # noqa: S311 - which order to try next is no secret.
        self._behind = Behind(problem)
        many = sum(a.fixed_start_min is None for a in problem.activities)
        self._is_whole = many <= _WHOLE_STEPS or not any_due(problem)
        self._fixed = frozenset(a.id for a in problem.activities if a.fixed_start_min is not None)
        self._build_by_build = {} if self._is_whole else next(urgent_ranks(problem))
        self._builds = self._by_urgency()
        self._front = len(self._builds) // 2
        self._orders = Orders(problem, self._rng, self._behind.urgent, placed)
        self.steps = many
        """How many steps were laid last."""

    def next(self, at_hand: tuple[Placed, ...]) -> tuple[Placed, ...]:
        """Return the next plan after the one at hand; that itself where no place was found."""
        if not self._is_whole:
            return self._some_builds_first(at_hand)
        laid = self._orders.next(at_hand)
        return at_hand if isinstance(laid, Stuck) else laid

    def gained(self) -> None:
        """Take in that the last plan is the nearest so far."""
        self._orders.gained()

    def _some_builds_first(self, at_hand: tuple[Placed, ...]) -> tuple[Placed, ...]:
        """Lay a few builds anew behind those before them, and then the rest build by build.

        The next time goes on behind these few, to the last ones, and then from anywhere again.
        From the middle on at first: the less there is to lay behind them, the less is lost there.
        """
        front, until = self._front, self._front + self._rng.randint(*_BUILDS)
        self._front = until - _LAID_TWICE
        if until >= len(self._builds):
            self._front = self._rng.randrange(len(self._builds))
        lies = {p.id: p for p in at_hand}
        before = self._fixed.union(*self._builds[:front])
        free = frozenset().union(*self._builds[front:until])
        part = trimmed(self._problem, lies, free=free, pinned=before)
        self.steps = 0
        best = self._best_of(part, tuple(lies[a.id] for a in part.activities), len(free))
        if best is None:
            return at_hand
        lies |= {p.id: p for p in best}
        return self._with_rest(lies, before | free, at_hand)

    def _with_rest(
        self, lies: dict[str, Placed], pinned: frozenset[str], at_hand: tuple[Placed, ...]
    ) -> tuple[Placed, ...]:
        """Lay all that is not pinned, in several ways; return the nearest plan."""
        rest = frozenset(lies) - pinned
        whole = trimmed(self._problem, lies, free=rest, pinned=pinned)
        tries = zip((self._build_by_build, *self._near_orders()), _PATIENCES, strict=True)
        found = [at_hand]
        for laid in serial_placings(whole, tries):
            self.steps += len(rest)
            if not isinstance(laid, Stuck):
                found.append(laid)
            if not rest:
                break
        return min(found, key=lambda laid: self._behind.of(self._problem, laid))

    def _near_orders(self) -> Iterator[dict[str, Rank]]:
        """Yield orders in which builds next to each other change places."""
        for _ in range(len(_PATIENCES) - 1):
            order = [at + self._rng.gauss(0, 1) for at in range(len(self._builds))]
            moved = {i: at for at, names in zip(order, self._builds, strict=True) for i in names}
            yield {
                name: (int(_FINE * moved.get(name, rank[0])), *rank[1:])
                for name, rank in self._build_by_build.items()
            }

    def _by_urgency(self) -> list[frozenset[str]]:
        """Return what is free of each build, in the order in which builds have to begin."""
        free = [frozenset(job.activities) - self._fixed for job in self._problem.jobs]
        rank = self._build_by_build
        return sorted(filter(None, free), key=lambda names: min(rank.get(i, (0,)) for i in names))

    def _best_of(
        self, part: Problem, at_hand: tuple[Placed, ...], many: int
    ) -> tuple[Placed, ...] | None:
        """Return a plan of some builds that is nearer than the one at hand, if any is found."""
        orders = Orders(part, self._rng, self._behind.urgent, at_hand)
        best, least, left = None, self._behind.of(part, at_hand), _TRIES
        while left and least > (0, 0):
            left -= 1
            self.steps += many
            laid = orders.next(best or at_hand)
            if not isinstance(laid, Stuck) and self._behind.of(part, laid) < least:
                best, least, left = laid, self._behind.of(part, laid), _TRIES
                orders.gained()
        return best
