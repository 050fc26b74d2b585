"""What a row or some seats cost in each state, by the margins of reach and the minutes of the steps."""

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from math import isinf

from armorplan.app.effort_atoms import SetTogether
from armorplan.geometry.reach.gathered import Reach
from armorplan.geometry.reach.margins import Gauge, gauges
from armorplan.geometry.reach.model import Margin, Standing, Through
from armorplan.orders.effort_model import Atom
from armorplan.orders.effort_table import State, Table, rises_of
from armorplan.orders.row_minutes import RowMinutes, RunMinutes, row_minutes, run_minutes

MOST_ROWS = 24
"""So many rows round a joint are looked at; those further off are counted as open."""
REACH = "reach"
Made = frozenset[str]


class EffortStates:
    """Minutes of what is set in one go, after other rows.

    Args:
        reach: net, bench and bars.
        groups: what is set in one go.
        minutes: by plain joint what its step takes on the flat bench.
        saving_pct: share of a row's minutes that loading it first saves.
    """

    def __init__(
        self,
        reach: Reach,
        groups: Sequence[SetTogether],
        minutes: Mapping[str, float],
        *,
        saving_pct: float,
    ) -> None:
        self.reach, self.saving_pct, self._minutes = reach, saving_pct, minutes
        self._gauges = gauges(reach.net, reach.bench)
        self._groups = {group.id: group for group in groups}
        self._on_row: dict[str, list[str]] = {}
        for group in groups:
            if group.row:
                self._on_row.setdefault(group.row, []).append(group.id)
        self._margins: dict[tuple[str, Made], Margin] = {}
        self._states: dict[tuple[str, Made], State] = {}
        self._near: dict[str, tuple[str, ...]] = {}

    @cached_property
    def _barring(self) -> Mapping[str, set[str]]:
        found: dict[str, set[str]] = {}
        for bar in self.reach.bars:
            found.setdefault(bar.joint, set()).update(bar.rows)
        return found

    def atom(self, group: SetTogether) -> Atom:
        """Return a group as an atom, as it stands with no other row begun."""
        first = self.state(group, frozenset())
        return Atom(id=group.id, minutes=first.minutes, tool=first.tool, way=first.way)

    def table(self, group: SetTogether) -> Table:
        """Return the rises of a group."""
        others = self._others(group)
        if not others:
            return Table((), complete=True)
        return rises_of(group.id, others, lambda done: self.state(group, done), why=REACH)

    def state(self, group: SetTogether, done: frozenset[str]) -> State:
        """Return what a group costs after others, by their ids."""
        key = (group.id, done)
        if key not in self._states:
            self._states[key] = self._reckon(group, done)
        return self._states[key]

    def row(self, group: SetTogether, done: frozenset[str]) -> RowMinutes:
        """Return what a row takes either way after other groups, by their ids.

        Of these only those count that the table of its rises counts too.
        """
        made = self._made(group, done.intersection(self._others(group)))
        joints = group.joints
        return row_minutes(
            len(joints),
            lambda at, of: self._joint_min(joints[at], made | {joints[one] for one in of}),
            saving_pct=self.saving_pct,
            loads=self._loads(joints, made),
        )

    def _loads(self, joints: Sequence[str], made: Made) -> bool:
        every = made.union(joints)
        return not any(isinf(self._margin(each, every - {each}).effort) for each in joints)

    def run(
        self, group: SetTogether, joints: Sequence[str], done: frozenset[str]
    ) -> tuple[RunMinutes, tuple[Margin, ...]]:
        """Return what a group's joints take in this order, after other groups, and how far tools get."""
        made, row = self._made(group, done.intersection(self._others(group))), bool(group.row)
        run = run_minutes(
            range(len(joints)),
            lambda at, of: self._joint_min(
                joints[at], made.union(joints[one] for one in of if row)
            ),
            saving_pct=self.saving_pct,
            loads=row and self._loads(joints, made),
        )
        set_so_far = (joints if run.loaded else joints[: at * row] for at in range(len(joints)))
        return run, tuple(
            self._margin(joint, made.union(of) - {joint})
            for joint, of in zip(joints, set_so_far, strict=True)
        )

    def _reckon(self, group: SetTogether, done: frozenset[str]) -> State:
        made = self._made(group, done)
        if not group.row:
            minutes = sum(self._joint_min(joint, made) for joint in group.joints)
        else:
            minutes = self.row(group, done).minutes
        worst = max(
            (self._margin(joint, made) for joint in group.joints),
            key=lambda found: (found.standing, found.effort),
        )
        return State(minutes, worst.tool, _way(self.reach, group, worst))

    def _joint_min(self, joint: str, made: Made) -> float:
        effort = self._margin(joint, made).effort
        # What cannot be done is ruled out elsewhere; where that is overruled it costs the most.
        return self._minutes[joint] * (self.reach.bench.end_effort if isinf(effort) else effort)

    def _margin(self, joint: str, made: Made) -> Margin:
        key = (joint, made)
        if key not in self._margins:
            gauge = self._gauge(joint)
            self._margins[key] = _FLAT if gauge is None else gauge.margin(joint, made)
        return self._margins[key]

    def _gauge(self, joint: str) -> Gauge | None:
        access = self.reach.net.access.get(joint)
        return None if access is None else self._gauges[access.shell]

    def _made(self, group: SetTogether, done: Iterable[str]) -> Made:
        own = set(group.joints)
        return frozenset(
            joint
            for other in done
            if other in self._groups
            for joint in self._groups[other].joints
            if joint not in own
        )

    def _others(self, group: SetTogether) -> tuple[str, ...]:
        """Return the groups whose making may matter, those that lie nearest last."""
        if group.id not in self._near:
            self._near[group.id] = self._nearest_last(group)
        return self._near[group.id]

    def _nearest_last(self, group: SetTogether) -> tuple[str, ...]:
        near: dict[str, float] = {}
        for joint in group.joints:
            gauge = self._gauge(joint)
            if gauge is None:
                continue
            for way in gauge.ways(joint):
                if way.row:
                    near[way.row] = min(near.get(way.row, way.along_mm), way.along_mm)
            for row in self._barring.get(joint, ()):
                near.setdefault(row, 0.0)
        rows = sorted(near, key=lambda row: (near[row], row))[:MOST_ROWS]
        found = [one for row in rows for one in self._on_row.get(row, ()) if one != group.id]
        return tuple(reversed(found))


def _way(reach: Reach, group: SetTogether, found: Margin) -> str:
    if found.way is None or found.standing is Standing.FLAT:
        return ""
    where = found.way.name if found.way.through is Through.RIM else found.way.row
    return f"{reach.net.access[group.joints[0]].shell} {where}"


_FLAT = Margin(standing=Standing.FLAT)
