"""Joints of a shell of which one is out of reach whatever the order."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import inf

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.from_back import bar_each_other
from armorplan.geometry.reach.margins import Gauge
from armorplan.geometry.reach.model import Margin, Way
from armorplan.geometry.reach.openings import made_at
from armorplan.geometry.reach.sealing import sealings_in


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuck:
    """Joints that bar each other: whichever is set last, no tool gets to it.

    Attributes:
        joints: the joints; none of them can be set once the others are.
        easiest: how the one stands, as the last of them, to which the shortest tool would do.
        needed_mm: what a straight tool has to get in at least for some order to set all of the
            shell; ``None`` where no opening is left that a tool goes in through.
    """

    joints: tuple[str, ...]
    easiest: Margin
    needed_mm: float | None


def stuck_in(gauge: Gauge, bench: Bench, joints: Iterable[str]) -> Stuck | None:
    """Return which joints of a shell no order sets; ``None`` where some order sets all."""
    barred, needed_mm = sealings_in(gauge, bench), 0.0
    left = [joint for joint in sorted(joints) if joint in barred]
    found: tuple[tuple[str, ...], Margin] | None = None
    while left := list(bar_each_other(gauge, left)):
        every = frozenset(left)
        asked = {joint: _asked(gauge, bench, joint, every - {joint}) for joint in left}
        easiest = min(left, key=lambda joint: (_needed_mm(asked[joint]), joint))
        needed_mm = max(needed_mm, _needed_mm(asked[easiest]))
        found = found or (tuple(left), asked[easiest])
        left.remove(easiest)
    if found is None:
        return None
    known_mm = needed_mm if needed_mm < inf else None
    return Stuck(joints=found[0], easiest=found[1], needed_mm=known_mm)


def _asked(gauge: Gauge, bench: Bench, joint: str, made: frozenset[str]) -> Margin:
    """Return how a joint stands that cannot be set, with the way in that asks for the least.

    Ways that no tool of the shelf is long enough for count too; too narrow ones do not.
    """
    state, squash = made_at(gauge.places, made | {joint}), bench.squash(joint)
    margin = gauge.margin(joint, made)
    least: tuple[Way, float] | None = None
    narrowest_mm = min((tool.opening_mm for tool in bench.tools.get(joint, ())), default=inf)
    for way in gauge.access[joint].ways:
        wide_mm = gauge.opening_mm(way, state)
        open_ = way.name != joint and wide_mm > 0 and wide_mm * squash >= narrowest_mm
        if open_ and (least is None or way.least_mm < least[0].least_mm):
            least = way, wide_mm
    return margin if least is None else replace(margin, way=least[0], opening_mm=least[1])


def _needed_mm(margin: Margin) -> float:
    return inf if margin.way is None else margin.way.least_mm
