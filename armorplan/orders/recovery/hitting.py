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

    def __call__(self, state: int) -> int | None:
        """Return the bound; ``None`` where no move leads from the state to the goal."""
        bits = self._bits
        missing = tuple(each(bits.goal & ~state))
        if not all(bits.doings[step] for step in missing):
            return None
        bound, paid = sum(self._least[step] for step in missing), dict[int, int]()
        for step in missing:
            for bar in bits.by_first[step]:
                if bar.is_shut(state):
                    left = self._left_to_pay(state, step, bar, paid)
                    if not left:
                        return None
                    bound += _raised(left, paid)
        return bound

    def _left_to_pay(
        self, state: int, step: int, bar: BitBar, paid: dict[int, int]
    ) -> dict[int, int]:
        """Return by way out of a bar what of its price was not paid yet."""
        left = dict[int, int]()
        for at, doing in enumerate(self._bits.doings[step]):
            if doing.spite & bar.own:
                key = -1 - step.bit_length() * _MOST_WAYS - at
                left[key] = doing.ticks - self._least[step] - paid.get(key, 0)
        for at in {at for member in each(bar.rest) for at in self._hitting[member]}:
            left[at] = self._price(at, state) - paid.get(at, 0)
        return left

    def _price(self, at: int, state: int) -> int:
        """Return what taking back costs with doing again what it clears, shared where others do too."""
        take = self._bits.takes[at]
        again = take.clears & state & self._bits.goal
        return take.ticks + sum(self._least[step] // self._sharing[step] for step in each(again))


def _raised(left: dict[int, int], paid: dict[int, int]) -> int:
    """Return by how much the bound rises for one bar; all its ways out have paid so much more."""
    rise = min(left.values())
    for key in left:
        paid[key] = paid.get(key, 0) + rise
    return rise
