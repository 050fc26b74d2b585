"""A lower bound for what a state still costs: a least-cost hitting set, bounded from below.

Every step still missing costs at least its cheapest way. Where that is barred, either a set of
standing steps is hit by a move that takes one of them back, or a dearer way is paid for. Prices
are raised for one barred step after the other until a way out is paid in full (dual ascent for
set covering; the greedy form of it is in Hochbaum, SIAM J. Computing 11, 1982), so that what is
paid for never counts twice.
"""

from armorplan.orders.recovery.bits import BitBar, RecoveryBits, each

_MOST_WAYS = 10_000


class LowerBound:
    """Bounds what is left to pay in any state of one problem, in hundredths of a minute."""

    def __init__(self, bits: RecoveryBits) -> None:
        self._bits = bits
        self._least = {step: ways[0].ticks if ways else 0 for step, ways in bits.doings.items()}
        self._sharing = dict.fromkeys(bits.doings, 0)
        self._hitting: dict[int, list[int]] = {step: [] for step in bits.doings}
        for at, take in enumerate(bits.takes):
            for step in each(take.clears):
                self._sharing[step] += 1
                self._hitting[step].append(at)
        self._prices: dict[tuple[int, int], int] = {}
        # What has the fewest ways out is paid for first: there the most is sure.
        ways_out = ((bar, self._openers(bar), self._dearer(bar)) for bar in bits.bars)
        self._ways_out = sorted(ways_out, key=lambda one: len(one[1]) + len(one[2]))

    def __call__(self, state: int) -> int | None:
        """Return the bound; ``None`` where no move leads from the state to the goal."""
        missing = self._bits.goal & ~state
        steps = tuple(each(missing))
        if not all(self._bits.doings[step] for step in steps):
            return None
        bound, left = sum(self._least[step] for step in steps), dict[int, int]()
        for bar, openers, dearer in self._ways_out:
            if not bar.first & missing or not bar.is_shut(state):
                continue
            keys = (*openers, *dearer)
            if not keys:
                return None
            left |= {at: self._price(at, state) for at in openers if at not in left}
            left |= {key: ticks for key, ticks in dearer.items() if key not in left}
            bound += _raised(left, keys)
        return bound

    def _openers(self, bar: BitBar) -> tuple[int, ...]:
        """Return the moves that take back one of a bar, by number."""
        return tuple(sorted({at for member in each(bar.rest) for at in self._hitting[member]}))

    def _dearer(self, bar: BitBar) -> dict[int, int]:
        """Return the ways to do what is barred in spite of it, and what they cost more."""
        step = bar.first
        return {
            -1 - step.bit_length() * _MOST_WAYS - at: doing.ticks - self._least[step]
            for at, doing in enumerate(self._bits.doings[step])
            if doing.spite & bar.own
        }

    def _price(self, at: int, state: int) -> int:
        """Return what taking back costs with doing again what it clears, shared where others do too."""
        take = self._bits.takes[at]
        again = take.clears & state & self._bits.goal
        if (at, again) not in self._prices:
            shares = (self._least[step] // self._sharing[step] for step in each(again))
            self._prices[at, again] = take.ticks + sum(shares)
        return self._prices[at, again]


def _raised(left: dict[int, int], keys: tuple[int, ...]) -> int:
    """Return by how much the bound rises for one bar: as far as its cheapest way out is not paid."""
    rise = min(left[key] for key in keys)
    if rise:
        for key in keys:
            left[key] -= rise
    return rise
