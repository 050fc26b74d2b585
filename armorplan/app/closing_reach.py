"""Which joints get harder to reach by what is set next: with fewer tools, from inside, or not at all."""

from collections import defaultdict
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from enum import IntEnum

from armorplan.app.derived import Derived
from armorplan.assembly.model import Side, SidedJoint
from armorplan.geometry.reach.margins import Gauge, gauges
from armorplan.geometry.reach.model import Margin, Shell, Standing
from armorplan.rules.reach_sides import Sides, View, met_on, sides_of, views_of

_States = tuple[frozenset[str], frozenset[str]]
"""The plain ids of what is set in a shell before and after."""


class Loss(IntEnum):
    """What a joint still open comes to, the gravest first."""

    OUT = 0
    ONE_TOOL = 1
    END = 2
    INSIDE = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Harder:
    """A joint that is harder to get at afterwards.

    Attributes:
        joint: with its side.
        tool: id of the tool that is left, or that gets there best; empty where none does.
    """

    joint: str
    loss: Loss
    tool: str = ""


def harder_after(
    derived: Derived, made: Collection[str], setting: Collection[str]
) -> tuple[Harder, ...]:
    """Return the open joints that are harder to get at once more are set, the gravest first.

    Args:
        derived: the build.
        made: the joints that are set, with their sides.
        setting: those that are set next.
    """
    facts = derived.facts
    sided, before = sides_of(facts), frozenset(made)
    after = before | frozenset(setting)
    found = [
        harder for view in views_of(facts) for harder in _View(view, sided, before, after).found()
    ]
    return tuple(sorted(set(found), key=lambda one: (one.loss, one.joint)))


class _View:
    """One look at a build: the shells of some sides, before and after."""

    def __init__(
        self, view: View, sided: Sides, before: frozenset[str], after: frozenset[str]
    ) -> None:
        self._view, self._sided = view, sided
        self._before, self._after = before, after
        self._tools = view.reach.bench.tools
        self._met: dict[tuple[str, Side], _States] = {}
        self._set = {j.joint.id for one in sided.values() for j in one if j.id in after - before}

    def found(self) -> Iterator[Harder]:
        """Yield what gets harder in the shells that something is set in."""
        net = self._view.reach.drawn
        known = gauges(net, self._view.reach.bench)
        inside: dict[str, list[str]] = defaultdict(list)
        for joint, access in net.access.items():
            inside[access.shell].append(joint)
        for shell_id, joints in inside.items():
            shell = net.shells[shell_id]
            if self._set & _joints_of(shell):
                for plain in joints:
                    for one in self._view.seen(self._sided, plain):
                        if one.id not in self._after:
                            yield from self._joint(known[shell_id], one)

    def _joint(self, gauge: Gauge, joint: SidedJoint) -> Iterator[Harder]:
        plain = joint.joint.id
        at = gauge.shell.id, joint.side
        if at not in self._met:
            self._met[at] = self._as_met(gauge.shell, joint.side)
        before, after = (made - {plain} for made in self._met[at])
        if before == after or not self._tools.get(plain):
            return
        now, then = gauge.margin(plain, before), gauge.margin(plain, after)
        loss = self._loss(gauge, plain, (now, then), (before, after))
        if loss is not None:
            tool = "" if loss is Loss.OUT else then.tool
            yield Harder(joint=joint.id, loss=loss, tool=tool)

    def _loss(
        self,
        gauge: Gauge,
        plain: str,
        margins: tuple[Margin, Margin],
        states: _States,
    ) -> Loss | None:
        now, then = margins
        if then.standing > now.standing and then.standing in _BY_STANDING:
            return _BY_STANDING[then.standing]
        had, has = (gauge.reaching(plain, made) for made in states)
        every = {tool.id for tool in self._tools[plain]}
        if has is not None and len(has) == 1 and len(every if had is None else had) > 1:
            return Loss.ONE_TOOL
        worse = then.standing is Standing.INSIDE and now.standing < then.standing
        return Loss.INSIDE if worse else None

    def _as_met(self, shell: Shell, side: Side) -> _States:
        """Return the plain ids of what is set in a shell, as a side meets it, before and after."""
        alike = {plain: met_on(self._sided, plain, side) for plain in _joints_of(shell)}
        needed = {plain: {one.id for one in met} for plain, met in alike.items() if met}
        before, after = (
            frozenset(plain for plain, ids in needed.items() if ids <= made)
            for made in (self._before, self._after)
        )
        return before, after


_BY_STANDING = {Standing.CANNOT: Loss.OUT, Standing.END: Loss.END}


def _joints_of(shell: Shell) -> frozenset[str]:
    return frozenset((*shell.seats, *(joint for row in shell.rows for joint in row.joints)))
