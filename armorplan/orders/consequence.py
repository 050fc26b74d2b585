"""What doing steps now breaks."""

from collections.abc import Collection, Iterable, Iterator

from armorplan.orders.setting_aside import binding_after, what_mix_holds, what_still_holds
from armorplan.relations.index import RelationIndex, indexed
from armorplan.relations.model import AfterAny, Relation, Together


def consequences(
    step: str, done_before: Collection[str], relations: RelationIndex | Iterable[Relation]
) -> tuple[Relation, ...]:
    """Return the binding relations that doing ``step`` right after ``done_before`` breaks.

    First those it breaks at once, because the step they put first is not done yet or because it
    comes between steps done in one go; then those that cannot be kept any more whatever follows,
    because a step could then never be done in a valid way. What was broken before is not told
    again. Empty where the step may come next.

    Without an index every step that a relation names counts as a step to be done.
    """
    return consequences_of_all((step,), done_before, relations)


def consequences_of_all(
    steps: Iterable[str],
    done_before: Collection[str],
    relations: RelationIndex | Iterable[Relation],
) -> tuple[Relation, ...]:
    """Return the binding relations that doing ``steps``, one after the other, breaks.

    As ``consequences`` for each of them in its turn, but what can never be kept any more is looked
    for once, after the last of them. So a tray of hundreds costs little more than a single step.
    Steps already done and unknown ones are passed over.
    """
    chosen = tuple(dict.fromkeys(steps))
    index = indexed(relations, also=(*chosen, *done_before))
    left = index.left_after(done_before)
    numbers = [index.number[step] for step in chosen if step in index.number]
    todo = [number for number in numbers if left[number]]
    if not todo:
        return ()
    active = binding_after(index, tuple(done_before), left).active
    _set_aside(index, left, active)
    broken: list[int] = []
    for number in todo:
        late = _others_broken_by(index, number, left, active)
        left[number] = 0
        for at in (*_broken_by(index, number, left, active), *late):
            active[at] = 0
            broken.append(at)
    broken.extend(_set_aside(index, left, active))
    return tuple(index.relations[at] for at in broken)


def _set_aside(index: RelationIndex, left: bytearray, active: bytearray) -> tuple[int, ...]:
    """Switch off and return the relations that cannot be kept any more."""
    look = what_mix_holds if any(active[at] for at in index.others) else what_still_holds
    return look(index, left, active).aside


def _others_broken_by(
    index: RelationIndex, number: int, left: bytearray, active: bytearray
) -> tuple[int, ...]:
    """Return the relations 'after any of' and 'together' that doing a step next breaks at once."""
    step, found = index.steps[number], []
    for at in index.others:
        relation = index.relations[at]
        if not active[at] or not isinstance(relation, AfterAny | Together):
            continue
        todo = [left[index.number[other]] for other in relation.of - {step}]
        if isinstance(relation, AfterAny):
            is_broken = relation.then == step and all(todo)
        else:
            is_broken = step not in relation.of and any(todo) and not all(todo)
        if is_broken:
            found.append(at)
    return tuple(found)


def _broken_by(
    index: RelationIndex, number: int, left: bytearray, active: bytearray
) -> Iterator[int]:
    """Yield the relations of which a step just done was the last member, their first still left."""
    for at in index.by_member[number]:
        if active[at] and left[index.firsts[at]] and not any(left[m] for m in index.members[at]):
            yield at
