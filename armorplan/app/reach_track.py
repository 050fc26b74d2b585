"""Reach along a build's order, reckoned from its shapes and the tools of its shop."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from functools import partial

from armorplan.app.closing_order import Barring, ClosingOrder, Reckoning
from armorplan.app.derived import Derived
from armorplan.geometry.reach.bars import Bar
from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Margin, ReachNet


def reach_track(derived: Derived) -> ClosingOrder:
    """Return reach along the order of a build; takes as long as its shapes are new."""
    pattern, shelf = derived.pattern, derived.shelf
    reach = reach_of(pattern, shelf)
    reckoning = Reckoning(
        net=reach.net,
        margin_of=partial(_margin, reach.drawn, reach.bench),
        barred=_barred(reach.bars),
        tool_names={tool.id: tool.name for tool in shelf.tools},
        row_gape=shelf.constants.row_gape.value,
    )
    return ClosingOrder(derived.assembly, derived.work, derived.order, reckoning)


def _margin(net: ReachNet, bench: Bench, joint: str, made: frozenset[str]) -> Margin:
    return margin(net, joint, made, bench)


def _barred(found: Iterable[Bar]) -> Mapping[str, tuple[Barring, ...]]:
    """Return by joint what bars it, the gravest first."""
    told: dict[str, list[Barring]] = defaultdict(list)
    for bar in found:
        told[bar.joint].append(
            Barring(
                rows=bar.rows,
                after=bar.after.standing,
                along_mm=bar.after.way.along_mm if bar.after.way else None,
            )
        )
    grave = lambda one: (-one.after, sorted(one.rows))  # noqa: E731
    return {joint: tuple(sorted(some, key=grave)) for joint, some in told.items()}
