"""Which groups of steps cannot be done in one go, since another step has to come between."""

from collections.abc import Collection, Iterable, Mapping, Sequence

from armorplan.relations.index import RelationIndex


def parted_groups(
    index: RelationIndex,
    counted: Sequence[int],
    order: Iterable[int],
    groups: Mapping[int, Collection[int]],
) -> frozenset[int]:
    """Return the groups one step of which comes before a step outside, and that before another.

    Only steps that come before one other step are followed, so that a group may be parted and not
    be among these. Sets of steps are the bits of whole numbers, which takes milliseconds where a
    walk from each group would take seconds.

    Args:
        index: steps and relations.
        counted: by relation, 1 where it is kept.
        order: the steps in an order that keeps these relations.
        groups: by any number, the steps to be done in one go.
    """
    steps = tuple(order)
    behind, ahead = [0] * len(index.steps), [0] * len(index.steps)
    for step in reversed(steps):
        for at in index.by_first[step]:
            if counted[at] and len(index.members[at]) == 1:
                then = index.members[at][0]
                behind[step] |= behind[then] | 1 << then
    for step in steps:
        for at in index.by_member[step]:
            if counted[at] and len(index.members[at]) == 1:
                first = index.firsts[at]
                ahead[step] |= ahead[first] | 1 << first
    return frozenset(at for at, group in groups.items() if _between(group, behind, ahead))


def _between(group: Collection[int], behind: Sequence[int], ahead: Sequence[int]) -> int:
    after = before = inside = 0
    for step in group:
        after |= behind[step]
        before |= ahead[step]
        inside |= 1 << step
    return after & before & ~inside
