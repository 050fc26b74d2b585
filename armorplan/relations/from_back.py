"""Building an order from its back: exact for 'before' and 'before all of', linear in their size.

Relations of these two kinds are precedence with AND and OR, read backwards. A step may be the last
of those left if every relation in which it comes first has a member placed behind it already.
Placing more steps behind never takes this leave away, so the words one can build form an
antimatroid: it does not matter which of the allowed steps is taken, the same set is placed in the
end, and if any order exists this one is found. Whatever cannot be placed can never be done. So no
search and no solver is needed. Source: R. H. Möhring, M. Skutella, F. Stork, 'Scheduling with
AND/OR precedence constraints', SIAM Journal on Computing 33(2), 2004 (cited from memory).

The same holds after a part of the order was done: members done already drop out of their relation,
since the last member is among those left; a relation whose first step is done is kept or broken
for good. What is left is a smaller problem of the same kind.
"""

from itertools import compress

from armorplan.relations.index import RelationIndex


def order_from_back(index: RelationIndex, left: bytearray, active: bytearray) -> list[int]:
    """Return the steps that can be placed from the back, the very last first.

    Args:
        index: steps and relations.
        left: by step, 1 where it is still to do.
        active: by relation, 1 where it counts.
    """
    unmet = [0] * len(index.steps)
    for first in compress(index.firsts, active):
        unmet[first] += 1
    queue = [at for at in range(len(unmet) - 1, -1, -1) if left[at] and not unmet[at]]
    unkept = bytearray(active)
    for step in queue:
        for at in index.by_member[step]:
            if unkept[at]:
                unkept[at] = 0
                first = index.firsts[at]
                unmet[first] -= 1
                if left[first] and not unmet[first]:
                    queue.append(first)
    return queue
