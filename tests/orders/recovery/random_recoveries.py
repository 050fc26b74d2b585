"""Small random problems of a way back, and a second opinion on them: plain Dijkstra, move by move.

A problem follows from a seed, so that thousands are drawn in the time that a tree of strategies
takes for some. The second opinion asks the checker alone what is possible; it knows no masks and
no bounds.
"""

from dataclasses import replace
from heapq import heappop, heappush
from itertools import count
from random import Random

from hypothesis import strategies as st

from armorplan.orders.recovery.checking import state_after, why_not
from armorplan.orders.recovery.model import Bar, Cost, Doing, Means, RecoveryProblem, TakeBack

NAMES = "abcdefg"
BACK = [Means.UNSCREW, Means.DRILL, Means.REMAKE]
SALVAGES = [Means.AS_IS, Means.OTHER_TOOL, Means.PLUG, Means.DARKER]
SEEDS = st.integers(0, 10**9)


class _Drawn:
    """What is drawn of one seed."""

    def __init__(self, seed, names):
        self.random, self.names = Random(seed), names  # noqa: S311

    def some(self, names, least=0, most=None):
        names = sorted(names)
        most = len(names) if most is None else min(most, len(names))
        return frozenset(self.random.sample(names, self.random.randint(min(least, most), most)))

    def cost(self):
        risk_pct = self.random.choice([0.0, 0.0, 0.0, 5.0, 40.0])
        minutes = self.random.randint(0, 9)
        return Cost(minutes=minutes, risk_pct=risk_pct, loss_min=2.0 if risk_pct else 0.0)

    def yes(self):
        return self.random.random() < 0.5

    def usual(self, names):
        return [Doing(id=f"do {s}", does=s, title=s, cost=self.cost()) for s in sorted(names)]

    def salvages(self, bars):
        """Return ways of their own to do a step, in spite of some bars."""
        return [
            Doing(
                id=f"way {at}",
                does=self.random.choice(self.names),
                title="way",
                means=self.random.choice(SALVAGES),
                in_spite_of=self.some([bar.id for bar in bars]),
                needs_open=self.some(self.names, most=1) if self.yes() else frozenset(),
                cost=self.cost(),
            )
            for at in range(self.random.randint(0, 3))
        ]

    def back(self, name, clears, needs_open=frozenset()):
        means = self.random.choice(BACK)
        return TakeBack(
            id=name,
            means=means,
            title=name,
            clears=clears,
            needs_open=needs_open,
            cost=self.cost(),
        )


def orderly(seed, names=NAMES):
    """Return a build with a sound order in which some steps were done that should have waited.

    Every bar keeps the order as listed, every step can be done as usual and those that were done
    can mostly be taken back one by one.
    """
    drawn = _Drawn(seed, names)
    bars = []
    for at, first in enumerate(names[:-1]):
        for number in range(drawn.random.randint(0, 2)):
            of = drawn.some(names, 1, 3) | {drawn.random.choice(names[at + 1 :])}
            bars.append(
                Bar(id=f"{first}{number}", first=first, of=of - {first}, bars_opening=drawn.yes())
            )
    done = drawn.some(names)
    moves = [*drawn.usual(names), *drawn.salvages(bars)]
    moves += [drawn.back(f"open {s}", frozenset({s})) for s in sorted(drawn.some(done))]
    if len(done) > 1 and drawn.yes():
        clears = drawn.some(done, 1, 2)
        moves.append(drawn.back("anew", clears, drawn.some(names, most=2) - clears))
    return RecoveryProblem(
        done=done, goal=done | drawn.some(names, 1), bars=tuple(bars), moves=tuple(moves)
    )


def wild(seed, names=NAMES[:5]):
    """Return a problem of any sort, mostly not sensible: bars in rings, moves that overlap."""
    drawn = _Drawn(seed, names)
    bars = tuple(
        Bar(
            id=str(at),
            first=drawn.random.choice(names),
            of=drawn.some(names, most=3),
            bars_opening=drawn.yes(),
        )
        for at in range(drawn.random.randint(0, 5))
    )
    moves = [*drawn.usual(drawn.some(names, 3)), *drawn.salvages(bars)]
    moves += [
        drawn.back(f"open {at}", drawn.some(names, 1, 2), drawn.some(names, most=1))
        for at in range(drawn.random.randint(0, 4))
    ]
    return RecoveryProblem(
        done=drawn.some(names), goal=drawn.some(names), bars=bars, moves=tuple(moves)
    )


def without_risk(problem):
    """Return a problem in which nothing is too risky."""
    return replace(problem, rates=replace(problem.rates, most_risk_pct=100.0))


def dijkstra(problem, moves=None):
    """Return the least price of any way back in hundredths of a minute; ``None`` without one."""
    moves = problem.moves if moves is None else moves
    spent, number = {problem.done: 0}, count()
    heap = [(0, next(number), problem.done)]
    while heap:
        so_far, _, state = heappop(heap)
        if problem.goal <= state:
            return so_far
        if spent[state] < so_far:
            continue
        for move in moves:
            if why_not(problem, state, move):
                continue
            after, price = state_after(state, move), so_far + problem.rates.ticks(move.cost)
            if price < spent.get(after, price + 1):
                spent[after] = price
                heappush(heap, (price, next(number), after))
    return None


def mild_first(problem):
    """Return the least price without moves that are too risky, or with them where it must be."""
    most = problem.rates.most_risk_pct
    mild = [m for m in problem.moves if m.means is None or m.cost.risk_pct <= most]
    found = dijkstra(problem, mild)
    return dijkstra(problem) if found is None else found
