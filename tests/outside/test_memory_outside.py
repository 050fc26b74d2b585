"""The memory model against published values, through our own grades and instants.

- ``test_basic.py`` of py-fsrs 6 (open-spaced-repetition/py-fsrs, MIT): days to the next time for a
  row of answers; stability 53.62691 and difficulty 6.3574867, each to 1e-4, after another row; the
  least difficulty after ten right answers in a row on one day; minutes to the next time of a first
  answer of each grade.
- The forgetting curve and the default parameters of version 6 of the model, as its authors publish
  them (the wiki of open-spaced-repetition/awesome-fsrs, 'The Algorithm'; from memory):
  R = (1 + F t / S) ** -w20 with F = 0.9 ** (-1 / w20) - 1, so that R is 0.9 after S days.
"""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.practice.grades import Grade, Review
from armorplan.practice.memory import met, remembered, sits

START = datetime(2022, 11, 29, 12, 30, tzinfo=UTC)
MISSED, NEEDED, KNEW, TEACH = Grade
DAY = timedelta(days=1)
W20 = 0.1542
"""Published default of the exponent."""
FIRST_DAYS = {MISSED: 0.212, NEEDED: 1.2931, KNEW: 2.3065, TEACH: 8.2956}
"""Published defaults w0 to w3: stability after a first answer."""


def curve(days, stability):
    """The published curve, reckoned here."""
    factor = 0.9 ** (-1 / W20) - 1
    return (1 + factor * days / stability) ** -W20


def test_days_to_the_next_time_are_as_published():
    grades = [KNEW] * 6 + [MISSED] * 2 + [KNEW] * 5
    memory, at, days = None, START, []
    for grade in grades:
        memory = met(memory, Review(at=at, grade=grade))
        days.append((memory.due_at - memory.last_at).days)
        at = memory.due_at
    assert days == [0, 2, 11, 46, 163, 498, 0, 0, 2, 4, 7, 12, 21]


def test_stability_and_difficulty_are_as_published():
    reviews, at = [], START
    for grade, after in zip([MISSED] + [KNEW] * 5, [0, 0, 1, 3, 8, 21], strict=True):
        at += after * DAY
        reviews.append(Review(at=at, grade=grade))
    memory = remembered(reviews, at)
    assert memory.stability_days == pytest.approx(53.62691, abs=1e-4)
    assert memory.difficulty == pytest.approx(6.3574867, abs=1e-4)


def test_ten_that_could_be_taught_on_one_day_are_as_easy_as_can_be():
    moments = (START + timedelta(microseconds=number) for number in range(10))
    memory = remembered([Review(at=at, grade=TEACH) for at in moments], START + DAY)
    assert memory.difficulty == 1.0


@pytest.mark.parametrize(
    ("grade", "after"),
    [
        (MISSED, timedelta(minutes=1)),
        (NEEDED, timedelta(minutes=5, seconds=30)),
        (KNEW, timedelta(minutes=10)),
    ],
    ids=str,
)
def test_a_first_answer_comes_back_in_the_published_minutes(grade, after):
    memory = met(None, Review(at=START, grade=grade))
    assert memory.due_at - START == after


@pytest.mark.parametrize("grade", list(Grade))
def test_a_first_answer_has_the_published_stability(grade):
    memory = met(None, Review(at=START, grade=grade))
    assert memory.stability_days == pytest.approx(FIRST_DAYS[grade], abs=1e-4)


@given(
    st.lists(st.tuples(st.sampled_from(list(Grade)), st.integers(0, 400)), min_size=1, max_size=8),
    st.integers(0, 2000),
)
def test_how_sure_it_sits_follows_the_published_curve(answers, days):
    memory, at = None, START
    for grade, after in answers:
        at += after * DAY
        memory = met(memory, Review(at=at, grade=grade))
    expected = curve(days, memory.stability_days)
    assert sits(memory, at + days * DAY) == pytest.approx(expected, rel=1e-9)


def test_after_as_many_days_as_the_stability_nine_in_ten_are_left():
    memory = remembered(
        [Review(at=START + day * DAY, grade=KNEW) for day in (0, 2, 13)], START + 13 * DAY
    )
    days = memory.stability_days
    low, high = (sits(memory, memory.last_at + int(days + more) * DAY) for more in (1, 0))
    assert low < 0.9 < high
    assert curve(days, days) == pytest.approx(0.9, rel=1e-12)


@given(
    st.lists(st.tuples(st.sampled_from([KNEW, TEACH]), st.integers(1, 60)), max_size=6),
    st.integers(1, 120),
)
def test_a_right_answer_stands_by_the_published_formula(answers, days):
    """Stability after a right answer on another day, by the published parameters, reckoned here."""
    w8, w9, w10, w16 = 1.8722, 0.1666, 0.796, 1.8729
    memory, at = met(None, Review(at=START, grade=TEACH)), START
    for grade, after in answers:
        at += after * DAY
        memory = met(memory, Review(at=at, grade=grade))
    before = memory.stability_days
    left = 1 - curve(days, before)
    e = 2.718281828459045
    growth = e**w8 * (11 - memory.difficulty) * before**-w9 * (e ** (left * w10) - 1)
    for grade, bonus in ((KNEW, 1.0), (TEACH, w16)):
        after = met(memory, Review(at=at + days * DAY, grade=grade))
        assert after.stability_days == pytest.approx(before * (1 + growth * bonus), rel=1e-9)
