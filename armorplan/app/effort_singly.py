"""What setting joints takes where each is set before the next is put in, in the very order given."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from math import inf, isinf

from armorplan.app.effort_rank import LeastEffort
from armorplan.app.effort_states import REACH
from armorplan.geometry.reach.margins import margin
from armorplan.orders.effort_bits import cost_of

_PCT = 100.0


class Singly:
    """Minutes of joints set one by one, and of rows loaded first, by the margins of reach.

    Args:
        effort: what is set in one go, by which steps, and the reach it is reckoned with.
    """

    def __init__(self, effort: LeastEffort) -> None:
        self._effort, self._reach = effort, effort.states.reach
        self._loaded_share = 1 - effort.states.saving_pct / _PCT

    @property
    def best(self) -> tuple[str, ...]:
        """The joints in the order of least effort, each row in its best run one by one."""
        return tuple(joint for atom in self._effort.found.order for joint in self._run_of(atom))

    def _run_of(self, atom: str) -> tuple[str, ...]:
        row, joints = self._effort.rows.get(atom), self._effort.groups[atom].joints
        return joints if row is None else tuple(joints[at] for at in row.minutes.run)

    def by_group(self, joints: Sequence[str]) -> Mapping[str, float]:
        """Return what each group takes in an order of all joints, and by what is not reach."""
        place = {joint: at for at, joint in enumerate(joints)}
        taken = {
            group.id: sum(self._minutes(j, frozenset(joints[: place[j]])) for j in group.joints)
            for group in self._effort.groups.values()
        }
        for group_id, minutes in self._by_rules(place).items():
            taken[group_id] += minutes
        return taken

    def loaded_min(self, group_id: str, joints: Sequence[str]) -> float:
        """Return what a row takes with all its posts put in first, where it is begun in an order; infinite: it cannot."""
        row = self._effort.groups[group_id].joints
        begun = min(joints.index(joint) for joint in row)
        made = frozenset((*joints[:begun], *row))
        each_min = [self._minutes(each, made - {each}, never=inf) for each in row]
        return sum(each_min) * self._loaded_share

    def _by_rules(self, place: Mapping[str, int]) -> Mapping[str, float]:
        problem = self._effort.problem
        rules = tuple(rise for rise in problem.rises if rise.why != REACH)
        begun = {
            group.id: min(place[joint] for joint in group.joints)
            for group in self._effort.groups.values()
        }
        order = sorted(begun, key=begun.__getitem__)
        flat = {atom.id: atom.minutes for atom in problem.atoms}
        spent = cost_of(replace(problem, rises=rules))(order)
        return {group_id: minutes - flat[group_id] for group_id, minutes in spent.by_atom}

    def _minutes(self, joint: str, made: frozenset[str], *, never: float | None = None) -> float:
        effort = margin(self._reach.net, joint, made, self._reach.bench).effort
        # What cannot be done is ruled out elsewhere; where that is overruled it costs the most.
        at_most = self._reach.bench.end_effort if never is None else never
        times = at_most if isinf(effort) else effort
        return self._effort.steps[joint].minutes * times


def joints_in(effort: LeastEffort, order: Iterable[str]) -> tuple[str, ...]:
    """Return the plain joints in the order in which steps set them, on one side of each pair."""
    place = {step: at for at, step in enumerate(order)}
    return tuple(sorted(effort.steps, key=lambda joint: (place[effort.steps[joint].id], joint)))
