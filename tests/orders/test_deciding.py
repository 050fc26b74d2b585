"""The solver's word where the search gives up, against the search where it does not."""

import random

import pytest
from relations.relation_cases import (
    after_any,
    all_orders,
    before,
    before_all,
    keeps,
    together,
)

from armorplan.orders import deciding
from armorplan.orders.deciding import by_solver, decide
from armorplan.orders.next_steps import standing
from armorplan.orders.sequence import one_order
from armorplan.relations.index import index_relations
from armorplan.relations.mending import LookAhead
from armorplan.relations.mixing import mix
from armorplan.relations.settling import Settled, settle

RIDDLES = (
    (together("ab"), together("bc"), after_any("d", "ac"), before("d", "b")),
    (after_any("a", "bc"), before_all("a", "bc"), after_any("b", "ad"), before_all("b", "ad")),
    (after_any("a", "bc"), before_all("a", "bc"), before("a", "b"), before("a", "c")),
)


def mixed(steps, relations):
    index = index_relations(steps, relations)
    return mix(index, index.left_after(()), bytearray(b"\x01" * len(index.relations)))


@pytest.mark.parametrize("relations", RIDDLES)
def test_the_solver_agrees_with_every_order_tried(relations):
    made = mixed("abcd", relations)
    found = by_solver(made)
    orders = all_orders("abcd", relations)
    assert found.possible == bool(orders)
    if orders:
        order = made.steps_of(found.order, 4)
        assert tuple("abcd"[at] for at in order) in orders
    else:
        assert found.core <= set(range(len(relations)))


def between(count, relations, seed):
    chance = random.Random(seed)  # noqa: S311 - the same case on every run
    steps = [f"s{at:02}" for at in range(count)]
    hidden = chance.sample(steps, count)
    made = []
    while len(made) < 2 * relations:
        low, middle, high = (hidden[p] for p in sorted(chance.sample(range(count), 3)))
        made += [after_any(middle, (low, high)), before_all(middle, (low, high))]
    return steps, made


def test_a_tangle_beyond_the_search_is_decided_by_the_solver(monkeypatch):
    steps, relations = between(30, 60, seed=2)
    made = mixed(steps, relations)
    monkeypatch.setattr(deciding, "settle", lambda *a, **k: settle(*a, **k, most_dead_ends=0))
    assert not settle(made, most_dead_ends=0).decided
    found = decide(made)
    assert found.possible
    order = [steps[at] for at in made.steps_of(found.order, len(steps))]
    assert all(keeps(order, relation) for relation in relations)
    assert decide(made) is found


def test_where_nobody_knows_the_order_says_what_it_breaks(monkeypatch):
    steps, relations = between(30, 60, seed=2)

    def give_up(made, *, first=(), order=None):
        left, active = bytearray(made.left), bytearray(made.fixed)
        plain = LookAhead(made.index, left=left, active=active).order
        return Settled(order=tuple(plain), active=made.fixed, decided=False)

    monkeypatch.setattr("armorplan.orders.mixed_sequence.decide", give_up)
    found = one_order(steps, relations, key=str)
    assert sorted(found.order) == steps
    assert found.unsettled
    assert all(not keeps(found.order, relation) for relation in found.unsettled)
    monkeypatch.setattr("armorplan.orders.setting_aside.decide", give_up)
    monkeypatch.setattr("armorplan.orders.mixed_standing.decide", give_up)
    assert standing((), index_relations(steps, relations)).may_come_next
