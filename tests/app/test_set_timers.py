"""Timers set by hand: they ring, are put off, paused and stopped, and end with their answer."""

import pytest
from app.timer_scene import minutes_to, rings


def test_a_free_timer_rings_may_be_put_off_and_ends_with_its_answer(shop):
    window = shop.window()
    assert window.timing.set_timer(12, "  glue\n on the   cop ") == (
        "Set: glue on the cop, 12 minutes."
    )
    window.run(11)
    assert rings(window) == []
    window.run(1)
    assert rings(window) == [("due", "")]
    (row,) = window.timing.rows
    assert (row.title, row.free, row.step) == ("glue on the cop", True, "")
    assert row.meaning == "The time you set was up at 09:12."
    assert window.timing.add_minutes(row.id, 5) == "5 minutes more: glue on the cop."
    assert rings(window) == []
    window.run(5)
    assert rings(window) == [("due", "")]
    assert window.timing.hush(row.id) == "Answered: glue on the cop."
    assert window.timing.rows == ()


def test_a_free_timer_pauses_goes_on_and_stops(shop):
    window = shop.window()
    assert window.timing.set_timer(0.75, "stir") == "Set: stir, 45 seconds."
    (short,) = (row for row in window.timing.rows if row.title == "stir")
    window.timing.stop_timer(short.id)
    window.timing.set_timer(10, "")
    (row,) = window.timing.rows
    assert row.title == "10 minutes"
    window.run(4)
    assert window.timing.pause_timer(row.id) == "Paused: 10 minutes."
    window.run(30)
    assert window.timing.rows[0].due_at is None
    assert window.timing.pause_timer(row.id) == "Goes on: 10 minutes."
    assert minutes_to(window, window.timing.rows[0].due_at) == 6
    assert window.timing.stop_timer(row.id) == "Stopped: 10 minutes."
    assert window.timing.stop_timer(row.id) == "That timer is no longer there."


@pytest.mark.parametrize("minutes", [0, -3, float("nan"), float("inf"), 1e9])
def test_a_time_that_cannot_be_is_told_and_nothing_is_set(shop, minutes):
    window = shop.window()
    assert "do not fit" in window.timing.set_timer(minutes, "x")
    assert window.timing.rows == ()


def test_a_title_of_a_broken_paste_is_kept_as_far_as_it_goes(shop):
    window = shop.window()
    assert window.timing.set_timer(3, "gl\ud83due" + "x" * 5000).startswith("Set: gl?ue")
    again = shop.window()
    assert again.timing.rows[0].title == window.timing.rows[0].title
    assert len(again.timing.rows[0].title) == 200
