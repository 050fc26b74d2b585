"""The safety net: of a shell that no order sets nothing is called *cannot*, and the rest is reckoned."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.from_back import bar_each_other, is_settable
from armorplan.geometry.reach.margins import Gauge, gauges
from armorplan.geometry.reach.model import ReachNet


def settled(net: ReachNet, bench: Bench) -> ReachNet:
    """Return a net in which some order sets all that can be set at all.

    A shell without a mouth, and one whose joints bar each other whatever the order, count as hollow:
    the drawing, the tools or the model must be at fault there. A joint that is out of reach with
    nothing else set bars no order: it counts as the last.
    """
    faulty = {id_ for id_, gauge in gauges(net, bench).items() if not _has_order(gauge)}
    if not faulty:
        return net
    shells = {
        id_: replace(shell, hollow=True) if id_ in faulty else shell
        for id_, shell in net.shells.items()
    }
    return ReachNet(shells=shells, access=net.access)


def _has_order(gauge: Gauge) -> bool:
    shell = gauge.shell
    if shell.hollow:
        return True
    return bool(shell.rims or not shell.rows) and not bar_each_other(gauge, _settable(gauge))


def _settable(gauge: Gauge) -> Iterator[str]:
    """Yield the joints whose shell it is that can be set while all else is open."""
    for joint in sorted({*gauge.places, *gauge.shell.seats}):
        access = gauge.access.get(joint)
        mine = access is not None and access.shell == gauge.shell.id
        if mine and is_settable(gauge, joint, frozenset()):
            yield joint
