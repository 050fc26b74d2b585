"""The mended order and the sweep against a fresh look at what is left, on sets too big to try."""

import random

import pytest
from relations.relation_cases import all_orders, before, before_all, keeps, way_on

from armorplan.orders.next_steps import standing
from armorplan.orders.sequence import one_order
from armorplan.relations.checking import breaks
from armorplan.relations.conflict import find_conflict
from armorplan.relations.index import index_relations
from armorplan.relations.mending import LookAhead
from armorplan.relations.model import Force


def tangled(seed, *, steps, relations, reach, soft=0, sizes=(1, 1, 2, 3)):
    """Return relations that a hidden order keeps, near each other in it; soft ones as they fall."""
    chance = random.Random(seed)  # noqa: S311 - the same case on every run
    ids = [f"s{at:02}" for at in range(steps)]
    hidden = chance.sample(ids, steps)
    made = []
    while len(made) < relations:
        at = chance.randrange(steps)
        near = hidden[max(0, at - reach) : at] + hidden[at + 1 : at + 1 + reach]
        members = chance.sample(near, min(len(near), chance.choice(sizes)))
        relation = before_all(hidden[at], members)
        if len(made) < soft:
            made.append(before_all(hidden[at], members, Force.USUAL))
        elif keeps(hidden, relation):
            made.append(before(hidden[at], members[0]) if len(members) == 1 else relation)
    return ids, made


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize(("number", "plain"), [(60, True), (60, False), (90, False)])
def test_taking_steps_agrees_with_a_fresh_look(seed, number, plain):
    sizes = (1, 1, 2, 3) if plain else (2, 2, 3, 4)
    steps, relations = tangled(seed, steps=30, relations=number, reach=6, sizes=sizes)
    index = index_relations(steps, relations)
    left = index.left_after(())
    look = LookAhead(index, left=left, active=bytearray(index.binds))
    chance = random.Random(seed)  # noqa: S311 - the same case on every run
    done = []
    assert look.possible
    while len(done) < len(steps):
        may = set(standing(done, index).may_come_next)
        to_do = [step for step in steps if step not in done]
        for step in chance.sample(to_do, len(to_do)):
            others = [other for other in to_do if other != step]
            possible = way_on(others, relations, after=[*done, step]) is not None
            assert possible == (step in may)
            assert look.take(index.number[step]) == possible
            onward = [steps[at] for at in look.order if left[at]]
            if possible:
                done.append(step)
            assert breaks(done + onward, relations) == ()
            assert len(done + onward) == len(steps)
            if possible:
                break


@pytest.mark.parametrize("seed", range(12))
def test_what_steers_is_added_when_and_only_when_it_fits(seed):
    steps, relations = tangled(seed, steps=30, relations=70, reach=8, soft=30)
    found = one_order(steps, relations, key=str)
    kept = [r for r in relations if r.reason.force.binds]
    dropped = []
    for relation in relations:
        if not relation.reason.force.binds:
            fits = not find_conflict(steps, [*kept, relation])
            (kept if fits else dropped).append(relation)
    assert found.dropped == tuple(dropped)
    assert breaks(found.order, kept) == ()
    assert dropped


@pytest.mark.long
def test_seven_steps_against_every_order():
    for seed in range(400):
        steps, relations = tangled(seed, steps=7, relations=8, reach=7)
        valid = all_orders(steps, relations)
        index = index_relations(steps, relations)
        assert one_order(steps, relations, key=str).order == min(valid)
        for done in {order[:at] for order in sorted(valid)[::50] for at in range(7)}:
            onward = {order[len(done)] for order in valid if order[: len(done)] == done}
            assert set(standing(done, index).may_come_next) == onward
