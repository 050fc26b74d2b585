from dataclasses import replace

from hypothesis import given
from relations.conflict_law import is_satisfiable_or_a_true_conflict
from relations.relation_cases import before, before_all, relation_sets

from armorplan.relations.conflict import conflict_words, find_conflict
from armorplan.relations.model import OWN, Before, Force


def test_no_conflict_where_an_order_exists():
    assert find_conflict("abc", (before("a", "b"), before_all("b", "ac"))) == ()
    assert conflict_words((), str) == ""


def test_the_shortest_ring_is_named():
    long = (before("a", "b"), before("b", "c"), before("c", "d"), before("d", "a"))
    short = (before("e", "f"), before("f", "g"), before("g", "e"))
    assert set(find_conflict("abcdefg", (*long, *short))) == set(short)


def test_a_shorter_ring_through_the_same_steps_is_found():
    ring = (before("a", "b"), before("b", "c"), before("c", "d"), before("d", "a"))
    back = before("c", "b")
    assert set(find_conflict("abcd", (*ring, back))) == {ring[1], back}


def test_of_relations_that_say_the_same_the_heaviest_is_named():
    light, heavy = before("a", "b", Force.SPOIL), before("a", "b", Force.CANNOT)
    assert heavy in find_conflict("ab", (light, heavy, before("b", "a")))


def test_a_conflict_through_before_all_is_as_small_as_can_be():
    relations = (
        before_all("f", "xy"),
        before("x", "f"),
        before("y", "f"),
        before("x", "y"),
        before("a", "f"),
    )
    assert set(find_conflict("afxy", relations)) == set(relations[:3])


def test_what_can_never_hold_is_a_conflict_by_itself():
    alone = before("a", "a", text="A says so.")
    assert find_conflict("ab", (before("a", "b"), before("b", "a"), alone)) == (alone,)
    assert "can never hold" in conflict_words((alone,), str)
    assert find_conflict("ab", (before_all("a", "a"),)) == (before_all("a", "a"),)


def test_words_name_every_relation_and_the_lightest():
    titles = {"a": "Set the strap", "b": "Close the cop", "c": "Curve the plate"}
    words = conflict_words(
        (
            before("a", "b", Force.CANNOT, "No anvil reaches it"),
            before_all("b", "ac", Force.SPOIL, "The dye would crack."),
        ),
        titles.__getitem__,
    )
    assert words.startswith("These 2 cannot all hold:")
    assert "(1) 'Set the strap' before 'Close the cop' (cannot): No anvil reaches it." in words
    assert (
        "(2) 'Close the cop' before the last of 'Set the strap', 'Curve the plate' "
        "(would spoil): The dye would crack." in words
    )
    assert "The least to give up is (2): breaking it would spoil work" in words


def test_of_equals_words_point_at_the_makers_own():
    trade = before("a", "b", text="A has to be cut first.")
    own = Before(
        first="b", then="a", reason=replace(trade.reason, rule=f"{OWN}mine", text="Mine.")
    )
    words = conflict_words((trade, own), str)
    assert "The least to give up is (2), your own relation 'mine': even that one" in words


@given(relation_sets(most_relations=12))
def test_satisfiable_or_a_true_conflict_of_which_none_can_be_left_out(case):
    is_satisfiable_or_a_true_conflict(*case)
