"""The fewest rounds of small fits without a solver: sets of seams that fit, tried within a budget.

Of a round only those matter that take no further seam. As few of them as the bound says are tried
first, then one more, and so on: what is left unseen and shows in the fewest of them is next. A
number of rounds that fails in full raises the bound by one.
"""

from collections.abc import Iterable, Iterator
from math import comb

from armorplan.orders.pinning.greedy import Laid
from armorplan.orders.pinning.limits import Limit, limits_of
from armorplan.orders.pinning.model import PinProblem

MOST_SETS = 6000
"""With more sets of seams that fit it is left to the solver."""
MOST_TRIED = 15_000
"""Choices tried before it is; some tenths of a second."""


class _SpentError(Exception):
    """The budget is spent."""


def by_trying(problem: PinProblem, start: Laid, bound: int) -> tuple[Laid, int]:
    """Return the better of ``start`` and what was found, and a bound on the rounds."""
    try:
        search = _Search(problem)
        for count in range(bound, len(start)):
            found = search.rounds(count)
            if found is not None:
                return found, count
            bound = count + 1
    except _SpentError:
        pass
    return start, bound


class _Search:
    """What there is to see as bits, the sets of seams that fit, and what was tried in vain."""

    def __init__(self, problem: PinProblem) -> None:
        self._problem = problem
        self._wanted = [*problem.together, *((seam.id,) for seam in problem.seams)]
        sets = list(self._largest())
        shown = [self._shown(on) for on in sets]
        # Of sets that show the same, or less than another one does, none is needed.
        kept = dict(zip(reversed(shown), reversed(sets), strict=True))
        self._sets = {bits: on for bits, on in kept.items() if bits}
        self._most = max((bits.bit_count() for bits in self._sets), default=1)
        self._with: list[list[int]] = [
            [bits for bits in self._sets if bits >> at & 1] for at in range(len(self._wanted))
        ]
        self._tried = 0
        self._vain: set[tuple[int, int]] = set()

    def _shown(self, on: frozenset[str]) -> int:
        return sum(1 << at for at, group in enumerate(self._wanted) if on.issuperset(group))

    def _largest(self) -> Iterator[frozenset[str]]:
        """Yield the sets of seams that fit and take no further one."""
        names = [seam.id for seam in self._problem.seams]
        limits = limits_of(self._problem)
        if limits is None or _at_least(limits, len(names)) > MOST_SETS:
            raise _SpentError
        found = 0
        todo: list[tuple[tuple[int, ...], tuple[int, ...]]] = [
            ((), tuple(held for _, held in limits))
        ]
        while todo:
            on, left = todo.pop()
            grown = [
                at
                for at in range(len(names))
                if at not in on and all(n[at] <= r for (n, _), r in zip(limits, left, strict=True))
            ]
            for at in (at for at in grown if not on or at > on[-1]):
                rest = tuple(r - n[at] for (n, _), r in zip(limits, left, strict=True))
                todo.append(((*on, at), rest))
            found += 1
            if found > MOST_SETS:
                raise _SpentError
            if not grown:
                yield frozenset(names[at] for at in on)

    def rounds(self, count: int) -> Laid | None:
        """Return so many rounds that see everything; ``None`` where none do."""
        chosen = self._try((1 << len(self._wanted)) - 1, count)
        if chosen is None:
            return None
        order = [seam.id for seam in self._problem.seams]
        return tuple(tuple(s for s in order if s in self._sets[bits]) for bits in chosen)

    def _try(self, unseen: int, count: int) -> list[int] | None:
        if not unseen:
            return []
        if count * self._most < unseen.bit_count() or (unseen, count) in self._vain:
            return None
        self._tried += 1
        if self._tried > MOST_TRIED:
            raise _SpentError
        next_one = min(_places(unseen), key=lambda at: len(self._with[at]))
        for bits in sorted(self._with[next_one], key=lambda b: -(b & unseen).bit_count()):
            rest = self._try(unseen & ~bits, count - 1)
            if rest is not None:
                return [bits, *rest]
        self._vain.add((unseen, count))
        return None


def _at_least(limits: Iterable[Limit], seams: int) -> int:
    """Return how many sets of seams fit at least: all of as many as fit of the neediest ones."""
    room = min((held // max(needs) for needs, held in limits), default=seams)
    return comb(seams, min(room, seams // 2))


def _places(bits: int) -> Iterator[int]:
    while bits:
        lowest = bits & -bits
        yield lowest.bit_length() - 1
        bits ^= lowest
