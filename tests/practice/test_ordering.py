from relations.relation_cases import after_any, before, before_all, together

from armorplan.practice.ordering import Exercise, judge


def test_a_right_answer_is_told_so():
    exercise = Exercise(before=("a",), shown=("c", "b"), after=("d",))
    judged = judge(exercise, "bc", (before("b", "c"),))
    assert judged.right
    assert judged.repair.moved == ()
    assert judged.first_break is None
    assert judged.sentence == "Right: this order keeps every relation that binds."


def test_a_wrong_answer_gets_the_reason_and_the_fewest_moves():
    exercise = Exercise(before=("a",), shown=("c", "b", "x"), after=("d",))
    titles = {"b": "Set the strap", "c": "Close the cop"}
    relation = before("b", "c", text="No anvil reaches it once the cop is closed.")
    judged = judge(exercise, "cxb", (relation,), name=titles.get)
    assert not judged.right
    assert judged.first_break.at == 0
    assert judged.first_break.relation == relation
    assert len(judged.repair.moved) == 1
    assert judged.repair.exact
    assert judged.sentence == (
        "'Close the cop' comes too early, before 'Set the strap'. "
        "No anvil reaches it once the cop is closed."
    )


def test_what_came_before_the_stretch_counts():
    exercise = Exercise(before=("a",), shown=("b", "c"))
    relation = before_all("c", "ab")
    assert judge(exercise, "cb", (relation,)).right
    assert not judge(exercise, "bc", (relation,)).right


def test_other_steps_than_asked_are_told():
    exercise = Exercise(shown=("b", "a"))
    relations = (before("a", "b"),)
    assert judge(exercise, "abz", relations).sentence == "Not a step of this exercise: 'z'."
    assert judge(exercise, "aba", relations).sentence == "More than once: 'a'."
    missing = judge(exercise, "a", relations)
    assert not missing.right
    assert missing.sentence == "Missing: 'b'."
    assert missing.repair is None


def test_other_kinds_are_told_in_their_own_words():
    exercise = Exercise(shown=("b", "a", "c"))
    judged = judge(exercise, "acb", (together("ab"),))
    assert judged.sentence == "'c' comes between 'a', 'b'. a reason"
    judged = judge(exercise, "abc", (after_any("a", "bc"),))
    assert judged.sentence == "'a' comes too early, before any of 'b', 'c'. a reason"
