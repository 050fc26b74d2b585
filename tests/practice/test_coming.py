"""What comes next: missed before due before new before sure; never the same twice running."""

from collections import Counter
from datetime import UTC, datetime, timedelta
from itertools import pairwise

from hypothesis import assume, given
from hypothesis import strategies as st

from armorplan.practice.coming import (
    Askable,
    coming,
    in_turn,
    kinds_in_turn,
    kinds_waiting,
    level_for,
    next_seed,
)
from armorplan.practice.drill import Asked, DrillKind, Level
from armorplan.practice.grades import Grade, Review
from armorplan.practice.memory import is_due, met, remembered, sits

START = datetime(2027, 3, 1, 9, tzinfo=UTC)
NOW = START + timedelta(days=60)
KINDS = tuple(DrillKind)
RULES = [f"rule-{letter}" for letter in "abcdefgh"]

grades = st.sampled_from(list(Grade))
kinds = st.lists(st.sampled_from(KINDS), unique=True, min_size=1)


@st.composite
def persons(draw):
    """Reasons that can be asked, and how some of them sit."""
    rules = draw(st.lists(st.sampled_from(RULES), unique=True, min_size=1))
    reasons, memories = [], {}
    for rule in rules:
        reasons.append(
            Askable(key=rule, rule=rule, binds=draw(st.integers(0, 3)), kinds=tuple(draw(kinds)))
        )
        days = sorted(draw(st.lists(st.integers(0, 60), max_size=5)))
        known = [Review(at=START + timedelta(days=day), grade=draw(grades)) for day in days]
        if known:
            memories[rule] = remembered(known, NOW)
    return reasons, memories


def rank(reason, memories):
    """Which of the four groups a reason stands in, as a person would say it."""
    memory = memories.get(reason.key)
    if memory is None:
        return "new"
    if memory.last is Grade.MISSED:
        return "missed"
    return "due" if is_due(memory, NOW) else "sure"


@given(persons())
def test_missed_comes_before_due_before_new_before_the_rest(person):
    reasons, memories = person
    turn = in_turn(reasons, memories, NOW)
    assert sorted(turn, key=lambda one: one.key) == sorted(reasons, key=lambda one: one.key)
    order = ["missed", "due", "new", "sure"]
    ranks = [order.index(rank(reason, memories)) for reason in turn]
    assert ranks == sorted(ranks)


@given(persons())
def test_within_a_group_the_least_sure_and_the_most_frequent_come_first(person):
    reasons, memories = person
    turn = in_turn(reasons, memories, NOW)
    for one, other in pairwise(turn):
        group = rank(one, memories)
        if group != rank(other, memories):
            continue
        if group == "new":
            assert one.binds >= other.binds
        elif group == "missed":
            assert memories[one.key].due_at <= memories[other.key].due_at
        else:
            assert sits(memories[one.key], NOW) <= sits(memories[other.key], NOW)


@given(persons())
def test_what_was_asked_twice_lately_lets_the_others_before(person):
    reasons, memories = person
    plain = in_turn(reasons, memories, NOW)
    first = plain[0].rule
    assert in_turn(reasons, memories, NOW, former=[first]) == plain
    assert in_turn(reasons, memories, NOW, former=[first, *"uvwxyz", first]) == plain
    assert in_turn(reasons, memories, NOW, former=[first, *"wxyz", first]) == (
        *plain[1:],
        plain[0],
    )


@given(st.integers(4, 8))
def test_nobody_is_kept_at_one_thing_that_will_not_come(many):
    """Who misses everything is asked several reasons in turn, none for ever."""
    memories, asked, at = {}, [], START
    for _ in range(30):
        reason = in_turn(plain_reasons(many), memories, at, former=asked)[0]
        at += timedelta(minutes=2)
        review = Review(at=at, grade=Grade.MISSED)
        memories[reason.key] = met(memories.get(reason.key), review)
        asked.append(reason.rule)
    assert max(Counter(asked[-12:]).values()) <= 4
    assert len(set(asked[-12:])) >= 3


@given(st.integers(1, 8))
def test_who_knows_what_is_asked_meets_every_reason(many):
    memories, asked, at = {}, [], START
    for _ in range(3 * many):
        reason = in_turn(plain_reasons(many), memories, at, former=asked)[0]
        at += timedelta(minutes=2)
        memories[reason.key] = met(memories.get(reason.key), Review(at=at, grade=Grade.KNEW))
        asked.append(reason.rule)
    assert len(set(asked)) == many


def plain_reasons(many):
    return [Askable(key=rule, rule=rule, binds=1, kinds=KINDS) for rule in RULES[:many]]


@given(persons(), st.lists(st.sampled_from(KINDS), max_size=8), st.integers(1, 99))
def test_every_reason_is_tried_by_every_kind_that_may_ask_it(person, former, seed):
    reasons, memories = person
    turn = in_turn(reasons, memories, NOW)
    asked = list(coming(turn, memories, former, seed=seed, piece="elbow"))
    assert len(asked) == sum(len(reason.kinds) for reason in reasons)
    assert len(set(asked)) == len(asked)
    assert list(dict.fromkeys(one.focus for one in asked)) == [reason.rule for reason in turn]
    assert all(one.seed == seed and one.piece == "elbow" for one in asked)
    first = asked[0]
    # Another kind than the last time, wherever another one can ask it.
    if former and len(turn[0].kinds) > 1:
        assert first.kind is not former[-1]


@given(kinds, st.lists(st.sampled_from(KINDS), max_size=12))
def test_kinds_take_turns(some, former):
    turn = kinds_in_turn(some, former)
    assert sorted(turn) == sorted(some)
    asked = [former[::-1].index(kind) if kind in former else len(former) for kind in turn]
    assert asked == sorted(asked, reverse=True)


def test_a_kind_that_was_not_asked_for_as_many_exercises_as_there_are_kinds_is_in_its_turn():
    kinds = (DrillKind.ORDER, DrillKind.FIRST, DrillKind.DRY)
    assert kinds_waiting(kinds, [DrillKind.ORDER] * 7) == ()
    assert kinds_waiting(kinds, [DrillKind.ORDER] * 8) == (DrillKind.FIRST, DrillKind.DRY)
    former = [DrillKind.FIRST, DrillKind.DRY, *[DrillKind.ORDER] * 8]
    assert kinds_waiting(kinds, former) == (DrillKind.FIRST, DrillKind.DRY)
    assert kinds_waiting(kinds, [*former, DrillKind.FIRST]) == (DrillKind.DRY,)


@given(st.lists(st.integers(0, 2), min_size=1, max_size=20), st.integers(0, 50))
def test_no_two_exercises_running_have_the_same_seed(skips, number):
    former = None
    for answered in skips:
        number += answered
        seed = next_seed(number, former)
        assert seed >= 1
        asked = Asked(kind=DrillKind.ORDER, seed=seed)
        assert asked != former
        assert former is None or seed > former.seed
        former = asked


@given(st.lists(st.tuples(grades, st.integers(1, 200)), min_size=1, max_size=6))
def test_the_better_it_sits_the_more_is_asked_at_once(answers):
    at, reviews = START, []
    for grade, days in answers:
        at += timedelta(days=days)
        reviews.append(Review(at=at, grade=grade))
    before = level_for(remembered(reviews, at))
    missed = Review(at=at + timedelta(days=1), grade=Grade.MISSED)
    assert level_for(remembered([*reviews, missed], at + timedelta(days=1))) is Level.STRAP
    assume(answers[-1][0] in (Grade.KNEW, Grade.COULD_TEACH))
    known = Review(at=at + timedelta(days=30), grade=Grade.KNEW)
    assert level_for(remembered([*reviews, known], at + timedelta(days=30))) >= before


def test_one_begins_with_a_strap_and_ends_with_the_whole_harness():
    assert level_for(None) is Level.STRAP
    levels, reviews, at = [], [], START
    for _ in range(5):
        reviews.append(Review(at=at, grade=Grade.KNEW))
        memory = remembered(reviews, at)
        levels.append(level_for(memory))
        at = memory.due_at
    assert levels == [Level.ROW, Level.ROW, Level.PIECE, Level.HARNESS, Level.HARNESS]


def test_who_needed_the_reason_gets_a_little_less_the_next_time():
    known = [Review(at=START, grade=Grade.COULD_TEACH)]
    needed = Review(at=START + timedelta(days=8), grade=Grade.NEEDED_REASON)
    assert level_for(remembered(known, NOW)) is Level.PIECE
    assert level_for(remembered([*known, needed], NOW)) <= Level.PIECE
    assert level_for(remembered([Review(at=START, grade=Grade.NEEDED_REASON)], NOW)) is Level.STRAP


def test_a_wished_level_goes_over_the_one_that_fits():
    reasons = [Askable(key="a", rule="a", binds=1, kinds=(DrillKind.DAY,))]
    (asked,) = coming(reasons, {}, (), seed=7, level=Level.HARNESS)
    assert asked == Asked(kind=DrillKind.DAY, seed=7, level=Level.HARNESS, focus="a")
