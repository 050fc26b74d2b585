"""Small posets for exercises, and second opinions on them by trying every order."""

from itertools import combinations, permutations

from relations.relation_cases import before, keeps

from armorplan.practice.few_orders import FewOrders


def few_of(steps, pairs):
    """Return the right orders of steps of which the first of each pair comes before the second."""
    ids = [str(step) for step in steps]
    return FewOrders(ids, [before(str(a), str(b)) for a, b in pairs])


def right_orders(steps, relations):
    return [o for o in permutations(steps) if all(keeps(o, each) for each in relations)]


def moves_between(answer, order):
    """The fewest steps to take out and put elsewhere: all but a longest common stretch."""
    best = 0
    place = {step: at for at, step in enumerate(order)}
    for size in range(len(answer), 0, -1):
        stays = combinations([place[step] for step in answer], size)
        if any(list(some) == sorted(some) for some in stays):
            best = size
            break
    return len(answer) - best


def turned(answer, order):
    """The pairs that stand the other way round, one by one."""
    return sum(order.index(a) > order.index(b) for a, b in combinations(answer, 2))
