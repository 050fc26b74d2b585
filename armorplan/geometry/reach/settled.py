"""The safety net: of a shell that no order sets nothing is called *cannot*, and the rest is reckoned."""

from collections.abc import Iterable
from dataclasses import replace

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.from_back import bar_each_other
from armorplan.geometry.reach.margins import Gauge, gauges
from armorplan.geometry.reach.model import ReachNet
from armorplan.geometry.reach.sealing import sealings


def settled(net: ReachNet, bench: Bench) -> ReachNet:
    """Return a net in which some order sets all that can be set at all.

    A shell whose joints bar each other whatever the order counts as hollow: the drawing, the tools or
    the model must be at fault there. A joint that is out of reach with
    nothing else set bars no order: it counts as the last.
    """
    by_shell: dict[str, list[str]] = {}
    for joint, sealing in sealings(net, bench).items():
        if not sealing.is_shut(frozenset()):
            by_shell.setdefault(net.access[joint].shell, []).append(joint)
    every = gauges(net, bench)
    faulty = {id_ for id_, gauge in every.items() if not _has_order(gauge, by_shell.get(id_, ()))}
    if not faulty:
        return net
    shells = {
        id_: replace(shell, hollow=True) if id_ in faulty else shell
        for id_, shell in net.shells.items()
    }
    return ReachNet(shells=shells, access=net.access)


def _has_order(gauge: Gauge, barred: Iterable[str]) -> bool:
    """Tell whether an order sets a shell; what nothing puts out of reach may come last in any."""
    shell = gauge.shell
    if shell.hollow:
        return True
    return not bar_each_other(gauge, barred)
