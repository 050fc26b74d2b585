"""States of the work in which some steps may come next and others may not, and what stops these."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.drills.learning import Learned
from armorplan.app.drills.step_sets import StepSet
from armorplan.app.drills.step_words import weighed
from armorplan.orders.next_steps import standing
from armorplan.practice.few_orders import FewOrders
from armorplan.practice.settled_order import Bits, each
from armorplan.relations.extending import extended
from armorplan.relations.index import first_and_members, is_plain, named_steps
from armorplan.relations.model import Before, BeforeAll, Relation

Plain = Before | BeforeAll
LEAST_OF_EACH = 2
"""So many may come next at least, and so many may not."""
_LOOKED_AT = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where the work stands, seen by the steps of an exercise.

    Attributes:
        may: what may come next, so that all the rest can be completed; in the build's order.
        stopped: by step that may not, the relations that stop it, what is rather told first.
        seen: by step that may, the relations for which it had to wait and no more has to.
    """

    may: tuple[str, ...]
    stopped: Mapping[str, tuple[Relation, ...]]
    seen: Mapping[str, tuple[Plain, ...]]

    def stops(self, step: str) -> Relation:
        """Return what is told of a step that may not come next."""
        return self.stopped[step][0]

    def seen_to(self, step: str) -> tuple[Plain, ...]:
        """Return what a step that may come next had to wait for, what is rather told first."""
        return self.seen[step]


def standing_of(derived: Derived, learned: Learned, main: str = "") -> Standing:
    """Return which steps may come next after what is done before them.

    Told first is the rule ``main``, then what nobody sees by himself, then what waits for a step
    that may come next itself.

    Args:
        derived: the build.
        learned: the steps; what reach taught about them counts.
        main: rule the exercise is about.
    """
    index = derived.index
    if learned.learns:
        index = extended(index, (), learned.lessons, instead={})
    found = standing(learned.done, index)
    free = frozenset(found.may_come_next)
    may = tuple(step for step in learned.few.steps if step in free)

    def key(relation: Relation) -> tuple[bool, bool, bool]:
        return (*weighed(relation, main), free.isdisjoint(named_steps(relation)))

    waiting = (step for step in learned.few.steps if step in found.waits_for)
    stopped = {step: tuple(sorted(found.waits_for[step], key=key)) for step in waiting}
    seen = {step: _seen_to(derived, learned, step, main) for step in may}
    return Standing(may=may, stopped=stopped, seen=seen)


def _seen_to(derived: Derived, learned: Learned, step: str, main: str) -> tuple[Plain, ...]:
    """Return the relations by which a step waited for what is done, what was done last first."""
    index, place = derived.index, {one: at for at, one in enumerate(learned.done)}
    about = (index.relations[at] for at in index.by_member[index.number[step]])
    kept = [
        each
        for each in about
        if isinstance(each, Before | BeforeAll) and each.reason.binds and each.first in place
    ]
    return tuple(sorted(kept, key=lambda each: (*weighed(each, main), -place[each.first])))


def states_of(
    derived: Derived, found: StepSet, sizes: tuple[int, int], *, spots: Sequence[float]
) -> Iterator[tuple[Learned, Standing]]:
    """Yield states between a set's first step and its last that make a choice, a few in all.

    Args:
        derived: the build.
        found: the steps, of which some are done in a state.
        sizes: fewest and most steps that are left to choose from; the most are rather had.
        spots: numbers from 0 to 1 that say which of the states are looked at.
    """
    few, (_, most) = found.few, sizes
    left = [done for done in few.ways if _is_choice(found, done, sizes)]
    picked = dict.fromkeys(left[int(spot * len(left))] for spot in spots if left)

    def lacks(done: Bits) -> tuple[bool, bool, int]:
        fewer = most + done.bit_count() - len(few.steps)
        return not _stops(few, found.main, done), _tells_by_kind(derived, few, done), fewer

    for done in sorted(picked, key=lacks)[:_LOOKED_AT]:
        begun = few.way_to(done)
        steps = [step for step in few.steps if step not in begun]
        learned = Learned(derived, (*found.learned.done, *begun), steps)
        learned.settle()
        stands = standing_of(derived, learned, found.main.reason.rule)
        by_few = {learned.few.steps[at] for at in learned.few.onward(0)}
        if by_few == {*stands.may}:
            yield learned, stands


def _is_choice(found: StepSet, done: Bits, sizes: tuple[int, int]) -> bool:
    """Tell whether enough may come next and enough may not, in a state that one comes to.

    What is done, and what may come next, has all before it that states of the set keep there: so
    nobody is told that a step may come next which he rightly put off. Nor may anything that time
    alone does: it begins by itself, and would always be right.
    """
    few = found.few
    left, onward = len(few.steps) - done.bit_count(), few.onward(done)
    may = sum(1 << at for at in onward)
    return (
        sizes[0] <= left <= sizes[1]
        and LEAST_OF_EACH <= len(onward) <= left - LEAST_OF_EACH
        and not may & found.waits
        and all(not found.needs[at] & ~done for at in each(done | may))
    )


def _stops(few: FewOrders, relation: Relation, done: Bits) -> bool:
    """Tell whether a relation stops a step in a state: the last that is left of those it names."""
    if not is_plain(relation):
        return True
    first, members = first_and_members(relation)
    left = few.bits(members) & ~done
    return not few.bits((first,)) & done and left.bit_count() == 1


def _tells_by_kind(derived: Derived, few: FewOrders, done: Bits) -> bool:
    """Tell whether what may come next is all of other kinds than what may not."""
    may = few.onward(done)
    kinds = [derived.work.step(step).kind for step in few.steps]
    waits = {kinds[at] for at in range(len(kinds)) if not done >> at & 1 and at not in may}
    return waits.isdisjoint(kinds[at] for at in may)
