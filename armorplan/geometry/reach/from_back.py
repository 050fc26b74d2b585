"""Which joints bar each other whatever the order, found from the back.

What can be set once all others are made may well come last, since that narrows no way of theirs; what
then is left has to be set before. So the search is exact and needs no going back.
"""

from collections.abc import Iterable

from armorplan.geometry.reach.margins import Gauge
from armorplan.geometry.reach.model import Standing


def is_settable(gauge: Gauge, joint: str, made: frozenset[str]) -> bool:
    """Tell whether some tool gets to a joint once others are made, if only at the end of its reach."""
    return gauge.is_let_in(joint, made) or (
        gauge.margin(joint, made).standing is not Standing.CANNOT
    )


def bar_each_other(
    gauge: Gauge, joints: Iterable[str], made: frozenset[str] = frozenset()
) -> tuple[str, ...]:
    """Return the joints none of which can be set once the others are; empty where an order sets all.

    Args:
        gauge: of their shell.
        joints: what is still to set.
        made: what is made before any of them.
    """
    left = tuple(joints)
    while left:
        every = made.union(left)
        kept = tuple(joint for joint in left if not is_settable(gauge, joint, every - {joint}))
        if len(kept) == len(left):
            break
        left = kept
    return left
