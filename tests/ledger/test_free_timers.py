"""Timers set by hand, from their entries alone."""

import pytest
from clocks import FakeClock

from armorplan.ledger.free_timers import free_timers
from armorplan.ledger.records import moment_now
from armorplan.ledger.timer_entries import TimerEntry, TimerEntryKind
from armorplan.ledger.timers import due_at, read_timer

SET, ADDED, PAUSED, RESUMED, STOPPED, ANSWERED = (
    TimerEntryKind.SET,
    TimerEntryKind.ADDED,
    TimerEntryKind.PAUSED,
    TimerEntryKind.RESUMED,
    TimerEntryKind.STOPPED,
    TimerEntryKind.ANSWERED,
)


class Kitchen:
    """Makes entries as time passes."""

    def __init__(self):
        self.clock = FakeClock()
        self.entries = []

    def does(self, kind, *, timer="glue", minutes=0.0, then_s=0.0):
        self.entries.append(
            TimerEntry(
                timer=timer,
                kind=kind,
                moment=moment_now(self.clock),
                minutes=minutes,
                text=timer if kind is SET else "",
            )
        )
        self.clock.advance(then_s)
        return self

    def one(self):
        (timer,) = free_timers(self.entries)
        return timer

    def left_s(self):
        timer = self.one()
        at = due_at(timer.record, timer.minutes, self.clock)
        return None if at is None else (at - self.clock.now()).total_seconds()


def test_it_runs_from_when_it_was_set():
    kitchen = Kitchen().does(SET, minutes=12, then_s=120)
    assert (kitchen.one().id, kitchen.one().title) == ("glue", "glue")
    assert kitchen.left_s() == 600


def test_a_pause_does_not_count_and_minutes_may_be_added():
    kitchen = Kitchen().does(SET, minutes=12, then_s=120).does(PAUSED, then_s=5000)
    assert kitchen.left_s() is None
    assert read_timer(kitchen.one().record, kitchen.clock).elapsed_s == 120
    kitchen.does(RESUMED, then_s=60).does(ADDED, minutes=5, then_s=60)
    assert kitchen.left_s() == (12 + 5) * 60 - 240
    assert kitchen.one().added == 1


@pytest.mark.parametrize("late", [PAUSED, RESUMED, STOPPED, ADDED, ANSWERED])
def test_an_entry_that_comes_too_late_changes_nothing(late):
    kitchen = Kitchen().does(SET, minutes=12).does(STOPPED).does(late, minutes=3)
    assert free_timers(kitchen.entries) == ()
    running = Kitchen().does(SET, minutes=12, then_s=60).does(RESUMED).does(RESUMED)
    assert running.left_s() == 11 * 60
    paused = running.does(PAUSED).does(PAUSED, then_s=90)
    assert read_timer(paused.one().record, paused.clock).elapsed_s == 60


def test_several_stay_in_the_order_they_were_set_and_stop_one_by_one():
    kitchen = Kitchen().does(SET, timer="b", minutes=9).does(SET, timer="a", minutes=1)
    assert [timer.id for timer in free_timers(kitchen.entries)] == ["b", "a"]
    kitchen.does(STOPPED, timer="b")
    assert kitchen.one().id == "a"
