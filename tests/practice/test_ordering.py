from itertools import combinations, pairwise, permutations

from hypothesis import assume, given
from hypothesis import strategies as st
from relations.relation_cases import all_orders, before, before_all, kept_sets

from armorplan.practice.ordering import MOST_TO_MOVE, Exercise, judge, make_exercise
from armorplan.relations.model import Force


def test_nothing_to_drill_where_nothing_can_go_wrong():
    assert make_exercise("abc", (), seed=1) is None
    assert make_exercise("abc", (before("a", "b", Force.USUAL),), seed=1) is None
    assert make_exercise("abcdef", (before("a", "f"),), seed=1, length=3) is None


def test_the_same_seed_makes_the_same_exercise():
    order = tuple("abcdefg")
    relations = [before(a, b) for a, b in pairwise(order)]
    made = {make_exercise(order, relations, seed=seed, length=3) for seed in range(20)}
    assert make_exercise(order, relations, seed=3, length=3) in made
    assert len(made) > 5


def test_a_right_answer_is_told_so():
    exercise = Exercise(before=("a",), shown=("c", "b"), after=("d",))
    judged = judge(exercise, "bc", (before("b", "c"),))
    assert judged.right
    assert judged.moves == 0
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
    assert judged.moves == 1
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
    assert missing.moves is None


def test_a_long_answer_is_judged_without_the_moves():
    steps = tuple(f"s{at:02}" for at in range(MOST_TO_MOVE + 1))
    judged = judge(Exercise(shown=steps), steps[::-1], (before(steps[0], steps[1]),))
    assert not judged.right
    assert judged.moves is None


@given(kept_sets(), st.integers(0, 1000), st.integers(2, 5))
def test_an_exercise_is_a_stretch_shown_wrong_that_can_be_put_right(case, seed, length):
    steps, relations = case
    valid = all_orders(steps, relations)
    order = min(valid)
    exercise = make_exercise(order, relations, seed=seed, length=length)
    assume(exercise)
    inner = order[len(exercise.before) : len(exercise.before) + len(exercise.shown)]
    assert exercise.before + inner + exercise.after == order
    assert sorted(exercise.shown) == sorted(inner)
    assert len(inner) == min(length, len(steps))
    assert not judge(exercise, exercise.shown, relations).right
    assert judge(exercise, inner, relations).right


@given(kept_sets(most_steps=5), st.randoms(use_true_random=False))
def test_the_moves_are_the_fewest_by_trying_every_order(case, random):
    steps, relations = case
    valid = all_orders(steps, relations)
    order = random.choice(sorted(valid))
    at = random.randint(0, len(order) - 1)
    size = random.randint(1, len(order) - at)
    exercise = Exercise(before=order[:at], shown=order[at : at + size], after=order[at + size :])
    answer = tuple(random.sample(exercise.shown, size))
    right = {
        middle
        for middle in permutations(exercise.shown)
        if exercise.before + middle + exercise.after in valid
    }
    judged = judge(exercise, answer, relations)
    assert judged.right == (answer in right)
    assert judged.moves == min(size - longest_in_common(answer, other) for other in right)


def longest_in_common(one, other):
    """Return how many steps stand in the same order in both, as many as can be picked."""
    return next(
        count
        for count in range(len(one), -1, -1)
        for picked in combinations(one, count)
        if [step for step in other if step in picked] == list(picked)
    )
