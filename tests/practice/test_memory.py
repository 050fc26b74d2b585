"""How a reason sits: only from its reviews, whatever a clock did between them."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.practice.grades import Grade, ReasonState, Review, grade_of
from armorplan.practice.memory import (
    MASTERED_DAYS,
    MASTERED_SITS,
    is_due,
    met,
    remembered,
    sits,
    state_of,
)

START = datetime(2027, 3, 1, 9, tzinfo=UTC)
DAY = timedelta(days=1)

grades = st.sampled_from(list(Grade))
instants = st.integers(-4000, 4000).map(lambda hours: START + timedelta(hours=hours))
some_reviews = st.lists(
    st.builds(lambda at, grade: Review(at=at, grade=grade), instants, grades), max_size=12
)


def answered(*answers):
    """How a reason sits after grades, each so many days after the one before."""
    at, reviews = START, []
    for days, grade in answers:
        at += days * DAY
        reviews.append(Review(at=at, grade=grade))
    return remembered(reviews, at), at


@pytest.mark.parametrize(
    ("right", "hint", "why_right", "grade"),
    [
        (False, False, False, Grade.MISSED),
        (False, True, False, Grade.MISSED),
        (True, True, False, Grade.NEEDED_REASON),
        (True, True, True, Grade.NEEDED_REASON),
        (True, False, False, Grade.KNEW),
        (True, False, True, Grade.COULD_TEACH),
    ],
)
def test_a_grade_is_earned_at_the_first_try(right, hint, why_right, grade):
    assert grade_of(right=right, hint=hint, why_right=why_right) is grade


def test_what_was_never_met_is_unseen():
    assert remembered((), START) is None
    assert state_of(None, START) is ReasonState.UNSEEN


def test_known_once_is_not_mastered_and_known_again_for_weeks_is():
    once, at = answered((0, Grade.COULD_TEACH))
    assert state_of(once, at) is ReasonState.SHAKY
    twice, at = answered((0, Grade.COULD_TEACH), (8, Grade.COULD_TEACH))
    assert twice.stability_days >= MASTERED_DAYS
    assert state_of(twice, at) is ReasonState.MASTERED


def test_an_afternoon_of_right_answers_masters_nothing():
    memory, at = answered(*[(0, Grade.COULD_TEACH)] * 6)
    assert memory.stability_days >= MASTERED_DAYS
    assert state_of(memory, at) is ReasonState.SHAKY
    memory, at = answered(*[(0, Grade.COULD_TEACH)] * 6, (3, Grade.KNEW))
    assert state_of(memory, at) is ReasonState.MASTERED


@pytest.mark.parametrize(
    ("days", "state"), [(20.9, ReasonState.SHAKY), (21.0, ReasonState.MASTERED)]
)
def test_three_weeks_are_what_makes_it_mastered(days, state):
    """Our own choice, no source: about as long as a harness is at the bench."""
    memory, at = answered((0, Grade.COULD_TEACH), (8, Grade.COULD_TEACH))
    assert state_of(replace(memory, stability_days=days), at) is state


def test_who_missed_it_today_has_not_mastered_it_however_long_it_sat():
    before = [(0, Grade.COULD_TEACH), (8, Grade.COULD_TEACH), (60, Grade.COULD_TEACH)]
    known, at = answered(*before)
    assert state_of(known, at) is ReasonState.MASTERED
    for grade in (Grade.MISSED, Grade.NEEDED_REASON):
        memory, at = answered(*before, (200, grade))
        assert state_of(memory, at) is ReasonState.SHAKY


def test_what_was_mastered_is_shaky_once_it_is_likely_gone():
    memory, at = answered((0, Grade.COULD_TEACH), (8, Grade.COULD_TEACH))
    lost_at = next(
        at + day * DAY for day in range(5000) if sits(memory, at + day * DAY) < MASTERED_SITS
    )
    assert state_of(memory, lost_at - DAY) is ReasonState.MASTERED
    assert state_of(memory, lost_at) is ReasonState.SHAKY
    # It was worth asking again long before.
    assert is_due(memory, lost_at - 30 * DAY)


@given(some_reviews)
def test_the_same_reviews_say_the_same(reviews):
    now_at = START + 5000 * timedelta(hours=1)
    assert remembered(reviews, now_at) == remembered(list(reviews), now_at)
    folded = None
    for review in reviews:
        folded = met(folded, review)
    assert folded == remembered(reviews, now_at)


@given(some_reviews, instants)
def test_a_clock_that_jumps_breaks_nothing(reviews, now_at):
    memory = remembered(reviews, now_at)
    if memory is None:
        assert not reviews
        return
    assert memory.last is reviews[-1].grade
    # Whatever they said they were kept at, nothing was answered in the future.
    assert memory.last_at <= now_at
    assert memory.due_at > memory.last_at
    assert memory.stability_days > 0
    assert 1 <= memory.difficulty <= 10
    for at in (now_at - 9999 * DAY, memory.last_at, now_at, now_at + 9999 * DAY):
        assert 0 < sits(memory, at) <= 1
        assert state_of(memory, at) in (ReasonState.SHAKY, ReasonState.MASTERED)


def test_a_clock_set_back_says_nothing_of_forgetting():
    known = met(None, Review(at=START, grade=Grade.KNEW))
    back = met(known, Review(at=START - 3000 * DAY, grade=Grade.KNEW))
    assert back == met(known, Review(at=START, grade=Grade.KNEW))
    # Once it runs right again, the days between count as if it had always done so.
    later = Review(at=START + 5 * DAY, grade=Grade.KNEW)
    assert met(back, later).stability_days < 100


def test_a_clock_that_ran_ahead_does_not_put_a_reason_off_for_years():
    ahead = Review(at=START + 3000 * DAY, grade=Grade.KNEW)
    memory = remembered([ahead], START)
    assert memory.due_at <= START + DAY


@given(some_reviews, st.integers(0, 3000), st.integers(0, 3000))
def test_what_is_not_asked_sits_less_and_less(reviews, one, other):
    memory = remembered(reviews, START + 5000 * DAY)
    if memory is None:
        return
    sooner, later = sorted((one, other))
    assert sits(memory, memory.last_at + later * DAY) <= sits(
        memory, memory.last_at + sooner * DAY
    )


@given(st.lists(grades, max_size=6))
def test_who_knows_it_better_remembers_it_no_shorter(answers):
    known = [(2 + number, grade) for number, grade in enumerate(answers)]
    stabilities = [answered(*known, (9, grade))[0].stability_days for grade in Grade]
    assert stabilities == sorted(stabilities)


def test_instants_of_any_zone_are_the_same_instants():
    there = Review(at=START.astimezone(ZoneInfo("Pacific/Auckland")), grade=Grade.KNEW)
    assert met(None, there) == met(None, Review(at=START, grade=Grade.KNEW))
    memory = met(None, there)
    assert memory.last_at.utcoffset() == timedelta(0)
    assert sits(memory, START.astimezone(ZoneInfo("Pacific/Auckland")) + 3 * DAY) == sits(
        memory, START + 3 * DAY
    )
