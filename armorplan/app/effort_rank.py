"""The order of least effort of what sets joints, and the places it gives their steps.

A pair is worked alike on both sides, so one side is reckoned. Rows are set in one go, and so are
seats that hold the same parts, wherever the relations let them.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from armorplan.app.effort_atoms import SetTogether, one_by_one, set_together, setting_steps_of
from armorplan.app.effort_relations import hard_pairs, hard_sets, knotted, priced
from armorplan.app.effort_states import EffortStates
from armorplan.assembly.model import Assembly
from armorplan.geometry.reach.gathered import reach_of
from armorplan.orders.effort_bits import cost_of
from armorplan.orders.effort_model import EffortOrder, EffortProblem, Spent
from armorplan.orders.effort_solver import Solve
from armorplan.orders.least_effort import least_effort
from armorplan.orders.row_minutes import RowMinutes
from armorplan.relations.model import Relation
from armorplan.steps.model import Step, Work
from armorplan.workshop.shelf import Shelf

Key = tuple[int, int, int, int]
"""Where a step would like to stand: kind, place in the listing, beside its like, side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowEffort:
    """A row in the order of least effort: joint by joint, and loaded before it is set."""

    group: SetTogether
    minutes: RowMinutes

    @property
    def joints(self) -> tuple[str, ...]:
        """Its joints in the order in which they are set."""
        if self.minutes.is_loaded:
            return self.group.joints
        return tuple(self.group.joints[at] for at in self.minutes.run)


@dataclass(frozen=True, slots=True, kw_only=True)
class LeastEffort:
    """What setting all joints takes at least, on one side of each pair, and in which order.

    Attributes:
        groups: by id, what is set in one go.
        problem: the atoms, and what each costs after which others.
        found: the order of least effort with its bound.
        complete: the table holds all rises; else the bound still holds, but may be low.
        rows: rows by the id of their group, as they are worked in that order.
        steps: by plain joint the step that sets it, of a pair the left, with its minutes on the flat bench.
        states: what each group costs in any state.
    """

    groups: Mapping[str, SetTogether]
    problem: EffortProblem
    found: EffortOrder
    complete: bool
    rows: Mapping[str, RowEffort]
    steps: Mapping[str, Step]
    states: EffortStates = field(repr=False, compare=False)

    @property
    def joints(self) -> tuple[str, ...]:
        """Plain joints in the order of least effort."""
        return tuple(
            joint
            for atom in self.found.order
            for joint in (self.rows[atom] if atom in self.rows else self.groups[atom]).joints
        )

    @property
    def is_proved(self) -> bool:
        """Whether no order takes less work."""
        return self.found.proved and self.complete

    def spent_in(self, order: Iterable[str]) -> Spent:
        """Return what an order of steps takes by the same reckoning, rows where they are begun."""
        place = {step: at for at, step in enumerate(order)}
        begun = {
            group.id: min(place[self.steps[joint].id] for joint in group.joints)
            for group in self.groups.values()
        }
        return cost_of(self.problem)(sorted(begun, key=begun.__getitem__))


def effort_of(
    made_of: tuple[Assembly, Shelf, Work],
    relations: Sequence[Relation],
    listed: Mapping[str, Key],
    *,
    solve: Solve | None = None,
) -> LeastEffort | None:
    """Return the order of least effort; ``None`` where nothing is set or no order is possible.

    Args:
        made_of: the assembly, the shelf and the steps.
        relations: between the steps.
        listed: where each step would stand by the pattern's own listing; breaks ties.
        solve: as for ``least_effort``.
    """
    assembly, shelf, work = made_of
    steps = setting_steps_of(work, assembly)
    reach = reach_of(assembly.pattern, shelf)
    groups = set_together(reach.net, steps, lambda step: listed[step])
    pairs = hard_pairs(relations, _homes(groups, steps))
    if not groups or pairs is None:
        return None
    if apart := knotted(pairs):
        groups = one_by_one(groups, apart)
        pairs = hard_pairs(relations, _homes(groups, steps)) or ()
    minutes = {joint: float(step.minutes) for joint, step in steps.items()}
    numbers = shelf.constants
    states = EffortStates(reach, groups, minutes, saving_pct=numbers.load_row.value)
    tables = [states.table(group) for group in groups]
    home = _homes(groups, steps)
    problem = EffortProblem(
        atoms=tuple(states.atom(group) for group in groups),
        rises=(*(rise for table in tables for rise in table.rises), *priced(relations, home)),
        before=pairs,
        before_all=hard_sets(relations, home),
        tool_change_min=max(0.0, numbers.tool_change.value),
        turn_over_min=max(0.0, numbers.turn_over.value),
    )
    found = least_effort(problem, solve=solve)
    if not found.order:
        return None
    return LeastEffort(
        groups={group.id: group for group in groups},
        problem=problem,
        found=found,
        complete=all(table.complete for table in tables),
        rows=_rows(states, groups, found.order),
        steps=steps,
        states=states,
    )


def _homes(groups: Iterable[SetTogether], steps: Mapping[str, Step]) -> dict[str, str]:
    return {steps[joint].id: group.id for group in groups for joint in group.joints}


def _rows(
    states: EffortStates, groups: Iterable[SetTogether], order: Sequence[str]
) -> dict[str, RowEffort]:
    done, found = frozenset[str](), {}
    of = {group.id: group for group in groups}
    for atom in order:
        if of[atom].row and len(of[atom].joints) > 1:
            found[atom] = RowEffort(group=of[atom], minutes=states.row(of[atom], done))
        done |= {atom}
    return found


def effort_places(effort: LeastEffort, listed: Mapping[str, Key]) -> dict[str, tuple[int, int]]:
    """Return by plain joint where its steps would like to stand, by kind and place in the listing.

    Within each piece the places that the listing gives to what sets joints are dealt out anew,
    in the order of least effort; everything else stays where it is.
    """
    by_piece: dict[str, list[str]] = {}
    for joint in effort.joints:
        by_piece.setdefault(effort.steps[joint].piece, []).append(joint)
    found: dict[str, tuple[int, int]] = {}
    for joints in by_piece.values():
        places = sorted(listed[effort.steps[joint].id][:2] for joint in joints)
        found.update(zip(joints, places, strict=True))
    return found
