"""Bars joint by joint, learned from orders that fail: for what rows alone do not tell.

A row half made may already shut a tool out, and more sets may do it than are worth finding at once.
So an order is tried against the model, its first failure is shrunk to the joints that cause it, and
the next order keeps clear of that, until one holds or none is left.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.blocking import Atoms, shrunk
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Margin, ReachNet, Standing

MOST_ROUNDS = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuck:
    """A joint that cannot be set, or only so hard, once all of some joints are made.

    Attributes:
        of: plain ids; without any one of them it is easier. Empty: it is never easier.
        after: how it is set once they are made, and nothing else.
    """

    joint: str
    of: frozenset[str]
    after: Margin

    def forbids(self, order: Sequence[str]) -> bool:
        """Tell whether an order sets the joint only after all of the others."""
        return self.joint in order and self.of.issubset(order[: order.index(self.joint)])


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """Bars learned, and an order that holds; ``None`` where there is none, or it was cut short."""

    order: tuple[str, ...] | None
    stuck: tuple[Stuck, ...]
    complete: bool


def first_stuck(
    net: ReachNet, bench: Bench, order: Sequence[str], at_least: Standing = Standing.CANNOT
) -> Stuck | None:
    """Return why an order fails at its first joint that does; ``None`` where all of it holds.

    Args:
        net: the ways in.
        bench: tools and constants.
        order: plain ids of joints, as they are set.
        at_least: a joint that stands so, or worse, is a failure.
    """
    for at, joint in enumerate(order):
        if margin(net, joint, frozenset(order[:at]), bench).standing >= at_least:
            return stuck_by(net, bench, joint, order[:at], at_least)
    return None


def stuck_by(
    net: ReachNet, bench: Bench, joint: str, made: Iterable[str], at_least: Standing
) -> Stuck:
    """Return a minimal set of the joints made that leaves a joint stuck; they all do together.

    The joints made last are given up first, so that what is told lies early in the order.
    """
    shell = net.shell_of(joint)
    rows = () if shell is None else shell.rows
    near = frozenset(each for row in rows for each in row.joints)

    def is_stuck(some: Atoms) -> bool:
        return margin(net, joint, some, bench).standing >= at_least

    of = shrunk([each for each in reversed(tuple(made)) if each in near], is_stuck)
    return Stuck(joint=joint, of=of, after=margin(net, joint, of, bench))


def learn(
    net: ReachNet,
    bench: Bench,
    next_order: Callable[[tuple[Stuck, ...]], Sequence[str] | None],
    *,
    at_least: Standing = Standing.CANNOT,
    most: int = MOST_ROUNDS,
) -> Learned:
    """Return what is learned until an order holds, or no order is left.

    Args:
        net: the ways in.
        bench: tools and constants.
        next_order: an order that none of what is known forbids; ``None`` where there is none.
        at_least: a joint that stands so, or worse, is a failure.
        most: so many orders are tried at most.
    """
    known: list[Stuck] = []
    for _ in range(most):
        order = next_order(tuple(known))
        if order is None:
            return Learned(order=None, stuck=tuple(known), complete=True)
        fresh = first_stuck(net, bench, order, at_least)
        if fresh is None:
            return Learned(order=tuple(order), stuck=tuple(known), complete=True)
        known.append(fresh)
    return Learned(order=None, stuck=tuple(known), complete=False)
