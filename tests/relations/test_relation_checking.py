from hypothesis import given
from hypothesis import strategies as st
from relations.relation_cases import all_orders, before, before_all, keeps, relation_sets

from armorplan.relations.checking import (
    Break,
    breaks,
    breaks_of_prefix,
    breaks_so_far,
    comes_between,
    first_break,
)
from armorplan.relations.index import index_relations
from armorplan.relations.model import Force, Reason, Together


def test_a_before_is_broken_where_the_later_step_stands():
    relation = before("a", "b")
    assert breaks("cba", (relation,)) == (Break(relation=relation, at=1, step="b"),)
    assert breaks("acb", (relation,)) == ()


def test_a_before_all_is_broken_by_the_last_of_its_members():
    relation = before_all("a", "bc")
    assert breaks("bacd", (relation,)) == ()
    assert breaks("bdca", (relation,)) == (Break(relation=relation, at=2, step="c"),)


def test_breaks_come_in_order_of_occurrence():
    late, soon = before("a", "d"), before("c", "b")
    assert [b.relation for b in breaks("bdac", (late, soon))] == [soon, late]
    assert first_break("bdac", (late, soon)).step == "b"
    assert first_break("cabd", (late, soon)) is None


def test_relations_about_absent_steps_say_nothing_of_a_whole_order():
    assert breaks("b", (before("a", "b"), before_all("a", "b"))) == ()


def test_a_prefix_knows_only_what_is_already_broken():
    both = (before("a", "b"), before_all("a", "bc"))
    assert breaks_of_prefix((), both) == ()
    assert breaks_of_prefix("b", both) == (Break(relation=both[0], at=0, step="b"),)
    assert [b.at for b in breaks_of_prefix("bc", both)] == [0, 1]
    assert [b.at for b in breaks_of_prefix("bca", both)] == [0, 1]


def test_the_first_place_of_a_repeated_step_counts():
    assert breaks("aba", (before("a", "b"),)) == ()


def test_what_can_never_be_kept_is_broken_at_its_own_step():
    relation = before("a", "a")
    assert breaks("ba", (relation,)) == (Break(relation=relation, at=1, step="a"),)
    assert breaks_of_prefix("b", (relation,)) == ()


@given(relation_sets(), st.randoms(use_true_random=False))
def test_breaks_are_the_relations_an_order_does_not_keep(case, random):
    steps, relations = case
    order = tuple(random.sample(steps, len(steps)))
    found = breaks(order, relations)
    assert sorted(map(repr, (b.relation for b in found))) == sorted(
        repr(r) for r in relations if not keeps(order, r)
    )
    assert [b.at for b in found] == sorted(b.at for b in found)
    assert all(order[b.at] == b.step for b in found)


@given(relation_sets(most_steps=5), st.randoms(use_true_random=False))
def test_a_prefix_breaks_what_no_continuation_keeps(case, random):
    steps, relations = case
    done = tuple(random.sample(steps, random.randint(0, len(steps))))
    broken = {b.relation for b in breaks_of_prefix(done, relations)}
    for relation in relations:
        kept_later = any(order[: len(done)] == done for order in all_orders(steps, (relation,)))
        possible_at_all = bool(all_orders(steps, (relation,)))
        assert not (relation in broken and kept_later)
        assert relation in broken or kept_later or not possible_at_all


@given(relation_sets(most_relations=12), st.randoms(use_true_random=False))
def test_an_index_tells_the_same_breaks(case, random):
    steps, relations = case
    index = index_relations(steps, relations)
    done = [*random.sample(steps, random.randint(0, len(steps))), steps[0], steps[-1]]
    assert breaks_so_far(done, index) == breaks_of_prefix(done, index.relations)


@given(
    st.lists(st.sampled_from("abcdefg"), max_size=9), st.frozensets(st.sampled_from("abcdefgh"))
)
def test_what_comes_between_is_told_by_places_as_by_a_walk(done, of):
    reason = Reason(rule="r", text="t", force=Force.CANNOT, source="made up")
    relation = Together(of=of, reason=reason)
    found = [b.at for b in breaks_of_prefix(done, (relation,))]
    at = comes_between(done, of)
    assert found == ([] if at is None else [at])
