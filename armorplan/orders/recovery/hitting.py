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
        self._known: dict[int, tuple[int, ...]] = {}
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
        # What has the fewest ways out is paid for first: there the most is sure.
        shut = sorted(
            (
                self._ways_out(bar, state)
                for step in missing
                for bar in bits.by_first[step]
                if bar.is_shut(state)
            ),
            key=len,
        )
        if shut and not shut[0]:
            return None
        left = {key: price for ways in shut for key, price in ways.items()}
        bound = sum(self._least[step] for step in missing)
        for ways in shut:
            rise = min(left[key] for key in ways)
            bound += rise
            if rise:
                for key in ways:
                    left[key] -= rise
        return bound

    def _ways_out(self, bar: BitBar, state: int) -> dict[int, int]:
        """Return the ways out of a bar by key, with what each costs beside doing the step at its least."""
        step = bar.first
        found = {at: self._price(at, state) for at in self._openers(bar)}
        for at, doing in enumerate(self._bits.doings[step]):
            if doing.spite & bar.own:
                found[-1 - step.bit_length() * _MOST_WAYS - at] = doing.ticks - self._least[step]
        return found

    def _openers(self, bar: BitBar) -> tuple[int, ...]:
        if bar.own not in self._known:
            found = {at for member in each(bar.rest) for at in self._hitting[member]}
            self._known[bar.own] = tuple(sorted(found))
        return self._known[bar.own]

    def _price(self, at: int, state: int) -> int:
        """Return what taking back costs with doing again what it clears, shared where others do too."""
        take = self._bits.takes[at]
        again = take.clears & state & self._bits.goal
        return take.ticks + sum(self._least[step] // self._sharing[step] for step in each(again))
