"""The week of several builds in its view: laying it, opening other builds, comparing, keeping still."""

import time
from dataclasses import replace
from datetime import timedelta

import pytest
from desktop.week_scene import (
    ORIGIN_AT,
    ZONE,
    facts,
    many,
    week_plan,
)
from PySide6.QtCore import QPoint, QPointF, Qt

from armorplan.app.plan_face import PlanFace
from armorplan.app.rows import Selection
from armorplan.app.shown_plan import ShownPlan
from armorplan.app.week_lanes import week_of
from armorplan.app.week_rows import By, LaneKind
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.week_desk import FEW, laid_week
from armorplan.desktop.week_geometry import WeekGeometry
from armorplan.desktop.week_layout import lanes
from armorplan.desktop.week_words import (
    block_sentence,
    family_words,
    lane_lines,
    letters_words,
    share_words,
    week_rows,
)
from armorplan.desktop.widgets.deck import Deck
from armorplan.desktop.widgets.week_baths import changes_in, family_brush
from armorplan.desktop.widgets.week_canvas import WeekCanvas
from armorplan.desktop.widgets.week_view import WeekView


@pytest.fixture
def view(qtbot, bridge, session, monkeypatch):
    session.build_id = session.title = "Gorget"
    session.week_plan = week_plan(promised=True)
    chart = facts().chart
    monkeypatch.setattr(session, "chart", lambda: chart)
    monkeypatch.setattr(session, "choose_steps", lambda steps: Selection(steps=steps))
    face = PlanFace(sentence="This plan holds.", details="", finish_at=None)
    monkeypatch.setattr(session, "plan_face", lambda: face)
    made = WeekView(bridge)
    qtbot.addWidget(made)
    made.resize(1100, 640)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.canvas.setFocus()
    yield made
    made.end_jobs()


def key_of(view, step):
    return view.canvas.geometry_now.key_of_step(step)


def spot_of(view, key):
    box = view.canvas.geometry_now.boxes[key].translated(view.canvas._offset())
    return box.center().toPoint()


def line(view):
    return view.line.text()


def test_l_lays_the_week_otherwise_and_what_is_chosen_stays_in_view(view, qtbot):
    assert view.week.by is By.PERSON
    view.canvas.hands.walk_to(key_of(view, "Belt pouch/dye"))
    for by in (By.PLACE, By.BUILD, By.PERSON):
        qtbot.keyClick(view.canvas, Qt.Key.Key_L)
        assert view.week.by is by
        here = view.canvas.geometry_now.blocks[view.canvas.hands.here]
        assert "Belt pouch/dye" in here.steps
        assert (
            view.canvas.viewport()
            .rect()
            .intersects(
                view.canvas.geometry_now.boxes[here.key].translated(view.canvas._offset()).toRect()
            )
        )


def test_the_buttons_lay_it_too_and_show_how_it_is_laid(view, qtbot):
    for name, by in (("place", By.PLACE), ("build", By.BUILD), ("person", By.PERSON)):
        button = view.findChild(object, f"week_by_{name}")
        qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
        assert view.week.by is by
        assert button.isChecked()
        assert button.accessibleName()


def test_one_day_and_a_week_fill_the_width(view, qtbot):
    for key, days in ((Qt.Key.Key_1, 1), (Qt.Key.Key_7, 7)):
        qtbot.keyClick(view.canvas, key)
        room = view.canvas.viewport().width() - view.canvas.margin_px()
        assert room / view.canvas.geometry_now.px_an_hour == pytest.approx(24 * days)


def test_a_bar_of_another_build_says_whose_it_is_and_opens_when_chosen_again(view, bridge, qtbot):
    view.canvas.zoom(12)
    key = key_of(view, "Belt pouch/rivet")
    view.canvas.hands.walk_to(key)
    assert line(view).startswith("of Belt pouch")
    qtbot.keyClick(view.canvas, Qt.Key.Key_Return)
    assert bridge.selection.steps == ()
    assert view.line.open.isVisible()
    with qtbot.waitSignal(view.opening) as told:
        qtbot.keyClick(view.canvas, Qt.Key.Key_Return)
    assert told.args == ["Belt pouch", "Belt pouch/rivet"]
    with qtbot.waitSignal(view.opening):
        view.line.open.click()
    with qtbot.waitSignal(view.opening):
        qtbot.keyClick(view.canvas, Qt.Key.Key_O)


def test_a_double_click_opens_another_build(view, qtbot):
    view.canvas.zoom(12)
    key = key_of(view, "Left elbow/rivet")
    view.canvas.reveal(key)
    with qtbot.waitSignal(view.opening) as told:
        qtbot.mouseDClick(
            view.canvas.viewport(), Qt.MouseButton.LeftButton, pos=spot_of(view, key)
        )
    assert told.args == ["Left elbow", "Left elbow/rivet"]


def test_a_better_plan_keeps_zoom_instant_and_ring_and_waits_for_a_moving_pointer(
    view, bridge, session, qtbot
):
    canvas = view.canvas
    canvas.zoom(6)
    key = key_of(view, "Gorget/rivet")
    canvas.hands.walk_to(key)
    left_at = canvas.geometry_now.instant(canvas.margin_px() - canvas._offset().x())
    zoom = canvas.geometry_now.px_an_hour
    session.week_plan = earlier(session.week_plan, "Gorget/cut", 600)
    bridge.changed.emit()
    assert "Gorget/rivet" in canvas.geometry_now.blocks[canvas.hands.here].steps
    assert canvas.geometry_now.px_an_hour == zoom
    again = canvas.geometry_now.instant(canvas.margin_px() - canvas._offset().x())
    assert abs(again - left_at) < timedelta(minutes=2)
    assert canvas.geometry_now.origin_at < left_at

    shown = view.week
    canvas._moved.start()
    canvas.is_pointed_at = lambda: True
    session.week_plan = week_plan()
    bridge.changed.emit()
    assert view.week is shown
    canvas.is_pointed_at = lambda: False
    qtbot.waitUntil(lambda: view.week is not shown)


def earlier(plan, step, minutes):
    """The plan with one step so much sooner, even before its origin."""
    placed = tuple(
        replace(p, start_min=p.start_min - minutes, end_min=p.end_min - minutes)
        if p.id == step
        else p
        for p in plan.shown.plan.placed
    )
    shown = ShownPlan(plan=replace(plan.shown.plan, placed=placed), origin_at=ORIGIN_AT)
    return replace(plan, shown=shown)


def test_what_was_done_at_the_bench_is_shown_at_once_even_under_the_pointer(view, bridge, session):
    view.canvas.is_pointed_at = lambda: True
    session.week_plan = earlier(session.week_plan, "Gorget/cut", 60)
    bridge.changed.emit()
    shown = view.week
    bridge.acted.emit()
    assert view.week is not shown


def test_bars_stay_in_their_rows_where_they_can():
    before = week_of(facts(), By.PLACE)
    first = WeekGeometry(week=before, px_an_hour=40, text_px=14)
    plan = earlier(week_plan(), "Gorget/rivet", 200)
    after = week_of(facts(plan=plan), By.PLACE)
    second = WeekGeometry(week=after, px_an_hour=40, text_px=14, former=first)
    rows = {key: block.row for key, block in second.blocks.items()}
    # The left elbow hung together with the gorget, which is taken down sooner now.
    assert rows.pop("Left elbow/dye@place:rack") == 3
    assert rows == {key: block.row for key, block in first.blocks.items()}
    afresh = WeekGeometry(week=after, px_an_hour=40, text_px=14)
    assert {b.row for b in afresh.blocks.values() if not b.attended} == {0, 1, 2, 3}
    assert afresh.blocks["Breastplate/dye@place:rack"].row == 2


def test_c_compares_with_what_was_promised_only_where_something_was(view, session, qtbot):
    before = view.canvas.viewport().grab().toImage()
    view.canvas.fit()
    plain = view.canvas.viewport().grab().toImage()
    qtbot.keyClick(view.canvas, Qt.Key.Key_C)
    assert view.canvas.viewport().grab().toImage() != plain
    assert before != plain
    session.week_plan = week_plan()
    view.refresh()
    assert not view.head.promised.isEnabled()
    assert not view.head.promised.isChecked()
    view.keep_promise()
    view.refresh()
    assert view.head.promised.isEnabled()


def test_a_batch_is_one_block_in_its_bath_and_changes_of_colour_are_counted():
    tray = lanes(week_of(facts(), By.PLACE), 200)[0]
    assert [len(block.bars) for block in tray.blocks] == [2, 2, 1]
    # From the black it holds to chestnut, to black, and to chestnut again.
    assert changes_in(tray) == 3
    assert family_words("alcohol_dye|chestnut") == "chestnut alcohol dye"


def test_no_two_colours_of_a_bath_look_alike():
    families = ("a", "b", "c", "d", "e")
    for colours in (LIGHT, DARK):
        looks = [family_brush(family, families, colours) for family in families]
        assert len({(tint.name(), weave.style()) for tint, weave in looks}) == len(families)
        assert len({weave.style() for _, weave in looks}) == len(families)


def test_what_pauses_stays_a_block_of_its_own():
    apprentice = lanes(week_of(facts(), By.PERSON), 3)[1]
    paused = [block for block in apprentice.blocks if any(bar.rests for bar in block.bars)]
    assert [block.steps for block in paused] == [("Right elbow/polish",)]


def test_blocks_say_their_window_their_rest_and_their_promise():
    week = week_of(facts("Right elbow", promised=True), By.PERSON)
    geometry = WeekGeometry(week=week, px_an_hour=300, text_px=14)
    maker = week.lanes[0]
    rivet = geometry.blocks[geometry.key_of_step("Right elbow/rivet")]
    assert "has to begin by 14:35" in block_sentence(rivet, maker, geometry.zone)
    polish = geometry.blocks[geometry.key_of_step("Right elbow/polish")]
    said = block_sentence(polish, maker, geometry.zone)
    assert "pauses while closed" in said
    assert "promised Wed 6 May 14:30" in said
    rack = week_of(facts("Right elbow"), By.PLACE)
    hanging = WeekGeometry(week=rack, px_an_hour=300, text_px=14)
    dyed = next(b for b in hanging.blocks.values() if not b.attended)
    lane = next(each for each in rack.lanes if each.name == "rack")
    said = block_sentence(dyed, lane, hanging.zone)
    assert "rack, takes 4 of 12" in said
    assert "dry Tue 02:50, then it only hangs" in said


def test_lanes_say_due_dates_lateness_and_how_full_a_rack_gets():
    week = week_of(facts(), By.BUILD)
    zone = WeekGeometry(week=week, px_an_hour=3, text_px=14).zone
    told = {lane.name: lane_lines(lane, zone) for lane in week.lanes}
    assert told["Right elbow"] == ("due Thu 7 May 08:00", "1 h 30 min late")
    assert told["Gorget"][1] == "1 h 30 min to spare"
    assert told["Belt pouch"] == ()
    places = {e.name: lane_lines(e, zone) for e in week_of(facts(), By.PLACE).lanes}
    assert places["rack"] == ("at most 10 of 12 taken",)
    assert share_words(2031, 2400) == "85\N{NO-BREAK SPACE}%"
    assert places["tray"] == ("holds black dye",)


def test_the_table_has_due_dates_loads_and_whose_each_step_is():
    rows = {row.key: row for row in week_rows(week_of(facts(), By.BUILD))}
    due = rows["due:Right elbow"]
    assert due.cells[4] == "1 h 30 min late"
    assert "1 h 30 min late" in due.spoken
    assert rows["Left elbow/cut"].cells[5] == "Left elbow"
    assert "of Left elbow" in rows["Left elbow/cut"].spoken
    loads = [row for row in week_rows(week_of(facts(), By.PERSON)) if row.key[:5] == "load:"]
    told = {(row.cells[3], row.cells[2]) for row in loads}
    assert ("Maker", "6 h 55 min of 9 h taken") in told


def test_a_new_plan_leaves_the_table_where_it_was_read(view, session):
    view.twin.setVisible(True)
    bar = view.twin.verticalScrollBar()
    bar.setValue(bar.maximum() - 3)  # A change of the tray may fall out of the table.
    top = view.twin_model.key_at(view.twin.indexAt(QPoint(0, 0)))
    session.week_plan = earlier(session.week_plan, "Gorget/cut", 600)
    view.refresh()
    assert view.twin_model.key_at(view.twin.indexAt(QPoint(0, 0))) == top


def test_days_run_in_weeks_where_they_are_narrow(view):
    view.canvas.zoom(1e-9)
    assert view.canvas.geometry_now.px_an_hour == 0.5
    view.canvas.viewport().grab()


def test_the_week_is_written_as_it_is_laid(view, qtbot, bridge, tmp_path):
    view.lay(By.BUILD)
    file = tmp_path / "week.svg"
    with qtbot.waitSignal(bridge.said, timeout=10_000, check_params_cb=lambda t: "Written" in t):
        view.saver.write(file, view.week, compares=True)
    drawn = file.read_text(encoding="utf-8")
    assert "</svg>" in drawn
    with qtbot.waitSignal(bridge.said, timeout=10_000, check_params_cb=lambda t: "Let its" in t):
        view.saver.write(tmp_path / "week.txt", view.week, compares=False)


def test_plans_that_come_faster_than_a_long_week_is_laid_are_seen_all_the_same(
    view, session, bridge, qtbot
):
    session.week_plan = many(FEW + 100)
    told = []
    view.desk.laid.connect(told.append)
    for _ in range(20):
        bridge.changed.emit()
    view.lay(By.BUILD)
    qtbot.waitUntil(lambda: view.week.by is By.BUILD, timeout=5000)
    # The first one, which was under way, and the last one; none of those between.
    assert [laid.week.by for laid in told] == [By.PERSON, By.BUILD]
    assert len(view.week.bars) > FEW


def test_a_long_week_is_laid_off_the_window_s_thread(view, session, qtbot):
    session.week_plan = many(FEW + 100)
    shown = view.week
    view.refresh()
    assert view.week is shown
    qtbot.waitUntil(lambda: view.week is not shown, timeout=5000)
    assert len(view.week.bars) > FEW


# The figure is the processor's time of the window's thread. Measured with 3,000 bars on an idle
# machine: up to 17 ms to lay out, 30 ms to paint all of it, 14 ms to paint a day.
MOST_S = 0.05
IDLE_S = 0.02
"""So long an idle machine counts to 300,000; one that is shared takes longer, also for the chart."""


@pytest.fixture
def most_s():
    """How long one act may take on the machine as it is just now."""
    return MOST_S * max(1.0, min(took(count) for _ in range(3)) / IDLE_S)


def count():
    total = 0
    for number in range(300_000):
        total += number


@pytest.mark.parametrize("bars", [600, 3000])
@pytest.mark.parametrize("by", list(By))
def test_the_window_is_never_held_up(bars, by, qtbot, most_s):
    laid = laid_week(facts("Piece 1", plan=many(bars)), by)
    canvas = WeekCanvas(laid.week)
    qtbot.addWidget(canvas)
    canvas.resize(1400, 700)
    canvas.show()
    acts = (
        lambda: canvas.show_week(replace(laid.week)),
        canvas.fit,
        canvas.viewport().repaint,
        lambda: canvas.show_days(7),
        canvas.viewport().repaint,
        lambda: canvas.key_at(QPoint(600, 300)),
        lambda: canvas.reveal(canvas.first()),
    )
    for act in acts:
        assert min(took(act) for _ in range(3)) < most_s


def took(act):
    start = time.thread_time()
    act()
    return time.thread_time() - start


def test_zone_and_point_are_those_of_the_scene(view):
    assert view.week.zone == ZONE
    assert view.canvas.geometry_now.key_near(QPointF(-900, -900)) == ""
    assert {lane.kind for lane in view.week.lanes} == {LaneKind.PERSON, LaneKind.DRYING}


def test_a_block_of_several_builds_speaks_of_what_is_chosen_and_opens_none(view, bridge):
    view.canvas.zoom(1e-9)
    geometry = view.canvas.geometry_now
    mixed = next(
        block
        for block in geometry.blocks.values()
        if any(not bar.build for bar in block.bars) and any(bar.build for bar in block.bars)
    )
    own = next(bar for bar in mixed.bars if not bar.build)
    assert own.title in block_sentence(mixed, view.week.lanes[0], geometry.zone, chosen={own.step})
    view._say(mixed.key)
    assert not view.line.open.isVisible()
    assert line(view).startswith(f"{len({bar.build for bar in mixed.bars})} builds")


def test_people_have_one_row_whatever_came_before():
    before = week_of(facts(), By.PERSON)
    first = WeekGeometry(week=before, px_an_hour=300, text_px=14)
    swapped = earlier(earlier(week_plan(), "Gorget/cut", -60), "Left elbow/cut", 60)
    after = week_of(facts(plan=swapped), By.PERSON)
    second = WeekGeometry(week=after, px_an_hour=300, text_px=14, former=first)
    assert [lane.rows for lane in second.lanes[:3]] == [1, 1, 1]


def test_the_week_has_most_of_the_height_and_all_of_it_where_that_is_little(bridge, qtbot):
    deck = Deck(bridge)
    qtbot.addWidget(deck)
    deck.resize(700, 900)
    deck.show()
    deck.go(4)
    qtbot.waitUntil(lambda: deck.sizes()[0] > 0.7 * sum(deck.sizes()))
    assert deck.reasons.isVisible()
    deck.resize(700, 430)
    assert not deck.reasons.isVisible()
    deck.go(0)
    assert deck.reasons.isVisible()
    deck.end_jobs()


def test_what_is_chosen_elsewhere_is_brought_into_view_once(view, bridge, session):
    canvas = view.canvas
    canvas.zoom(20)
    canvas.horizontalScrollBar().setValue(0)
    canvas.clearFocus()
    bridge.choose_steps(("Gorget/polish",))
    box = canvas.geometry_now.boxes[key_of(view, "Gorget/polish")]
    seen = canvas.viewport().rect()
    assert seen.intersects(box.translated(canvas._offset()).toRect())
    canvas.horizontalScrollBar().setValue(0)
    session.week_plan = week_plan()
    bridge.changed.emit()
    assert canvas.horizontalScrollBar().value() == 0


def test_a_line_says_which_letter_is_which_build(view, qtbot):
    words = view.letters.text().replace("\N{NO-BREAK SPACE}", " ")
    assert words.startswith("A Gorget, B Right elbow, C Left elbow, D Breastplate, E Belt pouch.")
    assert words.endswith("Filled: open here; +: and others.")
    assert view.letters.isVisible()
    qtbot.mouseClick(view.findChild(object, "week_by_build"), Qt.MouseButton.LeftButton)
    assert not view.letters.isVisible(), "the lanes have the letters with the names"


def test_long_names_of_builds_alike_keep_their_ends(view):
    names = ("Elbow cop of the night round, 1", "Elbow cop of the night round, 2")
    lanes = [replace(lane, name=name) for lane, name in zip(view.week.builds, names, strict=False)]
    words = letters_words(replace(view.week, builds=tuple(lanes)))
    assert "Gorget" not in words
    assert "Elbow cop…round, 1, " in words
    assert "Elbow cop…round, 2. " in words


def test_it_opens_where_work_begins_when_nobody_works_for_hours(view):
    canvas = view.canvas
    begins_at = min(bar.start_at for bar in view.week.bars)
    canvas.show_week(replace(view.week, now_at=begins_at - timedelta(hours=14)), "Gorget")
    canvas.open_at_now()
    seen_from = canvas.geometry_now.instant(canvas.margin_px() - canvas._offset().x())
    assert timedelta(hours=1) < begins_at - seen_from < timedelta(hours=2)
    canvas.show_week(replace(view.week, now_at=begins_at - timedelta(hours=3)), "Gorget")
    canvas.open_at_now()
    seen_from = canvas.geometry_now.instant(canvas.margin_px() - canvas._offset().x())
    assert begins_at - seen_from > timedelta(hours=4)
