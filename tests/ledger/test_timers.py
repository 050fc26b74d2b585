"""Timers read from instants: suspend, a changed clock, a restart."""

from datetime import timedelta

import pytest
from clocks import FakeClock
from hypothesis import given
from hypothesis import strategies as st
from ledger.sitting import Sitting

from armorplan.kernel.clock import SystemClock
from armorplan.ledger import acting
from armorplan.ledger.records import StepRecord
from armorplan.ledger.timers import TimerReading, due_at, elapsed_s, read_timer


def reading_of(sitting, step="dry"):
    latest = sitting.state.latest
    return read_timer(sitting.state.record(step), sitting.clock, latest_at=latest.at)


def started(step="dry"):
    sitting = Sitting()
    sitting.start(step)
    return sitting


def test_an_untouched_step_has_no_time_on_it_and_no_due_instant():
    record = StepRecord(step="cut")
    assert read_timer(record, FakeClock()) == TimerReading(elapsed_s=0.0, doubtful=False)
    assert due_at(record, 30, FakeClock()) is None


def test_a_ticked_step_that_never_started_has_no_time_on_it():
    sitting = Sitting()
    sitting.done("rivet")
    sitting.clock.advance(100)
    assert elapsed_s(sitting.state.record("rivet"), sitting.clock) == 0.0


def test_pauses_do_not_count():
    sitting = started()
    sitting.clock.advance(100)
    sitting.pause("dry")
    sitting.clock.advance(1000)
    assert reading_of(sitting) == TimerReading(elapsed_s=100.0, doubtful=False)
    assert due_at(sitting.state.record("dry"), 5, sitting.clock) is None
    sitting.start("dry")
    sitting.clock.advance(20)
    assert reading_of(sitting).elapsed_s == 120.0
    assert due_at(sitting.state.record("dry"), 5, sitting.clock) == (
        sitting.clock.now() + timedelta(seconds=180)
    )
    sitting.done("dry")
    sitting.clock.advance(500)
    assert reading_of(sitting).elapsed_s == 120.0


def test_a_suspend_counts():
    sitting = started()
    sitting.clock.advance(8 * 3600)
    assert reading_of(sitting) == TimerReading(elapsed_s=8 * 3600.0, doubtful=False)


def test_a_wall_clock_set_back_moves_neither_the_time_nor_the_minutes_left():
    sitting = started()
    sitting.clock.advance(600)
    sitting.clock.set_back(3600)
    assert reading_of(sitting) == TimerReading(elapsed_s=600.0, doubtful=False)
    assert due_at(sitting.state.record("dry"), 15, sitting.clock) == (
        sitting.clock.now() + timedelta(minutes=5)
    )


def test_a_running_step_that_runs_over_was_due_in_the_past():
    sitting = started()
    sitting.clock.advance(3600)
    due = due_at(sitting.state.record("dry"), 30, sitting.clock)
    assert due == sitting.clock.now() - timedelta(minutes=30)


def test_after_a_restart_the_wall_clock_counts_the_time_the_machine_was_off():
    sitting = started()
    sitting.clock.advance(600)
    sitting.clock.reboot(off_s=1200)
    sitting.clock.advance(60)
    assert reading_of(sitting) == TimerReading(elapsed_s=1860.0, doubtful=False)


def test_after_a_restart_with_the_wall_clock_behind_the_start_the_reading_is_doubtful():
    sitting = started()
    sitting.clock.reboot()
    sitting.clock.set_back(60)
    assert reading_of(sitting) == TimerReading(elapsed_s=0.0, doubtful=True)


def test_what_begins_only_later_by_a_clock_that_lost_time_is_due_at_one_instant():
    sitting = started()
    begun_at = sitting.clock.now()
    sitting.clock.reboot()
    sitting.clock.set_back(3600)
    for _ in range(3):
        sitting.clock.advance(60)
        due = due_at(sitting.state.record("dry"), 30, sitting.clock)
        assert due == begun_at + timedelta(minutes=30)


def test_after_a_restart_a_wall_clock_behind_the_newest_entry_is_doubtful():
    sitting = started()
    sitting.clock.advance(5000)
    sitting.note("other", "the bath is warm")
    sitting.clock.reboot()
    sitting.clock.set_back(3000)
    assert reading_of(sitting) == TimerReading(elapsed_s=2000.0, doubtful=True)
    sitting.clock.advance(3000)
    assert reading_of(sitting) == TimerReading(elapsed_s=5000.0, doubtful=False)


def test_a_finished_stretch_whose_clock_ran_backwards_stays_doubtful():
    sitting = started()
    sitting.clock.reboot()
    sitting.clock.set_back(60)
    sitting.pause("dry")
    sitting.clock.advance(10_000)
    assert reading_of(sitting) == TimerReading(elapsed_s=0.0, doubtful=True)


def test_stretches_before_and_after_a_restart_add_up():
    sitting = started()
    sitting.clock.advance(100)
    sitting.pause("dry")
    sitting.clock.reboot(off_s=500)
    sitting.clock.set_back(50_000)
    sitting.start("dry")
    sitting.clock.advance(30)
    assert reading_of(sitting) == TimerReading(elapsed_s=130.0, doubtful=False)


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["advance", "set_back", "pause", "start"]), st.integers(1, 10_000)
        ),
        max_size=30,
    )
)
def test_within_one_run_of_the_machine_exactly_the_running_time_counts(moves):
    sitting = started()
    running, expected = True, 0
    for move, seconds in moves:
        if move == "advance":
            sitting.clock.advance(seconds)
            expected += seconds if running else 0
        elif move == "set_back":
            sitting.clock.set_back(seconds)
        else:
            getattr(sitting, move)("dry")
            running = move == "start"
    assert reading_of(sitting) == TimerReading(elapsed_s=float(expected), doubtful=False)


def test_the_machines_own_clock_drives_a_timer():
    sitting = Sitting(SystemClock())
    sitting.start("dry")
    first = elapsed_s(sitting.state.record("dry"), sitting.clock)
    second = elapsed_s(sitting.state.record("dry"), sitting.clock)
    assert 0.0 <= first <= second
    assert due_at(sitting.state.record("dry"), 1, sitting.clock) == pytest.approx(
        sitting.events[0].at + timedelta(minutes=1), abs=timedelta(seconds=5)
    )


def begun_anew(sitting, step="dry"):
    press = sitting.press()
    sitting.events += acting.start_anew(sitting.state, (step,), press)


def test_what_runs_or_is_paused_and_begins_anew_counts_from_nothing():
    sitting = started()
    sitting.clock.advance(100)
    begun_anew(sitting)
    sitting.clock.advance(20)
    assert reading_of(sitting).elapsed_s == 20.0
    assert due_at(sitting.state.record("dry"), 1, sitting.clock) == (
        sitting.clock.now() + timedelta(seconds=40)
    )
    sitting.pause("dry")
    begun_anew(sitting)
    sitting.clock.advance(5)
    sitting.pause("dry")
    sitting.start("dry")
    sitting.clock.advance(5)
    assert reading_of(sitting).elapsed_s == 10.0
    assert sitting.state.record("dry").stretches[0].end.boot_s == 1100.0


def test_a_step_done_and_begun_anew_counts_its_rework_alone():
    sitting = started()
    sitting.clock.advance(100)
    sitting.done("dry")
    sitting.clock.advance(100)
    sitting.start("dry")
    sitting.clock.advance(7)
    assert reading_of(sitting).elapsed_s == 7.0


def test_an_untouched_step_begins_anew_as_any_other():
    sitting = Sitting()
    begun_anew(sitting)
    assert sitting.events[0].text == ""
    sitting.clock.advance(3)
    assert reading_of(sitting).elapsed_s == 3.0


def test_taking_back_a_new_beginning_brings_the_old_count_back():
    sitting = started()
    sitting.clock.advance(100)
    begun_anew(sitting)
    sitting.clock.advance(20)
    sitting.undo()
    assert reading_of(sitting).elapsed_s == 120.0
