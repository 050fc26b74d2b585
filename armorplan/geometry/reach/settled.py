"""The safety net: of a shell that no order sets nothing is called *cannot*, and the rest is reckoned."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.margins import Gauge, gauges
from armorplan.geometry.reach.model import ReachNet, Standing


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
    return bool(shell.rims or not shell.rows) and not _left_over(gauge, _settable(gauge))


def _settable(gauge: Gauge) -> Iterator[str]:
    """Yield the joints whose shell it is that can be set while all else is open."""
    for joint in sorted({*gauge.places, *gauge.shell.seats}):
        access = gauge.access.get(joint)
        mine = access is not None and access.shell == gauge.shell.id
        if mine and not _is_barred(gauge, joint, frozenset()):
            yield joint


def _left_over(gauge: Gauge, joints: Iterable[str]) -> frozenset[str]:
    """Return the joints that bar each other: none of them can be set once the others are.

    Found from the back: what can be set once all others are made may well come last, since that
    narrows no way of theirs.
    """
    left = frozenset(joints)
    while left:
        kept = frozenset(joint for joint in left if _is_barred(gauge, joint, left - {joint}))
        if kept == left:
            break
        left = kept
    return left


def _is_barred(gauge: Gauge, joint: str, made: frozenset[str]) -> bool:
    return gauge.margin(joint, made).standing is Standing.CANNOT
