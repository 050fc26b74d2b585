from hypothesis import given
from relations.relation_cases import all_orders, before, before_all, kept_sets, relation_sets

from armorplan.orders.sequence import one_order
from armorplan.relations.index import index_relations
from armorplan.relations.model import Force
from armorplan.relations.weighing import binding, weight


def test_the_smallest_key_that_may_come_next_is_taken():
    relations = (before("d", "a"),)
    assert one_order("abcd", relations, key=str).order == tuple("bcda")
    assert one_order("abcd", relations, key=lambda step: -ord(step)).order == tuple("dcba")


def test_equal_keys_keep_the_order_given():
    assert one_order("cab", (), key=lambda _: 0).order == tuple("cab")


def test_a_step_that_would_lead_into_a_dead_end_is_held_back():
    # Taken first, a would leave f to come before b, and b has to come before f.
    relations = (before_all("f", "ab"), before("b", "f"))
    assert one_order("abf", relations, key=str).order == tuple("bfa")


def test_relations_that_steer_are_kept_where_they_fit():
    found = one_order("abc", (before("c", "a", Force.USUAL),), key=str)
    assert found.order == tuple("bca")
    assert found.dropped == ()


def test_relations_that_steer_never_beat_those_that_bind():
    steering = before("b", "a", Force.EASIER, price_min=90)
    found = one_order("ab", (steering, before("a", "b", Force.SPOIL)), key=str)
    assert found.order == tuple("ab")
    assert found.dropped == (steering,)
    assert found.conflict == ()


def test_of_relations_that_steer_the_dearest_is_kept():
    cheap = before("a", "b", Force.EASIER, price_min=2)
    dear = before("b", "a", Force.EASIER, price_min=4)
    usual = before("a", "b", Force.USUAL, text="mostly so")
    found = one_order("ab", (usual, cheap, dear), key=str)
    assert found.order == tuple("ba")
    assert found.dropped == (cheap, usual)


def test_a_conflict_comes_back_as_relations():
    relations = (before("a", "b"), before("b", "a"), before("c", "a", Force.USUAL))
    found = one_order("abc", relations, key=str)
    assert found.order == ()
    assert set(found.conflict) == set(relations[:2])


def test_relations_about_other_steps_are_left_out():
    assert one_order("ab", (before("b", "z"), before("z", "a")), key=str).order == tuple("ab")


@given(relation_sets())
def test_it_is_the_least_of_all_valid_orders(case):
    steps, relations = case
    valid = all_orders(steps, relations)
    found = one_order(steps, relations, key=str)
    assert found.order == min(valid, default=())
    assert bool(found.conflict) != bool(valid)


@given(kept_sets(most_relations=12, forces=tuple(Force)) | relation_sets(forces=tuple(Force)))
def test_what_is_dropped_did_not_fit_beside_heavier_ones(case):
    steps, relations = case
    found = one_order(steps, relations, key=str)
    kept = list(binding(relations))
    if not all_orders(steps, kept):
        assert not found.order
        return
    dropped = []
    soft = [r for r in index_relations(steps, relations).relations if not r.reason.force.binds]
    for relation in sorted(soft, key=weight, reverse=True):
        if all_orders(steps, [*kept, relation]):
            kept.append(relation)
        else:
            dropped.append(relation)
    assert found.dropped == tuple(dropped)
    assert found.order == min(all_orders(steps, kept))
