"""How joints are set before others and after them, by the shapes and the tools on the shelf."""

from collections.abc import Iterable, Iterator
from math import inf
from typing import NamedTuple

from armorplan.app.derived import Derived
from armorplan.geometry.reach.margins import gauges
from armorplan.geometry.reach.model import Margin, Shell
from armorplan.rules.reach_sides import met_on, sides_of, views_of
from armorplan.workshop.shelf import ToolEntry


class Turn(NamedTuple):
    """How a joint, named with its side, is set before others, and after them."""

    joint: str
    before: Margin
    after: Margin


def joints_set(derived: Derived, steps: Iterable[str]) -> tuple[str, ...]:
    """Return the joints that steps set for good, with their sides, in the steps' order."""
    return tuple(joint for step in steps for joint in derived.work.sets(derived.work.step(step)))


def turns(
    derived: Derived, step: str, done: Iterable[str], others: Iterable[str]
) -> Iterator[Turn]:
    """Yield how each joint of a step is set with what is done, and with others done as well.

    Joints that lie in no shell are reached from anywhere, and left out.
    """
    facts = derived.facts
    sided = sides_of(facts)
    before = frozenset(joints_set(derived, done))
    after = before | frozenset(joints_set(derived, others))
    for name in joints_set(derived, (step,)):
        joint = derived.assembly.joint(name)
        plain = joint.joint.id
        for view in views_of(facts):
            net = view.reach.net
            if joint.side not in view.sides or plain not in net.access:
                continue
            gauge = gauges(net, view.reach.bench)[net.access[plain].shell]
            met = {one: met_on(sided, one, joint.side) for one in _joints_of(gauge.shell)}
            states = (
                frozenset(one for one, all_ in met.items() if {j.id for j in all_} <= made)
                for made in (before, after)
            )
            yield Turn(name, *(gauge.margin(plain, state - {plain}) for state in states))


def dearer_min(derived: Derived, step: str, done: Iterable[str], others: Iterable[str]) -> float:
    """Return the minutes that a step costs more after others; infinite where nothing gets to it then."""
    flat_min = derived.flat_work.step(step).minutes
    return max(
        (flat_min * _more(turn) for turn in turns(derived, step, done, others)), default=0.0
    )


def _more(turn: Turn) -> float:
    """Return what a joint costs more afterwards, times its minutes on the flat bench."""
    return 0.0 if turn.before.effort == inf else turn.after.effort - turn.before.effort


def tools_for(derived: Derived, steps: Iterable[str]) -> tuple[ToolEntry, ...]:
    """Return the tools on the shelf that close the joints of steps and whose reach is known, by id."""
    found: dict[str, ToolEntry] = {}
    for name in joints_set(derived, steps):
        joint = derived.assembly.joint(name)
        for view in views_of(derived.facts):
            if joint.side in view.sides:
                found |= {t.id: t for t in view.reach.bench.tools.get(joint.joint.id, ())}
    return tuple(found[tool] for tool in sorted(found))


def _joints_of(shell: Shell) -> frozenset[str]:
    return frozenset((*shell.seats, *(joint for row in shell.rows for joint in row.joints)))
