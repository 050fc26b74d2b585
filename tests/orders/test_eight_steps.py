"""Eight steps and every kind of relation against all 40,320 orders."""

import random

import pytest
from relations.relation_cases import after_any, all_orders, before, before_all, together

from armorplan.orders.next_steps import standing
from armorplan.orders.repairing import smallest_repair
from armorplan.orders.sequence import one_order
from armorplan.relations.counting import count_orders
from armorplan.relations.index import index_relations

STEPS = tuple("abcdefgh")


def drawn(chance):
    """Return seven relations of the kinds that leave a choice, and two plain ones."""
    made = []
    for kind in chance.choices((before_all, after_any, together), k=7):
        picked = chance.sample(STEPS, chance.randint(3, 4))
        made.append(kind(picked[1:]) if kind is together else kind(picked[0], picked[1:]))
    return (*made, *(before(*chance.sample(STEPS, 2)) for _ in range(2)))


def gaps(one, other):
    """Return how many steps of ``one`` stand otherwise in ``other``, the fewest that can be picked."""
    place = {step: at for at, step in enumerate(other)}
    best = []
    for step in one:
        at = place[step]
        best.append((1 + max((n for n, p in best if p < at), default=0), at))
    return len(one) - max(n for n, _ in best)


@pytest.mark.parametrize("seed", range(12))
def test_everything_agrees_with_every_order(seed):
    chance = random.Random(seed)  # noqa: S311 - the same case on every run
    relations = drawn(chance)
    valid = all_orders(STEPS, relations)
    found = one_order(STEPS, relations, key=str)
    assert count_orders(STEPS, relations).number == len(valid)
    assert bool(found.conflict) == (not valid)
    if not valid:
        return
    assert found.order in valid
    given = chance.sample(STEPS, len(STEPS))
    repair = smallest_repair(given, relations)
    assert repair.order in valid
    assert repair.exact
    assert len(repair.moved) == min(gaps(given, other) for other in valid)
    index = index_relations(STEPS, relations)
    order = chance.choice(sorted(valid))
    for count in range(len(STEPS)):
        done = order[:count]
        onward = {other[count] for other in valid if other[:count] == done}
        assert set(standing(done, index).may_come_next) == onward
