"""One exercise with one person: only its first try is kept, once, and graded as it was known."""

from datetime import timedelta

import pytest
from desktop.fake_practice import (
    CLOSE,
    ORDER,
    RIGHT,
    SEEN_AT,
    STRAP,
    TRIM,
    WHY,
    FakePractice,
    worth,
)

from armorplan.desktop.practice_turn import PracticeTurn
from armorplan.practice.grades import Grade

WRONG = (CLOSE, STRAP, TRIM)


@pytest.fixture
def practice():
    return FakePractice()


def turn_of(practice, person="nell"):
    said = []
    made = PracticeTurn(
        practice=practice, person=person, drill=ORDER, begun_at=SEEN_AT, tell=said.append
    )
    return made, said


@pytest.mark.parametrize(
    ("answer", "hinted", "reason", "grade"),
    [
        (WRONG, False, "", Grade.MISSED),
        (WRONG, True, "", Grade.MISSED),
        (RIGHT, True, "", Grade.NEEDED_REASON),
        (RIGHT, False, "", Grade.KNEW),
        (RIGHT, False, "dry", Grade.KNEW),
        (RIGHT, False, "reach", Grade.COULD_TEACH),
    ],
    ids=["wrong", "wrong-hinted", "hinted", "right", "wrong-reason", "right-reason"],
)
def test_how_it_was_known(practice, answer, hinted, reason, grade):
    turn, said = turn_of(practice)
    turn.hinted = hinted
    assert turn.take(answer, worth(answer), SEEN_AT + timedelta(seconds=12))
    if reason:
        turn.why, turn.reason = WHY, reason
    turn.settle()
    turn.settle()
    assert [(row[0], row[2], row[3], row[4], row[5]) for row in practice.kept] == [
        ("nell", answer, grade, 12.0, hinted)
    ]
    assert said == ["Kept for nell."]


def test_a_later_try_changes_nothing(practice):
    turn, _ = turn_of(practice)
    assert turn.take(WRONG, worth(WRONG), SEEN_AT)
    assert not turn.may_teach
    assert not turn.take(RIGHT, worth(RIGHT), SEEN_AT)
    turn.settle()
    assert practice.kept[0][3] is Grade.MISSED


def test_nothing_is_kept_of_nobody_nor_before_an_answer(practice):
    turn, said = turn_of(practice)
    turn.settle()
    nobody, _ = turn_of(practice, person="")
    nobody.take(RIGHT, worth(RIGHT), SEEN_AT)
    nobody.settle()
    assert practice.kept == []
    assert said == []


def test_a_clock_set_back_makes_no_time_below_zero(practice):
    turn, _ = turn_of(practice)
    turn.take(RIGHT, worth(RIGHT), SEEN_AT - timedelta(hours=1))
    assert turn.seconds == 0.0
