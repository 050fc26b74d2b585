"""What doing a step now breaks."""

from collections.abc import Collection, Iterable

from armorplan.orders.setting_aside import what_still_holds
from armorplan.relations.index import RelationIndex, indexed
from armorplan.relations.model import Relation


def consequences(
    step: str, done_before: Collection[str], relations: RelationIndex | Iterable[Relation]
) -> tuple[Relation, ...]:
    """Return the binding relations that doing ``step`` right after ``done_before`` breaks.

    First those it breaks at once, because the step they put first is not done yet; then those that
    cannot be kept any more whatever follows, because a step could then never be done in a valid
    way. What was broken before is not told again. Empty where the step may come next.

    Without an index every step that a relation names counts as a step to be done.
    """
    index = indexed(relations, also=(step, *done_before))
    if step not in index.number or step in done_before:
        return ()
    left, active = index.left_after(done_before), bytearray(index.binds)
    what_still_holds(index, left, active)
    left[index.number[step]] = 0
    return tuple(index.relations[at] for at in what_still_holds(index, left, active).aside)
