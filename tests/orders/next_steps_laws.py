"""What holds of the steps that may come next, whatever kinds of relation there are."""

from hypothesis import strategies as st
from relations.relation_cases import all_orders

from armorplan.orders.next_steps import standing
from armorplan.relations.index import index_relations


def offers_exactly_what_valid_orders_go_on_with(steps, relations, data):
    valid = all_orders(steps, relations)
    order = data.draw(st.sampled_from(sorted(valid)))
    done = order[: data.draw(st.integers(0, len(steps)))]
    onward = {other[len(done)] for other in valid if other[: len(done)] == done and done != other}
    stands = standing(done, index_relations(steps, relations))
    assert set(stands.may_come_next) == onward
    assert stands.set_aside == ()
    assert set(stands.waits_for) == set(steps) - set(done) - onward
    assert all(stands.waits_for.values())


def walked(steps, relations, chance):
    """Take one of the steps offered until all are done, and return them in that order."""
    index = index_relations(steps, relations)
    done = []
    while len(done) < len(steps):
        stands = standing(done, index)
        assert stands.set_aside == ()
        done.append(chance.choice(stands.may_come_next))
    return done


def something_may_come_next_after_any_history(steps, relations, chance):
    done = chance.sample(steps, chance.randint(0, len(steps) - 1))
    stands = standing(done, index_relations(steps, relations))
    assert stands.may_come_next
    assert {*stands.may_come_next, *stands.waits_for} == set(steps) - set(done)
    assert set(stands.may_come_next).isdisjoint(stands.waits_for)
