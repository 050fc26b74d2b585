"""Timers of steps at the bench: what rings when, what answers it, what the disk does to it."""

from dataclasses import replace
from datetime import timedelta

import pytest
from app.timer_scene import (
    CLOSES_MIN,
    CUFF,
    DRIP_MIN,
    EVERY_MIN,
    OPENS_MIN,
    TOUCH_MIN,
    WATCH_MIN,
    derived_of,
    minutes_to,
    rings,
    row_of,
)

from armorplan.app.bells import BellKind
from armorplan.app.session import Session
from armorplan.kernel.errors import WorkshopError
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Climate


def test_a_cased_plate_tells_when_it_may_be_shaped_and_by_when(shop):
    window = shop.window()
    window.do(StepKind.CASE)
    row = row_of(window, StepKind.FORM)
    assert (row.kind, minutes_to(window, row.due_at)) == (BellKind.OPENS, OPENS_MIN)
    assert row.meaning == ("'Bend Plate while damp' may begin from 09:20 on, until 10:30.")
    window.run(OPENS_MIN)
    assert rings(window) == [("opens", "form")]
    assert "may begin since 09:20, until 10:30" in row_of(window, StepKind.FORM).meaning
    window.timing.hush(row.id)
    assert rings(window) == []
    row = row_of(window, StepKind.FORM)
    assert row.kind is BellKind.CLOSES
    assert minutes_to(window, row.due_at) == CLOSES_MIN - OPENS_MIN
    assert minutes_to(window, row.next_bell_at) == CLOSES_MIN - OPENS_MIN - 10
    assert row.hushed
    window.run(CLOSES_MIN - OPENS_MIN - 10)
    assert rings(window) == [("closes", "form")]
    window.run(10)
    assert rings(window) == [("late", "form")]
    row = row_of(window, StepKind.FORM)
    assert row.remedy == "Case it again, and wait for its colour to come back."
    assert row.meaning == f"Plate: too dry to shape since 10:30. {row.remedy}"


def test_beginning_the_step_answers_its_window(shop):
    window = shop.window()
    window.do(StepKind.CASE)
    window.run(OPENS_MIN)
    window.begin(StepKind.FORM)
    assert rings(window) == []
    assert [row.step for row in window.timing.rows] == [window.one(StepKind.FORM)]


def test_casing_again_opens_a_window_of_its_own(shop):
    window = shop.window()
    window.do(StepKind.CASE)
    window.run(CLOSES_MIN)
    first = row_of(window, StepKind.FORM)
    window.timing.hush(first.id)
    window.begin(StepKind.CASE)
    window.do(StepKind.CASE)
    again = row_of(window, StepKind.FORM)
    assert again.id != first.id
    assert minutes_to(window, again.due_at) == OPENS_MIN
    window.run(OPENS_MIN)
    assert rings(window) == [("opens", "form")]


def test_a_dipped_cuff_drips_is_watched_and_dries_to_the_touch(shop):
    window = shop.window(CUFF)
    window.do(StepKind.FINISH)
    assert window.timing.rows[0].step == window.one(StepKind.DRIP)
    window.run(DRIP_MIN)
    assert rings(window)[0] == ("due", "drip")
    assert "It has dripped off since 09:05. Go on with 'Turn and wipe" in (
        row_of(window, StepKind.DRIP).meaning
    )
    window.begin(StepKind.WATCH)
    assert rings(window) == []
    window.run(EVERY_MIN)
    assert rings(window) == [("watch", "watch")]
    window.timing.hush(row_of(window, StepKind.WATCH).id)
    window.run(EVERY_MIN - 1)
    assert rings(window) == []
    window.run(1)
    assert rings(window) == [("watch", "watch")]
    window.run(3)
    assert rings(window) == [("late", "watch")]
    window.run(WATCH_MIN - 2 * EVERY_MIN - 3)
    assert rings(window) == [("due", "watch")]
    window.do(StepKind.WATCH)
    assert rings(window) == []
    window.run(TOUCH_MIN - DRIP_MIN - WATCH_MIN + 60)
    assert rings(window)[-1] == ("late", "dry")
    meaning = row_of(window, StepKind.DRY).meaning
    assert "Most likely dry to the touch since" in meaning
    assert "Go on with" in meaning


def test_a_drying_says_by_when_it_surely_is_dry(shop):
    window = shop.window(CUFF)
    window.do(StepKind.FINISH)
    row = row_of(window, StepKind.DRY)
    assert row.surely_at > row.due_at
    assert f"surely by {row.surely_at:%H:%M}" in row.meaning
    assert row.drying


def test_a_paused_step_does_not_ring_and_going_on_over_time_is_an_answer(shop):
    window = shop.window()
    step = window.one(StepKind.MEASURE)
    window.session.start((step,))
    window.run(2)
    assert rings(window) == [("due", "measure-print")]
    window.session.pause((step,))
    assert rings(window) == []
    assert window.timing.rows[0].due_at is None
    window.session.start((step,))
    assert rings(window) == []
    window.run(40)
    assert rings(window) == []


def test_a_steps_timer_is_not_stopped_here(shop):
    window = shop.window(CUFF)
    window.do(StepKind.FINISH)
    row = row_of(window, StepKind.DRY)
    for said in (
        window.timing.stop_timer(row.id),
        window.timing.pause_timer(row.id),
        window.timing.add_minutes(row.id, 3),
    ):
        assert said.startswith("This timer belongs to a step")
    assert window.timing.hush(row.id).startswith("Nothing rings")


def test_answers_and_free_timers_hold_in_a_second_window_and_after_a_restart(shop):
    one, two = shop.window(), shop.window()
    one.do(StepKind.CASE)
    one.timing.set_timer(25, "glue")
    one.run(OPENS_MIN)
    assert two.session.read_along()
    assert rings(two) == [("opens", "form")]
    two.timing.hush(row_of(two, StepKind.FORM).id)
    assert one.session.read_along()
    assert rings(one) == []
    one.close()
    two.close()
    shop.clock.reboot(off_s=60)
    again = shop.window()
    assert rings(again) == []
    assert [row.title for row in again.timing.rows if row.free] == ["glue"]


def test_a_window_with_nothing_new_stays_as_it_is(shop):
    window = shop.window()
    window.do(StepKind.CASE)
    window.tick()
    before = window.timing.rows
    assert not window.tick()
    assert window.timing.rows is before


def test_a_press_that_the_disk_refuses_says_so_and_holds_for_this_run(shop, monkeypatch):
    window = shop.window()
    window.do(StepKind.CASE)
    window.run(OPENS_MIN)

    def refuse(*_entries):
        raise WorkshopError("The disk is full.")

    with monkeypatch.context() as patch:
        patch.setattr(window.file.timers, "append", refuse)
        said = window.timing.hush(row_of(window, StepKind.FORM).id)
        assert said.startswith("Answered: Begin in time: Bend Plate while damp.")
        assert "not recorded. The disk is full." in said
        assert rings(window) == []
        assert "not recorded" in window.timing.set_timer(7, "tea")
        assert [row.title for row in window.timing.rows if row.free] == ["tea"]
        other = shop.window()
        assert rings(other) == [("opens", "form")]
    # As soon as the disk takes entries again, those refused go with the next one.
    window.timing.set_timer(9, "glue")
    other.session.read_along()
    assert rings(other) == []
    assert sorted(row.title for row in other.timing.rows if row.free) == ["glue", "tea"]


@pytest.mark.parametrize(
    ("trouble", "told"),
    [
        ("PRAGMA query_only = ON", "it or its folder may not be written to"),
        ("PRAGMA max_page_count = 1", "the disk is full"),
    ],
)
def test_what_sqlite_itself_refuses_is_told_with_its_cause(shop, trouble, told):
    window = shop.window()
    window.timing.set_timer(5, "tea")
    window.run(5)
    window.file._db.execute(trouble).fetchall()
    long = "glue " * 39
    # Where the file may not grow, only what needs another page is refused.
    said = [window.timing.set_timer(60, f"{number} {long}") for number in range(80)]
    assert told in said[-1]
    assert "This holds until the window is closed: it was not recorded." in said[-1]
    assert len([row for row in window.timing.rows if row.free]) == 81
    hushed = window.timing.hush(window.timing.rows[0].id)
    assert "Answered: tea" in hushed
    assert rings(window) == []


def test_a_drying_found_still_damp_is_due_later_and_rings_anew(shop):
    window = shop.window(CUFF)
    window.do(StepKind.FINISH)
    window.session.done((window.one(StepKind.DRIP),))
    window.begin(StepKind.WATCH)
    window.do(StepKind.WATCH)
    window.run(TOUCH_MIN)
    assert ("due", "dry") in rings(window)
    first = row_of(window, StepKind.DRY)
    window.timing.hush(first.id)
    window.session.drying.look(window.one(StepKind.DRY), dry=False)
    row = row_of(window, StepKind.DRY)
    assert row.id == first.id
    assert row.kind is BellKind.DUE
    assert row.due_at > shop.clock.now()
    assert not row.hushed
    window.run(minutes_to(window, row.due_at) + 1)
    assert ("due", "dry") in rings(window)
    window.session.drying.look(window.one(StepKind.DRY), dry=True)
    assert not [row for row in window.timing.rows if "/dry/" in row.step]


@pytest.mark.parametrize(
    ("air", "told"),
    [
        (Climate(temperature_c=23.0, humidity_pct=100.0), "In this air it will not dry."),
        (Climate(temperature_c=6.0), "But this air is too cold for it"),
    ],
)
def test_air_that_dries_nothing_or_spoils_it_is_told_at_the_timer(shop, air, told):
    warm = derived_of(CUFF)
    treatments = tuple(replace(entry, film_from_c=10.0) for entry in warm.shelf.treatments)
    derived = replace(
        warm,
        shelf=replace(warm.shelf, treatments=treatments),
        shop=replace(warm.shop, room=replace(warm.shop.room, usual=air)),
    )
    file = shop.file()
    session = Session(file.build(CUFF), derived, file, shop.clock, shop.new_id)
    (finish, *_) = (step.id for step in derived.work.of_kind(StepKind.FINISH))
    session.done((finish,))
    (dry,) = (row for row in session.timing.rows if "/dry/" in row.step)
    assert told in dry.meaning
    assert (dry.due_at is None) == ("will not" in told)


def test_a_file_that_cannot_be_read_for_a_moment_is_read_with_the_next_tick(shop, monkeypatch):
    one, two = shop.window(), shop.window()
    two.timing.set_timer(9, "glue")

    def refuse(_seq):
        raise WorkshopError("The disk is away.")

    with monkeypatch.context() as patch:
        patch.setattr(one.file.timers, "since", refuse)
        one.tick()
        assert one.timing.rows == ()
    assert one.tick()
    assert [row.title for row in one.timing.rows] == ["glue"]


def test_instants_are_told_in_the_shops_own_time(shop):
    window = shop.window(zone="America/New_York")
    window.timing.set_timer(30, "tea")
    row = window.timing.rows[0]
    assert row.meaning == "The time you set is up at 04:30."
    assert row.due_at == shop.clock.now() + timedelta(minutes=30)
