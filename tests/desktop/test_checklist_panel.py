"""Working the checklist by key."""

from dataclasses import replace
from itertools import product

import pytest
from desktop.fake_session import FakeSession
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics, QPalette
from PySide6.QtWidgets import QLabel

from armorplan.app.rows import BenchState, Grouping
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.theme import palette_of
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.checklist_delegate import (
    LEAST_ROW_PX,
    broken,
    shortened,
    small_font,
)
from armorplan.desktop.widgets.checklist_panel import ChecklistPanel

Key = Qt.Key


@pytest.fixture
def panel(bridge, qtbot):
    ticker = Ticker(bridge)
    made = ChecklistPanel(bridge, ticker)
    qtbot.addWidget(made)
    made.resize(560, 600)
    made.show()
    made.view.setFocus()
    yield made
    ticker.deleteLater()


@pytest.fixture
def heard(bridge):
    said = []
    bridge.said.connect(said.append)
    return said


def go_to(panel, row_id):
    panel.view.setCurrentIndex(panel.view.rows.index_of(row_id))


def titles(panel):
    view, out = panel.view, []
    index = view.rows.index(0, 0)
    while index.isValid():
        out.append(view.rows.row_at(index).title)
        index = view.indexBelow(index)
    return out


def test_space_ticks_the_chosen_step(panel, bridge, session, qtbot):
    step = session.ready_steps()[0]
    bridge.choose_steps((step,))
    qtbot.keyClick(panel.view, Key.Key_Space)
    assert session.states()[step] is BenchState.DONE
    assert panel.view.current_row().id == step


def test_space_on_a_tray_ticks_what_is_open_of_it(panel, bridge, session, qtbot, heard):
    first = session.ready_steps()[0]
    bridge.done((first,))
    go_to(panel, "tray:piece_0/0")
    qtbot.keyClick(panel.view, Key.Key_Space)
    assert heard[-1] == "Done: 4 steps"
    qtbot.keyClick(panel.view, Key.Key_Space)
    assert heard[-1] == "Cut the parts: done already."


def test_a_tray_acts_on_what_a_filter_shows_of_it(panel, bridge, session, qtbot):
    panel.words.setText("cut strap")
    go_to(panel, "tray:piece_0/0")
    shown = panel.view.rows.shown_steps(panel.view.current_row())
    qtbot.keyClick(panel.view, Key.Key_Return)
    states = session.states()
    assert {s for s, state in states.items() if state is BenchState.RUNNING} == set(shown)
    qtbot.keyClick(panel.view, Key.Key_Space)
    states = session.states()
    assert {s for s, state in states.items() if state is BenchState.DONE} == set(shown)
    assert 0 < len(shown) < len(panel.view.current_row().steps)


def test_enter_starts_and_pauses(panel, bridge, session, qtbot):
    step = session.ready_steps()[0]
    bridge.choose_steps((step,))
    for expected in (BenchState.RUNNING, BenchState.PAUSED, BenchState.RUNNING):
        qtbot.keyClick(panel.view, Key.Key_Return)
        assert session.states()[step] is expected


def test_a_step_before_its_turn_may_be_started(panel, bridge, session, qtbot):
    step = session.steps[6].id
    bridge.choose_steps((step,))
    assert session.states()[step] is BenchState.WAITING
    qtbot.keyClick(panel.view, Key.Key_Enter)
    assert session.states()[step] is BenchState.RUNNING


def test_drying_and_done_steps_say_so(panel, bridge, session, qtbot, heard):
    dry = next(s for s in session.steps if s.kind == "dry")
    session.start((dry.id,))
    bridge.choose_steps((dry.id,))
    qtbot.keyClick(panel.view, Key.Key_Return)
    assert heard[-1] == "Dry the lower petal: drying goes on by itself."
    bridge.done((dry.id,))
    qtbot.keyClick(panel.view, Key.Key_Return)
    assert heard[-1] == "Dry the lower petal: done already."


def test_without_a_chosen_step_it_asks_for_one(bridge, qtbot, heard):
    ticker = Ticker(bridge)
    bridge.done(tuple(s.id for s in bridge.session.steps))
    panel = ChecklistPanel(bridge, ticker)
    qtbot.addWidget(panel)
    for act in (panel.acts.tick, panel.acts.start_or_pause, panel.acts.write_note):
        act()
        assert heard.pop() == "Choose a step or a tray first."
    ticker.deleteLater()


def test_moving_the_cursor_chooses_for_every_view(panel, bridge, session, qtbot):
    go_to(panel, session.steps[0].id)
    qtbot.keyClick(panel.view, Key.Key_Down)
    assert bridge.selection.steps == (session.steps[1].id,)


def test_a_choice_from_elsewhere_opens_and_scrolls_to_the_step(panel, bridge, session):
    last = session.steps[-1].id
    bridge.choose_steps((last,))
    index = panel.view.rows.index_of(last)
    assert panel.view.currentIndex() == index
    assert panel.view.viewport().rect().intersects(panel.view.visualRect(index))


def test_a_part_from_elsewhere_goes_to_its_first_ready_step_and_lights_all(panel, bridge, session):
    bridge.choose_part("piece_1.strap")
    chosen = bridge.selection.steps
    assert len(chosen) > 3
    assert panel.view.current_row().id == "watch/piece_1/none/cut_0/strap"
    assert panel.view._painter.lit == frozenset(chosen)
    assert bridge.selection.steps == chosen


def test_ready_only_shows_only_what_can_be_done(panel, bridge, session, qtbot):
    panel.set_ready_only(True)
    steps = [t for t in titles(panel) if t.startswith(("Cut the ", "Bevel the "))]
    assert len([t for t in steps if t.startswith("Cut the ")]) == 12
    assert not [t for t in steps if t.startswith("Bevel the ")]


def test_a_tick_in_ready_only_goes_on_to_the_step_beside(panel, bridge, session, qtbot):
    panel.set_ready_only(True)
    first = session.ready_steps()[0]
    bridge.choose_steps((first,))
    qtbot.keyClick(panel.view, Key.Key_Space)
    row = panel.view.current_row()
    assert row.id == session.steps[1].id
    assert bridge.selection.steps == (row.id,)


def test_the_last_tick_of_a_piece_never_leaves_the_key_on_the_whole_piece(
    panel, bridge, session, qtbot
):
    bridge.done(tuple(s.id for s in session.steps[:46][:-1]))
    panel.set_ready_only(True)
    bridge.choose_steps((session.steps[45].id,))
    qtbot.keyClick(panel.view, Key.Key_Space)
    assert panel.view.current_row().id == session.ready_steps()[0]


def test_one_key_does_not_tick_a_whole_piece(panel, bridge, session, qtbot, heard):
    go_to(panel, "heading:Elbow cop")
    qtbot.keyClick(panel.view, Key.Key_Space)
    assert heard[-1] == "Choose a step or a tray first."
    assert session.can_undo() == ""


def test_with_nothing_left_to_show_the_checklist_keeps_the_keyboard(panel, bridge, session, qtbot):
    bridge.done(tuple(s.id for s in session.steps[:-1]))
    panel.set_ready_only(True)
    bridge.choose_steps((session.steps[-1].id,))
    qtbot.keyClick(panel.view, Key.Key_Space)
    assert panel._nothing.isVisible()
    assert panel.view.current_row() is None
    assert panel.focusWidget() is panel.view


def test_what_was_closed_stays_closed_through_a_filter(panel, session, qtbot):
    tray = panel.view.rows.index_of("tray:piece_0/0")
    go_to(panel, "tray:piece_0/0")
    panel.view.collapse(tray)
    panel.words.setText("strap")
    assert panel.view.isExpanded(panel.view.rows.index_of("tray:piece_0/0"))
    panel.words.clear()
    assert not panel.view.isExpanded(panel.view.rows.index_of("tray:piece_0/0"))


def test_words_filter_and_escape_shows_all(panel, qtbot):
    everything = titles(panel)
    qtbot.keyClicks(panel.words, "lantern boss bevel")
    assert "Bevel the lantern boss" in titles(panel)
    assert "Bevel the arm strap" not in titles(panel)
    qtbot.keyClicks(panel.words, " anchor")
    assert panel._nothing.isVisible()
    assert panel._nothing.text().startswith("No step has all these words")
    qtbot.keyClick(panel.words, Key.Key_Escape)
    assert not panel._nothing.isVisible()
    assert titles(panel) == everything


def test_by_day_groups_under_days(panel):
    panel.set_grouping(Grouping.DAY)
    assert titles(panel)[0] == "Monday 04 May"


def test_next_ready_walks_in_the_plans_order_and_stops_at_the_ends(panel, bridge, session, heard):
    ready = session.ready_steps()
    assert bridge.selection.steps == ready[:1]
    panel.acts.go_ready(1)
    assert bridge.selection.steps == ready[1:2]
    panel.acts.go_ready(-1)
    assert bridge.selection.steps == ready[:1]
    panel.acts.go_ready(-1)
    assert heard[-1] == "No further ready step that way."
    assert bridge.selection.steps == ready[:1]


def test_no_ready_step_is_said(panel, bridge, session, heard):
    bridge.done(tuple(s.id for s in session.steps))
    panel.acts.go_ready(1)
    assert heard[-1] == "No step is ready now."


def test_a_row_stays_chosen_when_a_filter_that_hid_all_goes(panel, bridge, session, qtbot):
    step = session.ready_steps()[2]
    bridge.choose_steps((step,))
    panel.words.setText("anchor")
    assert panel.view.current_row() is None
    qtbot.keyClick(panel.words, Key.Key_Escape)
    assert panel.view.current_row().id == step
    panel.words.setText("anchor")
    panel.acts.go_ready(1)
    assert panel.view.current_row().state is BenchState.READY
    assert panel.words.text() == ""


def test_next_ready_unfolds_the_tray_it_goes_into(panel, bridge, session):
    first = session.ready_steps()[0]
    tray = panel.view.rows.index_of("tray:piece_0/0")
    for before in ((), (first,)):
        bridge.choose_steps(before)
        panel.view.collapse(tray)
        go_to(panel, "tray:piece_0/0")
        panel.acts.go_ready(1)
        index = panel.view.currentIndex()
        assert index == panel.view.rows.index_of(first)
        assert panel.view.isExpanded(tray)
        assert panel.view.viewport().rect().contains(panel.view.visualRect(index))
    panel.refresh()
    assert panel.view.isExpanded(tray)


def test_a_note_is_written_without_a_dialog(panel, bridge, session, qtbot):
    step = session.ready_steps()[0]
    bridge.choose_steps((step,))
    panel.acts.write_note()
    assert panel._note.isVisible()
    qtbot.keyClicks(panel._note._text, "grain runs across")
    qtbot.keyClick(panel._note._text, Key.Key_Return)
    assert session.notes == [(step, "grain runs across")]
    assert not panel._note.isVisible()
    panel.acts.write_note()
    qtbot.keyClicks(panel._note._text, "never mind")
    qtbot.keyClick(panel._note._text, Key.Key_Escape)
    assert len(session.notes) == 1


def test_another_build_forgets_what_was_open(panel, bridge):
    bridge.open(FakeSession.of(20))
    assert titles(panel)[0] == "Elbow cop"


def test_rows_are_targets_and_narrow_ones_take_two_title_lines(panel, qtbot):
    view = panel.view
    one = view.rowHeight(view.rows.index(0, 0))
    assert one >= LEAST_ROW_PX
    panel.resize(320, 600)
    qtbot.waitUntil(lambda: view.rowHeight(view.rows.index(0, 0)) > one)
    assert view._painter.title_lines in (2, 3)


def test_what_to_do_about_a_missed_window_is_told_to_its_end(panel, bridge, session, monkeypatch):
    step = session.ready_steps()[0]
    told = "closed at 14:20. Case it again: sponge it and wait until its colour comes back."
    rows = session.checklist(Grouping.PIECE)
    missed = tuple(
        replace(row, state=BenchState.MISSED, waits_for=told) if row.id == step else row
        for row in rows
    )
    panel.resize(420, 600)
    before = panel.view.sizeHintForIndex(panel.view.rows.index_of(step)).height()
    monkeypatch.setattr(session, "checklist", lambda _grouping: missed)
    panel.refresh()
    painter, font = panel.view._painter, panel.font()
    assert panel.view.sizeHintForIndex(panel.view.rows.index_of(step)).height() > before
    row = next(row for row in missed if row.id == step)
    column_px = panel.view.columnWidth(0) - 3 * panel.view.indentation()
    width = column_px - painter.beside_title(font)
    title = broken(row.title, QFontMetrics(font), width, painter.title_lines)
    room = painter.state_lines + painter.title_lines - len(title)
    lines = broken(painter._words.state_line(row), QFontMetrics(small_font(font)), width, room)
    assert " ".join(lines) == f"missed: {told}"


def test_long_titles_break_between_words(panel):
    metrics = panel.fontMetrics()
    width = metrics.horizontalAdvance("Rivet the lantern ")
    lines = broken("Rivet the lantern boss over the row heads", metrics, width, 2)
    assert lines[0] == "Rivet the lantern"
    assert lines[1].endswith("…")
    assert broken("Cut", metrics, width, 2) == ("Cut",)
    assert len(broken("Unbreakablelongword" * 3, metrics, width, 2)) <= 2


def test_a_title_that_ends_in_a_side_keeps_it(panel):
    metrics = panel.fontMetrics()
    width = metrics.horizontalAdvance("Rivet the lantern boss (left)")
    said = shortened("Rivet the lantern boss over the row heads (left)", metrics, width)
    assert "…" in said
    assert said.endswith("(left)")
    assert shortened("Rivet the lantern boss over the row heads", metrics, width).endswith("…")


def test_the_whole_title_can_be_read_as_a_tooltip(panel, session):
    index = panel.view.rows.index_of(session.ready_steps()[0])
    told = index.data(Qt.ItemDataRole.ToolTipRole)
    assert panel.view.rows.row_at(index).title in told
    assert BenchState.READY.value in told


def test_the_heading_in_sight_is_named_and_leads_to_the_others(panel, qtbot):
    line = panel.findChild(QLabel, "checklist_headings")
    view = panel.view
    headings = [view.rows.row_at(view.rows.index(at, 0)) for at in range(view.rows.rowCount())]
    assert len(headings) == 2
    view.scrollToTop()
    assert line.isVisible()
    assert line.accessibleName() == f"In sight: {headings[0].title}"
    assert f"<b>{headings[0].title}</b>" in line.text()
    line.linkActivated.emit(headings[1].id)
    assert view.current_row().id == headings[1].id
    assert view.hasFocus()
    view.scrollTo(view.rows.index(1, 0), view.ScrollHint.PositionAtTop)
    assert line.accessibleName() == f"In sight: {headings[1].title}"


def test_one_heading_needs_no_line(panel):
    panel._headings.show_rows(panel._all[:3])
    assert not panel.findChild(QLabel, "checklist_headings").isVisible()


def test_links_of_the_headings_take_the_colour_of_a_new_theme(panel, qtbot):
    line = panel.findChild(QLabel, "checklist_headings")
    panel.resize(900, 500)
    panel.show()
    assert "<a href" in line.text()
    for colours in (DARK, LIGHT):
        line.setPalette(palette_of(colours))
        shown = line.grab().toImage()
        spots = product(range(shown.width()), range(shown.height()))
        seen = {shown.pixelColor(x, y).name() for x, y in spots}
        assert line.palette().color(QPalette.ColorRole.Link).name() in seen
