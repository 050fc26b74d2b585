"""The page of shapes: what it lists, lights and shows, the way to it and back, all by key."""

from dataclasses import replace
from time import process_time

import pytest
from desktop.fake_session import FakeSession
from desktop.fake_shapes import BEND, GAPS, LAMES, ROWS_OUT, STACK, many_shapes, some_shapes
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtWidgets import QTabWidget, QWidget

from armorplan.app.rows import Selection
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.theme import palette_of
from armorplan.desktop.widgets.deck import Deck
from armorplan.desktop.widgets.shapes_page import ShapesView
from armorplan.desktop.widgets.shapes_picture import ShapePicture
from armorplan.desktop.widgets.why_line import StepButton

SLOW_S = 0.05


@pytest.fixture
def session(session):
    session.shape_rows = some_shapes()
    return session


@pytest.fixture
def view(bridge, qtbot):
    made = ShapesView(bridge)
    qtbot.addWidget(made)
    made.resize(900, 600)
    made.show()
    qtbot.waitExposed(made)
    return made


def listed(view):
    model = view.model
    tops = [model.index(at, 0) for at in range(model.rowCount())]
    found = (model.index(n, 0, top) for top in tops for n in range(model.rowCount(top)))
    return [model.row_at(index).id for index in found]


def choose(view, row_id):
    view.list.setCurrentIndex(view.model.index_of(row_id))


def test_choosing_a_line_lights_it_and_tells_its_numbers(view, bridge):
    choose(view, "rows:left")
    assert bridge.selection.measures == ("rows:left",)
    assert bridge.selection.joints == ("piece_0.upper_0",)
    text = view.detail.text.toPlainText()
    assert "Move it 2.0 mm back in the drawing." in text
    assert "measured on the drawing" in text
    assert view.detail.picture.isVisible()
    assert "to move 2.0" in view.detail.picture.accessibleName()
    choose(view, "rows:right")
    assert not view.detail.picture.isVisible()


def test_the_gravest_fault_is_told_at_once_and_lights_nothing_yet(view, bridge):
    assert view.detail.row.id == "lames:elbow"
    assert view.model.row_at(view.list.currentIndex()).id == "lames:elbow"
    assert bridge.selection == Selection()


def test_where_all_is_sound_one_is_asked_to_choose(view, bridge):
    sound = FakeSession.of(30)
    sound.shape_rows = tuple(
        replace(row, severity="", findings=()) for row in some_shapes() if row.severity != "error"
    )
    bridge.open(sound)
    assert view.detail.row is None
    assert "Choose a line" in view.detail.text.toPlainText()


def test_what_has_no_picture_leaves_its_room_to_the_words(view):
    assert view.detail.picture.isVisible()
    choose(view, "rows:right")
    assert not view.detail.picture.isVisible()


def test_headings_choose_nothing(view, bridge):
    choose(view, "rows:left")
    view.list.setCurrentIndex(view.model.index(0, 0))
    assert bridge.selection.measures == ("rows:left",)
    assert view.detail.row.id == "rows:left"


def test_the_filter_and_the_switch_narrow_it_and_escape_widens_it(view, qtbot):
    choose(view, "bends:cuff")
    view.only.click()
    assert listed(view) == ["rows:left", "lames:elbow"]
    assert view.detail.row.id == "bends:cuff"  # what is read is not taken away
    view.words.setText("elbow")
    assert listed(view) == ["lames:elbow"]
    qtbot.keyClick(view.list, Qt.Key.Key_Escape)
    assert view.words.text() == ""
    view.only.click()
    assert len(listed(view)) == len(some_shapes())
    assert view.model.row_at(view.list.currentIndex()).id == "bends:cuff"


def test_what_is_chosen_elsewhere_is_shown(view, bridge):
    bridge.choose_measure("lames:elbow")
    assert view.model.row_at(view.list.currentIndex()).id == "lames:elbow"
    assert view.detail.row.id == "lames:elbow"
    bridge.select(Selection(parts=("piece_0.petal_mid",)))
    assert view.detail.row.id == "lames:elbow"


def test_an_edit_renews_the_page_and_keeps_the_place(view, bridge, session):
    choose(view, "rows:left")
    reset = []
    view.model.modelReset.connect(lambda: reset.append(1))
    first = replace(session.shape_rows[0], verdict="meet", severity="", findings=())
    edited = FakeSession.of(92)
    edited.shape_rows = (first, *session.shape_rows[1:])
    bridge.open(edited)
    assert view.detail.row == first
    assert "Move it" not in view.detail.text.toPlainText()
    assert view.model.row_at(view.list.currentIndex()) == first
    assert reset == []


def test_a_build_without_shapes_says_so(view, bridge):
    bridge.open(FakeSession.of(30))
    assert listed(view) == []
    assert "no rows, covers, bends or lames" in view.detail.text.toPlainText()


@pytest.fixture
def deck(bridge, qtbot):
    made = Deck(bridge)
    qtbot.addWidget(made)
    made.resize(760, 640)
    made.show()
    qtbot.waitExposed(made)
    yield made
    made.needs.end_jobs()


def front(deck):
    return deck.findChild(QTabWidget, "pictures").currentWidget().objectName()


def test_the_key_leads_to_the_numbers_and_back(deck, bridge):
    bridge.choose_joint("piece_0.upper_0")
    before = bridge.selection
    deck.way.reckon()
    assert front(deck) == "shapes_page"
    assert bridge.selection.measures == ("rows:left",)
    assert deck.shapes.list.hasFocus()
    deck.way.reckon()
    assert front(deck) == "parts_diagram"
    assert bridge.selection == before


def test_escape_leads_back_as_well(deck, bridge, qtbot):
    bridge.choose_part("piece_0.lame_1")
    deck.way.reckon(GAPS)
    assert deck.shapes.detail.row.id == "lames:elbow"
    qtbot.keyClick(deck.shapes.detail.text, Qt.Key.Key_Escape)
    assert front(deck) == "parts_diagram"
    qtbot.keyClick(deck.shapes.list, Qt.Key.Key_Escape)
    assert front(deck) == "parts_diagram"


def test_it_leads_back_where_what_had_the_keyboard_is_gone(deck, bridge, qtbot):
    step = bridge.session.choose_joint("piece_0.upper_0").steps[0]
    bridge.choose_steps((step,))
    deck.activateWindow()
    line = deck.why.findChildren(StepButton)[0]
    line.setFocus()
    qtbot.waitUntil(line.hasFocus)
    deck.way.reckon()
    assert front(deck) == "shapes_page"
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    deck.way.go_back()
    assert front(deck) == "parts_diagram"


def test_it_shows_a_measure_that_the_filter_hides(deck, bridge):
    deck.go(1)
    deck.shapes.only.setChecked(True)
    deck.go(0)
    bridge.choose_joint("piece_0.upper_1")
    deck.way.reckon()
    assert deck.shapes.detail.row.id == "rows:right"
    assert not deck.shapes.only.isChecked()


def test_where_no_number_speaks_of_it_that_is_said(deck, bridge, qtbot):
    bridge.select(Selection())
    with qtbot.waitSignal(bridge.said, check_params_cb=lambda said: said.startswith("No number")):
        deck.way.reckon()
    assert front(deck) == "parts_diagram"


def test_enter_goes_to_the_parts_with_the_measure_chosen(deck, bridge, qtbot):
    deck.go(1)
    choose(deck.shapes, "rows:left")
    qtbot.keyClick(deck.shapes.list, Qt.Key.Key_Return)
    assert front(deck) == "parts_diagram"
    assert bridge.selection.measures == ("rows:left",)


def test_the_reasons_make_room_and_come_back(deck):
    assert deck.why.isVisible()
    deck.go(1)
    assert not deck.why.isVisible()
    deck.go_why()
    assert deck.why.isVisible()
    deck.go(1)
    deck.go(0)
    assert deck.why.isVisible()


def test_hundreds_of_measures_hold_nothing_up(view, bridge, qapp):
    bridge.open(_with(many_shapes(400)))
    qapp.processEvents()
    rows = bridge.session.shape_rows
    edited = (replace(rows[0], verdict="out"), *rows[2:])
    other = _with(edited)
    bridge.session.shape_rows = edited
    start = process_time()
    view.refresh()
    qapp.processEvents()
    took_s = process_time() - start
    assert view.model.rowCount() == 2
    assert other.shape_rows == edited
    assert took_s < SLOW_S * 2  # twice as long where other work shares the processor


def _with(rows):
    made = FakeSession.of(30)
    made.shape_rows = rows
    return made


@pytest.mark.parametrize("colours", [LIGHT, DARK])
@pytest.mark.parametrize("picture", [ROWS_OUT, BEND, STACK, LAMES])
@pytest.mark.parametrize("size", [(170, 60), (420, 260), (900, 500)])
def test_every_picture_is_painted_at_every_size(qtbot, picture, size, colours):
    shown = ShapePicture()
    qtbot.addWidget(shown)
    shown.setPalette(palette_of(colours))
    shown.show_picture(picture)
    shown.resize(*size)
    image = shown.grab().toImage()
    wide, high = image.width(), image.height()
    seen = {image.pixel(x, y) for x in range(0, wide, 3) for y in range(0, high, 3)}
    assert len(seen) > 5
    assert shown.wanted_px(size[0]) > 60
    assert shown.accessibleName()


def test_the_picture_is_reached_by_tab(view):
    choose(view, "bends:cuff")
    reached: list[QWidget] = [view.words]
    while (following := reached[-1].nextInFocusChain()) is not view.words:
        reached.append(following)
    assert view.detail.picture in reached
    assert view.detail.picture.focusPolicy() & Qt.FocusPolicy.TabFocus


def test_sound_topics_are_folded_at_first_and_the_keys_begin_at_a_fault(view, bridge, session):
    rows = [replace(row, severity="") for row in some_shapes()]
    rows[-1] = replace(rows[-1], severity="error")
    session.shape_rows = tuple(rows)
    bridge.opened.emit()
    tops = [view.model.index(at, 0) for at in range(view.model.rowCount())]
    is_open = [view.list.isExpanded(top) for top in tops]
    assert is_open == [False] * (len(tops) - 1) + [True]
    view.words.setText("post")
    assert all(
        view.list.isExpanded(view.model.index(at, 0)) for at in range(view.model.rowCount())
    )


def test_the_reasons_get_what_the_parts_need_not_until_one_draws_the_line_by_hand(bridge, qtbot):
    deck = Deck(bridge)
    qtbot.addWidget(deck)
    deck.resize(500, 900)
    deck.show()
    assert deck.heights().isEmpty()
    pictures, reasons = deck.sizes()
    assert pictures < reasons * 1.5
    deck.setSizes([700, 200])
    deck.splitterMoved.emit(700, 1)
    kept = deck.sizes()
    deck.resize(501, 900)
    assert deck.sizes() == kept
    other = Deck(bridge)
    qtbot.addWidget(other)
    other.take_heights(deck.heights())
    other.resize(501, 900)
    other.show()
    assert other.sizes() == kept
