"""What has to be opened, and done again, so that some steps are open: the least of it."""

from collections.abc import Collection, Iterator
from dataclasses import replace
from functools import cache

from armorplan.orders.recovery.checking import is_shut
from armorplan.orders.recovery.model import Bar
from armorplan.orders.recovery.moves import Told
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.orders.recovery.taking_back import again, can_be_opened, opening

_MOST_TRIED = 500
"""So many choices are looked at; beyond them the best so far stands."""
Steps = frozenset[str]


class _Least:
    """Looks for the cheapest steps to open beside those that have to be."""

    def __init__(self, scene: RecoveryScene, stands: Steps) -> None:
        self._scene, self._stands, self._left = scene, stands, _MOST_TRIED
        self._best: tuple[int, Steps] | None = None
        self.ended = True
        self._ticks = cache(self._priced)

    def of(self, forced: Steps) -> Steps:
        """Return the forced steps with those that bar opening them or doing them again."""
        self._look(forced, sum(map(self._ticks, forced)))
        return self._best[1] if self._best else forced

    def _look(self, opened: Steps, ticks: int) -> None:
        if self._best is not None and (ticks >= self._best[0] or self._left <= 0):
            self.ended = self.ended and ticks >= self._best[0]
            return
        self._left -= 1
        shut = next(self._shut(opened), None)
        if shut is None:
            self._best = ticks, opened
            return
        for step in sorted(self._members(shut), key=lambda one: (self._ticks(one), one)):
            self._look(opened | {step}, ticks + self._ticks(step))

    def _shut(self, opened: Steps) -> Iterator[Bar]:
        for step in sorted(opened):
            for bar in self._scene.bars_of(step):
                if not self._scene.binds(bar) or not is_shut(bar, self._stands - opened):
                    continue
                if self._members(bar):
                    yield bar

    def _members(self, bar: Bar) -> list[str]:
        return [one for one in bar.of & self._stands if can_be_opened(self._scene, one)]

    def _priced(self, step: str) -> int:
        rates = self._scene.rates
        told = (opening(self._scene, step, self._stands), again(self._scene, step))
        return sum(rates.ticks(move.cost) for move, _ in told)


def opened_for(
    scene: RecoveryScene, forced: Collection[str], stands: Collection[str]
) -> tuple[tuple[str, ...], bool]:
    """Return what has to be opened so that steps are, in the order they are done again.

    And whether it is surely the least: no try was left. Beside them that is what covers their heads or shuts them in, and what has to come after them
    once more. A bar that nothing opens is not heeded.
    """
    held = frozenset(stands)
    least = _Least(scene, held)
    found = least.of(frozenset(forced) & held)
    return tuple(sorted(found, key=lambda one: (scene.place.get(one, 0), one))), least.ended


def with_open(
    scene: RecoveryScene,
    core: tuple[Told, ...],
    forced: Collection[str],
    stands: Collection[str],
) -> tuple[Told, ...]:
    """Return moves with all that has to be opened before them, and done again after them."""
    steps, surely = opened_for(scene, forced, stands)
    opens = (opening(scene, step, stands) for step in reversed(steps))
    known = ((move, replace(note, surely=surely)) for move, note in opens)
    return (*known, *core, *(again(scene, step) for step in steps))
