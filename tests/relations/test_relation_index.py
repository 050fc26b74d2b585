from relations.relation_cases import before, before_all

from armorplan.relations.index import (
    first_and_members,
    index_relations,
    indexed,
    known_relations,
    named_steps,
    unknown_steps,
)


def test_both_kinds_have_one_shape():
    assert first_and_members(before("a", "b")) == ("a", frozenset("b"))
    assert first_and_members(before_all("a", "bc")) == ("a", frozenset("bc"))


def test_a_step_is_never_its_own_member():
    assert first_and_members(before("a", "a")) == ("a", frozenset())
    assert first_and_members(before_all("a", "ab")) == ("a", frozenset("b"))


def test_named_steps_are_all_of_them():
    assert named_steps(before_all("a", "ab")) == {"a", "b"}
    assert named_steps(before("a", "b")) == {"a", "b"}


def test_unknown_steps_are_reported_and_their_relations_left_out():
    relations = (before("a", "b"), before("a", "ghost"), before_all("b", ("a", "spirit")))
    assert unknown_steps("ab", relations) == ("ghost", "spirit")
    assert known_relations("ab", relations) == relations[:1]
    assert index_relations("ab", relations).relations == relations[:1]


def test_index_looks_up_by_step():
    relations = (before("c", "a"), before_all("b", "ac"))
    index = index_relations("abca", relations)
    assert index.steps == ("a", "b", "c")
    assert index.by_first == ((), (1,), (0,))
    assert index.by_member == ((0, 1), (), (1,))
    assert index.members == ((0,), (0, 2))
    assert list(index.left_after(("b", "nobody"))) == [1, 0, 1]


def test_an_index_is_taken_as_it_is_and_relations_over_the_steps_they_name():
    index = index_relations("ab", ())
    assert indexed(index, also="z") is index
    assert indexed((before("c", "a"),), also="z").steps == ("z", "a", "c")
