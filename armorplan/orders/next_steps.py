"""What may be done now, and what each other step waits for."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from armorplan.orders.look_ahead import held_back
from armorplan.orders.mixed_standing import MixedStanding
from armorplan.orders.setting_aside import what_still_holds
from armorplan.relations.index import RelationIndex, index_relations, indexed
from armorplan.relations.model import Relation


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """How the work stands after what was done.

    Attributes:
        may_come_next: steps after which all the rest can still be completed, in the steps' order.
        waits_for: by step that has to wait, the unmet relations that hold it.
        set_aside: relations that what was done has broken or made impossible to keep, in their
            order; the work goes on without them.
    """

    may_come_next: tuple[str, ...]
    waits_for: Mapping[str, tuple[Relation, ...]]
    set_aside: tuple[Relation, ...]


def standing(done: Iterable[str], index: RelationIndex) -> Standing:
    """Tell of every step left whether it may come next, and if not what it waits for.

    Only relations that bind count. A step that is the last member left of a relation waits for
    its first step; what would come between steps done in one go waits until they are done. Where nothing so near holds a step, it may still lead into a dead end: then
    those relations are named through which it would leave their first step stuck for good.

    Args:
        done: steps done; the relations among them are settled. Their order matters for 'together'
            only: has something come between?
        index: steps and relations, from ``index_relations``.
    """
    if index.mixed:
        return _mixed(tuple(done), index)
    left = index.left_after(done)
    holds = what_still_holds(index, left, bytearray(index.binds))
    waits: dict[int, list[int]] = {}
    several: set[int] = set()
    for at, members in enumerate(holds.live):
        if len(members) == 1:
            waits.setdefault(members[0], []).append(at)
        else:
            several.update(members)
    waits |= held_back(index, holds, several - waits.keys())
    relations, names = index.relations, index.steps
    return Standing(
        may_come_next=tuple(n for at, n in enumerate(names) if left[at] and at not in waits),
        waits_for={names[s]: tuple([relations[at] for at in waits[s]]) for s in sorted(waits)},
        set_aside=tuple(relations[at] for at in sorted(holds.aside)),
    )


def _mixed(done: tuple[str, ...], index: RelationIndex) -> Standing:
    """Do the same where 'after any of' or 'together' bind."""
    stands = MixedStanding(index, done)
    relations, names = index.relations, index.steps
    return Standing(
        may_come_next=tuple(names[at] for at in sorted(stands.may)),
        waits_for={
            names[at]: tuple(relations[r] for r in found)
            for at, found in sorted(stands.waits.items())
        },
        set_aside=tuple(relations[at] for at in sorted(stands.aside)),
    )


def may_come_next(
    done: Collection[str], steps: Iterable[str], relations: Iterable[Relation]
) -> tuple[str, ...]:
    """Return the steps from which the whole can still be completed, in the steps' order.

    Relations that ``done`` has already broken, or made impossible to keep, are set aside.
    For many questions about one set of relations use ``standing`` with an index.
    """
    return standing(done, index_relations(steps, relations)).may_come_next


def waits_for(
    step: str, done: Collection[str], relations: RelationIndex | Iterable[Relation]
) -> tuple[Relation, ...]:
    """Return the unmet binding relations that hold a step back; empty where it may come next.

    Without an index every step that a relation names counts as a step to be done.
    """
    index = indexed(relations, also=(step, *done))
    return standing(done, index).waits_for.get(step, ())
