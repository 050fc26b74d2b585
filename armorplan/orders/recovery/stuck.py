"""Which steps cannot be done any more in a valid way, or only with more effort, and by which bars."""

from collections.abc import Collection
from dataclasses import dataclass

from armorplan.orders.recovery.checking import is_shut
from armorplan.orders.recovery.model import Bar
from armorplan.orders.recovery.scene import RecoveryScene


@dataclass(frozen=True, slots=True, kw_only=True)
class StuckStep:
    """A step that does not stand, and the bars that are shut before it.

    Attributes:
        bars: those that bind, if any do; else those that only make it harder.
        harder: no bar binds.
    """

    step: str
    bars: tuple[Bar, ...]
    harder: bool


def stuck_steps(scene: RecoveryScene, stands: Collection[str]) -> tuple[StuckStep, ...]:
    """Return the steps that come too late, in the order they should have come."""
    held = frozenset(stands)
    shut: dict[str, list[Bar]] = {}
    for bar in scene.bars:
        if bar.first not in held and is_shut(bar, held):
            shut.setdefault(bar.first, []).append(bar)
    found = []
    for step in sorted(shut, key=lambda one: (scene.place.get(one, 0), one)):
        binding = tuple(bar for bar in shut[step] if scene.binds(bar))
        bars = binding or tuple(shut[step])
        found.append(StuckStep(step=step, bars=bars, harder=not binding))
    return tuple(found)
