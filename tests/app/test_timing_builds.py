"""Timers of several builds: all stay in sight and ring, in one window and in two."""

from dataclasses import replace

from app.timer_scene import CUFF, OPENS_MIN, PLATE, TOUCH_MIN
from store.shelf_of_builds import ELBOW

from armorplan.app.derived import derive_build
from armorplan.app.kept_timers import kept_from
from armorplan.app.session import Session
from armorplan.kernel.errors import WorkshopError
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.steps.model import StepKind
from armorplan.store.timer_file import TimerFile
from armorplan.workshop.shop import one_maker


def others(window):
    return {row.step.split("/")[3]: row for row in window.timing.rows if row.build}


def rings(window):
    bells = window.ringing()
    return [(bell.build_title, bell.kind.value, bell.step.split("/")[3]) for bell in bells]


def dipped(shop):
    cuff = shop.window(CUFF)
    cuff.do(StepKind.FINISH)
    cuff.session.done((cuff.one(StepKind.DRIP),))
    cuff.begin(StepKind.WATCH)
    cuff.do(StepKind.WATCH)
    return cuff


def test_another_builds_timers_are_in_sight_and_ring(shop):
    dipped(shop).close()
    plate = shop.window(PLATE)
    dry = others(plate)["dry"]
    assert (dry.build, dry.build_title, dry.free) == (CUFF, "Cuff", False)
    assert (dry.due_at - shop.clock.now()).total_seconds() == 60 * TOUCH_MIN
    plate.run(TOUCH_MIN)
    assert rings(plate) == [("Cuff", "due", "dry")]
    assert "Most likely dry to the touch since 09:30" in others(plate)["dry"].meaning
    plate.timing.hush(dry.id)
    assert rings(plate) == []
    assert "dry" not in others(plate)
    plate.close()
    assert rings(shop.window(CUFF)) == []


def test_what_dries_in_another_build_says_when_it_was_reckoned(shop):
    cuff = dipped(shop)
    here = f"{shop.clock.now():%H:%M}"
    cuff.close()
    plate = shop.window(PLATE)
    title = others(plate)["dry"].title
    assert (
        title
        == f"{cuff.derived.work.step(others(plate)['dry'].step).title} (as reckoned at {here})"
    )
    shop.clock.advance(86_400)
    again = shop.window(PLATE)
    days = [row.title for row in again.timing.rows if row.build and row.drying]
    assert days
    assert all("(as reckoned at 1 Mar " in title for title in days)


def test_two_windows_at_two_builds_see_each_other_start_and_stop(shop):
    cuff, plate = shop.window(CUFF), shop.window(PLATE)
    measure = cuff.one(StepKind.MEASURE)
    cuff.session.start((measure,))
    assert plate.session.read_along()
    assert others(plate)["measure-print"].running_since == shop.clock.now()
    shop.clock.advance(20)
    cuff.session.pause((measure,))
    assert plate.session.read_along()
    assert others(plate)["measure-print"].running_since is None
    assert others(plate)["measure-print"].elapsed_s == 20
    cuff.session.start((measure,))
    cuff.session.done((measure,))
    assert plate.session.read_along()
    assert others(plate) == {}
    plate.do(StepKind.CASE)
    assert cuff.session.read_along()
    assert list(others(cuff)) == ["form"]
    plate.session.undo()
    assert cuff.session.read_along()
    assert others(cuff) == {}


def test_presses_of_one_window_within_a_second_leave_the_last_state_in_sight(shop):
    """No tick comes between them in which what is on the disk would be read again."""
    cuff, plate = shop.window(CUFF), shop.window(PLATE)
    measure = cuff.one(StepKind.MEASURE)
    for _ in range(3):
        cuff.session.start((measure,))
        cuff.session.undo()
    plate.session.read_along()
    assert others(plate) == {}
    cuff.session.redo()
    plate.session.read_along()
    assert list(others(plate)) == ["measure-print"]


def test_two_windows_at_the_same_build_leave_one_truth(shop):
    one, two, plate = shop.window(CUFF), shop.window(CUFF), shop.window(PLATE)
    one.session.start((one.one(StepKind.MEASURE),))
    two.session.start((two.one(StepKind.MOCK_UP),))
    plate.session.read_along()
    assert sorted(others(plate)) == ["measure-print", "mock-up"]
    assert {row.step for row in two.timing.rows} == {row.step for row in others(plate).values()}


def test_the_timers_go_with_the_entries_in_one_go(shop, monkeypatch):
    """Cut off between the two, another build's window would not see what runs."""
    cuff = shop.window(CUFF)
    seen = []
    write = cuff.file._tables.write

    def spy(*statements):
        seen.append([sql.split()[2] for sql, _ in statements])
        return write(*statements)

    monkeypatch.setattr(cuff.file, "_write", spy)
    cuff.session.start((cuff.one(StepKind.MEASURE),))
    assert seen == [["events", "timers_kept"]]


def test_timers_that_another_program_kept_in_a_strange_form_stop_nothing(shop):
    cuff = dipped(shop)
    for text in ("", "[]", '{"title": 3}', '{"rows": [{"step": 1}]}', "null"):
        assert kept_from(text) is None
        cuff.file.timers.keep(CUFF, text)
        plate = shop.window(PLATE)
        assert others(plate) == {}
        plate.close()
    cuff.close()
    # Its own build writes them anew.
    shop.window(CUFF).close()
    assert "dry" in others(shop.window(PLATE))


def test_a_build_that_goes_on_from_another_takes_its_timers_over(shop):
    """They would ring twice: once as its own, once as the former build's."""
    old = shop.window(PLATE)
    old.do(StepKind.CASE)
    file = shop.file()
    follower = replace(ELBOW, id="plate-2", name="Plate again")
    events = tuple(
        replace(e, build="plate-2", step=e.step.replace("plate-1/", "plate-2/"), seq=0)
        for e in file.events(PLATE)
    )
    file.add_build(follower, events)
    derived = derive_build(old.derived.pattern, sketch_shelf(), one_maker(), build="plate-2")
    new = Session(follower, derived, file, shop.clock, shop.new_id)
    assert [(row.build, row.step.split("/")[0]) for row in new.timers()] == [("", "plate-2")]
    cuff = shop.window(CUFF)
    assert [row.build for row in cuff.timing.rows] == ["plate-2"]
    cuff.run(OPENS_MIN)
    assert rings(cuff) == [("Plate again", "opens", "form")]


def test_a_build_leaves_behind_what_it_did_not_take_over(shop):
    """Of changed work the former build's timer goes out of sight; another making's stays."""
    old = shop.window(PLATE)
    old.do(StepKind.MEASURE)
    old.do(StepKind.CASE)
    old.close()
    dipped(shop).close()
    shop.clock.advance(60)
    file = shop.file()
    follower = replace(ELBOW, id="plate-2", name="Again", created_at=shop.clock.now())
    first = file.events(PLATE)[0]
    taken = replace(first, build="plate-2", step=first.step.replace("plate-1/", "plate-2/"), seq=0)
    file.add_build(follower, (taken,))
    derived = derive_build(old.derived.pattern, sketch_shelf(), one_maker(), build="plate-2")
    new = Session(follower, derived, file, shop.clock, shop.new_id)
    assert {row.build for row in new.timers()} == {CUFF}
    # Whoever works at the former one again has its timers in sight again.
    again = shop.window(PLATE)
    again.begin(StepKind.FORM)
    new.read_along()
    assert {row.build for row in new.timers()} == {CUFF, PLATE}


def test_where_the_file_takes_nothing_at_the_start_the_window_opens_all_the_same(
    shop, monkeypatch
):
    cuff = dipped(shop)
    cuff.file.timers.keep(CUFF, "[]")
    cuff.close()

    def refuse(*_args):
        raise WorkshopError("The disk is full.")

    monkeypatch.setattr(TimerFile, "keep", refuse)
    assert any("/dry/" in row.step for row in shop.window(CUFF).timing.rows)
