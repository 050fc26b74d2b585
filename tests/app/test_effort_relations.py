"""What relations between steps say of what is set in one go."""

from hypothesis import given
from relations.relation_cases import after_any, all_orders, before, before_all, relation_sets

from armorplan.app.effort_relations import hard_pairs, hard_sets, knotted, priced
from armorplan.relations.model import Before, Force

HOME = {"a1": "A", "a2": "A", "b": "B", "c": "C"}


def test_what_comes_before_goes_through_other_steps():
    assert hard_pairs([before("a1", "dry"), before("dry", "b")], HOME) == (("A", "B"),)


def test_one_go_is_not_before_itself():
    assert hard_pairs([before("a1", "a2"), before("a2", "c")], HOME) == (("A", "C"),)


def test_what_only_steers_or_is_overruled_forces_nothing():
    steers = before("a1", "b", Force.EASIER, price_min=3)
    overruled = before("a1", "c", overruled=True)
    assert hard_pairs([steers, overruled], HOME) == ()


def test_a_ring_has_no_order():
    assert hard_pairs([before("a1", "b"), before("b", "a1")], HOME) is None


def test_two_that_come_between_each_other_are_no_one_go():
    pairs = hard_pairs([before("a1", "b"), before("b", "a2"), before("b", "c")], HOME)
    assert knotted(pairs) == {"A", "B"}


def test_before_the_last_of_others_is_told_by_what_is_set_in_one_go():
    found = hard_sets([before_all("c", ["a1", "a2", "b"]), after_any("b", ["a1"])], HOME)
    assert found == (("C", frozenset("AB")),)


def test_before_the_last_of_a_set_that_holds_its_own_go_asks_nothing_of_the_others():
    assert hard_sets([before_all("a1", ["a2", "b"])], HOME) == ()


def test_the_price_of_what_is_easier_counts_but_not_twice_what_reach_tells():
    wish = before("c", "b", Force.EASIER, price_min=3)
    (rise,) = priced([wish], HOME)
    assert (rise.atom, rise.after, rise.minutes) == ("C", {"B"}, 3)
    told = Before(
        first="c", then="b", reason=_renamed(before("c", "b", Force.EASIER, price_min=3).reason)
    )
    assert priced([told], HOME) == ()


def test_one_price_for_each_joint_of_a_row_is_one_price_for_the_row():
    wishes = [before("c", then, Force.EASIER, price_min=3) for then in ("a1", "a2")]
    assert len(priced(wishes, HOME)) == 1


def _renamed(reason):
    return type(reason)(
        rule="easier-while-open",
        text=reason.text,
        force=reason.force,
        source=reason.source,
        price_min=reason.price_min,
    )


@given(relation_sets())
def test_whatever_order_keeps_the_relations_keeps_what_is_read_from_them(drawn):
    steps, relations = drawn
    pairs = hard_pairs(relations, {step: step for step in steps})
    orders = all_orders(steps, relations)
    if pairs is None:
        assert not orders
        return
    sets = hard_sets(relations, {step: step for step in steps})
    for order in orders:
        assert all(order.index(first) < order.index(then) for first, then in pairs)
        assert all(any(order.index(a) < order.index(b) for b in of) for a, of in sets)


@given(relation_sets())
def test_whatever_order_keeps_what_is_read_keeps_the_relations(drawn):
    steps, relations = drawn
    pairs = hard_pairs(relations, {step: step for step in steps})
    if pairs is None or any(_asks_the_impossible(relation) for relation in relations):
        return
    read = [before(first, then) for first, then in pairs]
    read += [before_all(first, of) for first, of in hard_sets(relations, {s: s for s in steps})]
    kept = [r for r in relations if isinstance(r, Before) or r.first not in r.of]
    assert all_orders(steps, read) <= all_orders(steps, kept)


def _asks_the_impossible(relation):
    of = {relation.then} if isinstance(relation, Before) else relation.of
    return of <= {relation.first}
