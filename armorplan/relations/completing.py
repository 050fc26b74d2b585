"""Can what is left still be done with every relation kept?

Of 'before' and 'before all of' alone the answer is exact and linear (``from_back``); with 'after
any of' or 'together' it is a search with a stated limit (``settling``).
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from armorplan.relations.checking import comes_between
from armorplan.relations.from_back import order_from_back, stuck_core
from armorplan.relations.index import RelationIndex, index_relations, named_steps
from armorplan.relations.mixing import mix
from armorplan.relations.model import AfterAny, Relation, Together
from armorplan.relations.settling import settle


@dataclass(frozen=True, slots=True, kw_only=True)
class Completion:
    """Whether what is left can be done.

    Attributes:
        possible: every step left can be done with all relations kept.
        order: one valid order of the steps left; empty where there is none.
        stuck: steps that can never be done, in the order given: each can only come before the
            last of others which are themselves stuck, or is named by relations that cannot all
            hold. Empty where it is possible.
        decided: ``False`` where the search gave up; nothing is known then.
    """

    possible: bool
    order: tuple[str, ...]
    stuck: tuple[str, ...]
    decided: bool = True


def can_finish(
    remaining: Iterable[str], placed: Sequence[str], relations: Iterable[Relation]
) -> Completion:
    """Tell whether the ``remaining`` steps can be done after ``placed`` with all relations kept.

    A relation already broken leaves a step stuck; take such relations away first if the work has
    to go on without them.

    Args:
        remaining: steps to do.
        placed: what was done, in its order.
        relations: all count, whatever their force, but for overruled ones.
    """
    index = index_relations((*placed, *remaining), relations)
    left = index.left_after(placed)
    counted = [at for at in index.others if not index.relations[at].reason.overruled]
    if counted:
        return _with_others(index, left, placed, counted)
    active = bytearray(index.plain)
    back = order_from_back(index, left, active)
    if len(back) == sum(left):
        order = tuple(index.steps[at] for at in reversed(back))
        return Completion(possible=True, order=order, stuck=())
    core = stuck_core(index, left, active, back)
    return Completion(possible=False, order=(), stuck=tuple(index.steps[at] for at in core))


def _with_others(
    index: RelationIndex, left: bytearray, placed: Sequence[str], counted: list[int]
) -> Completion:
    active = bytearray(index.plain)
    for at in counted:
        active[at] = 1
        if is_broken_for_good(index.relations[at], placed, left, index):
            return _stuck(index, left, frozenset((at,)))
    mixed = mix(index, left, active)
    found = settle(mixed)
    if found.possible:
        order = mixed.steps_of(found.order, len(index.steps))
        steps = tuple(index.steps[at] for at in order)
        return Completion(possible=True, order=steps, stuck=())
    return _stuck(index, left, found.core, decided=found.decided)


def is_broken_for_good(
    relation: Relation, done: Sequence[str], left: bytearray, index: RelationIndex
) -> bool:
    """Tell whether what was done has broken an 'after any of' or 'together' with steps left."""
    if not isinstance(relation, AfterAny | Together):
        return False
    if not any(left[index.number[step]] for step in relation.of):
        return False
    if isinstance(relation, Together):
        return comes_between(done, relation.of) is not None
    others = relation.of - {relation.then}
    return not left[index.number[relation.then]] and all(left[index.number[s]] for s in others)


def _stuck(
    index: RelationIndex, left: bytearray, core: frozenset[int], *, decided: bool = True
) -> Completion:
    named = {index.number[step] for at in core for step in named_steps(index.relations[at])}
    stuck = tuple(step for at, step in enumerate(index.steps) if left[at] and at in named)
    return Completion(possible=False, order=(), stuck=stuck, decided=decided)
