"""What rings, and when it sounds again: pure functions of rows, answers and an instant."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.app.bell_making import Latest, Ringer
from armorplan.app.bells import BellKind
from armorplan.app.ringing import (
    NO_ANSWERS,
    Answers,
    clock_jumped,
    next_bell,
    passed_untold,
    ringing,
    ringing_bell,
    sounding,
    sounds_again_at,
)
from armorplan.app.rows import TimerRow

START_AT = datetime(2027, 3, 1, 9, tzinfo=UTC)


def minute(minutes):
    return START_AT + timedelta(minutes=minutes)


def row(timer="t", bells=None, **changes):
    ringer = Ringer(timer=timer, step="s", title="Cop")
    fields = {
        "step": "s",
        "title": "Cop",
        "elapsed_s": 0.0,
        "as_of": START_AT,
        "running_since": START_AT,
        "planned_min": 60,
        "due_at": None,
        "id": timer,
        "bells": bells(ringer),
    }
    return TimerRow(**{**fields, **changes})


def due(timer="t", at=60):
    return row(timer, lambda ringer: ringer.due(minute(at), "Over."))


def window(timer="w"):
    by = Latest(at=minute(90), since_at=minute(20), ahead="Begin.", missed="Case again.")
    return row(timer, lambda ringer: ringer.window((minute(20), "May begin."), by))


def watch(timer="v"):
    return row(timer, lambda ringer: tuple(ringer.turns(START_AT, 5, 20)))


def kinds_through(timer, minutes, answers=NO_ANSWERS):
    """The kind that rings at each of these minutes."""
    found = [ringing_bell(timer, answers, minute(m)) for m in minutes]
    return [bell and bell.kind.value for bell in found]


def test_a_time_that_is_up_rings_from_that_instant_and_is_late_after_half_an_hour():
    assert kinds_through(due(), (0, 59.99, 60, 89, 90, 500)) == [
        None,
        None,
        "due",
        "due",
        "late",
        "late",
    ]


def test_a_window_opens_closes_with_enough_lead_and_is_missed():
    assert kinds_through(window(), (19, 20, 79.9, 80, 89, 90)) == [
        None,
        "opens",
        "opens",
        "closes",
        "closes",
        "late",
    ]
    closes = window().bells[1]
    assert (closes.at, closes.about_at) == (minute(80), minute(90))


def test_a_short_window_warns_a_quarter_of_it_before():
    by = Latest(at=minute(8), since_at=minute(0), ahead="", missed="")
    (closes, late) = row(bells=lambda ringer: ringer.window(None, by)).bells
    assert (closes.at, late.at) == (minute(6), minute(8))


def test_a_watch_rings_each_turn_until_its_end_and_tells_turns_nobody_answered():
    assert [b.at for b in watch().bells if b.kind is BellKind.WATCH] == [
        minute(5),
        minute(10),
        minute(15),
    ]
    assert kinds_through(watch(), (4, 5, 7, 7.5, 9, 10)) == [
        None,
        "watch",
        "watch",
        "late",
        "late",
        "watch",
    ]


@pytest.mark.parametrize(
    ("timer", "hushed_at", "silent_until", "then"),
    [
        (due(), 60, 100000, None),
        (window(), 20, 80, "closes"),
        (window(), 80, 90, "late"),
        (window(), 90, 100000, None),
        (watch(), 5, 10, "watch"),
        (watch(), 8, 10, "watch"),
        (watch(), 16, 100000, None),
    ],
)
def test_an_answer_silences_this_moment_and_the_next_one_rings(
    timer, hushed_at, silent_until, then
):
    bell = ringing_bell(timer, NO_ANSWERS, minute(hushed_at))
    answers = Answers(answered={timer.id: bell.id})
    assert ringing_bell(timer, answers, minute(hushed_at)) is None
    assert ringing_bell(timer, answers, minute(silent_until - 0.01)) is None
    rings = ringing_bell(timer, answers, minute(silent_until))
    assert (rings and rings.kind.value) == then
    coming = next_bell(timer, answers, minute(hushed_at))
    assert (coming and coming.at) == (minute(silent_until) if then else None)


def test_one_answered_leaves_the_others_ringing_in_the_order_they_began():
    rows = (window(), due(), watch())
    bells = ringing(rows, NO_ANSWERS, minute(61))
    # The last turn of the watch nobody answered was at 15 min, told as late at 17.5.
    assert [bell.timer for bell in bells] == ["v", "w", "t"]
    answers = Answers(answered={"w": bells[1].id})
    assert [bell.timer for bell in ringing(rows, answers, minute(61))] == ["v", "t"]


def test_an_answer_to_a_bell_that_is_no_more_answers_nothing():
    assert ringing_bell(due(), Answers(answered={"t": "t|due|7"}), minute(61)) is not None


def test_a_moment_put_off_after_its_answer_rings_again():
    answers = Answers(answered={"t": "t|due|0"}, answered_at={"t": minute(61)})
    assert kinds_through(due(at=60), (61, 95), answers) == [None, None]
    # Some minutes later it is no other moment: drying is reckoned in quarters of an hour.
    assert kinds_through(due(at=70), (71, 120), answers) == [None, None]
    assert kinds_through(due(at=240), (61, 239, 240, 270), answers) == [None, None, "due", "late"]
    told = Answers(told={"t": "t|due|0"}, told_at={"t": minute(61)})
    assert passed_untold(due(at=60), told, minute(61)) == ()
    assert len(passed_untold(due(at=240), told, minute(241))) == 1


def test_it_sounds_at_once_then_each_minute_and_after_ten_each_five():
    bell = due().bells[0]
    at, heard = bell.at - timedelta(seconds=1), []
    while at < minute(60 + 26):
        at = sounds_again_at(bell, at)
        heard.append((at - bell.at).total_seconds() / 60)
    assert heard == [*range(11), 15, 20, 25, 30]


@given(st.integers(1, 9000), st.integers(1, 900))
def test_however_ticks_fall_each_turn_to_sound_is_heard_once(first_s, step_s):
    bell = due().bells[0]
    since, heard = bell.at - timedelta(seconds=first_s), 0
    for _ in range(20):
        now = since + timedelta(seconds=step_s)
        heard += len(sounding((bell,), since_at=since, now_at=now))
        turns = [bell.at]
        while turns[-1] <= now:
            turns.append(sounds_again_at(bell, turns[-1]))
        assert bool(sounding((bell,), since_at=since, now_at=now)) == any(
            since < turn <= now for turn in turns
        )
        since = now
    assert heard <= 20


def test_what_was_told_is_not_told_again_and_what_was_answered_neither():
    timer = window()
    opens, closes, late = timer.bells
    now = minute(95)
    assert passed_untold(timer, NO_ANSWERS, now) == (opens, closes, late)
    assert passed_untold(timer, Answers(told={"w": closes.id}), now) == (late,)
    assert passed_untold(timer, Answers(answered={"w": late.id}), now) == ()
    assert passed_untold(timer, NO_ANSWERS, minute(19)) == ()


@pytest.mark.parametrize(
    ("wall_s", "boot_s", "jumped"),
    [
        (1, 1, False),
        (1, 1.4, False),
        (9 * 3600, 9 * 3600, False),
        (3601, 1, True),
        (-3599, 1, True),
        (1, 3601, True),
        (0, 1, False),
    ],
)
def test_a_wall_clock_that_is_set_is_noticed_and_a_suspend_is_none(wall_s, boot_s, jumped):
    before, after = START_AT, START_AT + timedelta(seconds=wall_s)
    assert clock_jumped((before, 1000.0), (after, 1000.0 + boot_s)) is jumped
