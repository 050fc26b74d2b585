"""Steps are put in order by drag, by keys and by buttons, with the same outcome."""

import pytest
from desktop.drill_scene import IDS, ORDER, PLAY, wrong
from PySide6.QtCore import QModelIndex, QPoint, Qt
from PySide6.QtWidgets import QPushButton

from armorplan.desktop.drill_marks import Mark
from armorplan.desktop.drill_order_model import ROW_ROLE, DrillOrderModel
from armorplan.desktop.widgets import drill_form_order
from armorplan.desktop.widgets.drill_form_face import face_height, face_lines
from armorplan.desktop.widgets.drill_form_list import GRIP_PX, face_of
from armorplan.desktop.widgets.drill_forms import make_form

A, B, C, D, E = IDS
ALT = Qt.KeyboardModifier.AltModifier


@pytest.fixture
def said(monkeypatch):
    told = []
    monkeypatch.setattr(drill_form_order, "announce", lambda _widget, text: told.append(text))
    return told


@pytest.fixture
def form(qtbot):
    made = make_form(ORDER)
    qtbot.addWidget(made)
    made.resize(420, 520)
    made.show()
    qtbot.waitExposed(made)
    return made


def middle(form, name):
    return form.list.visualRect(form.steps.index(form.steps.row_of(name))).center()


def spoken(form, at):
    return form.steps.index(at).data(Qt.ItemDataRole.AccessibleTextRole)


def test_it_is_a_sound_model(qtmodeltester, qapp):
    model = DrillOrderModel(ORDER)
    qtmodeltester.check(model)
    for at, to in ((0, 4), (4, 0), (1, 2), (2, 1)):
        assert model.move(at, to)
        qtmodeltester.check(model)


@pytest.mark.parametrize("at", range(5))
@pytest.mark.parametrize("to", range(5))
def test_a_step_that_moves_lies_where_it_was_put_and_all_others_keep_their_order(qapp, at, to):
    model = DrillOrderModel(ORDER)
    assert model.move(at, to) == (at != to)
    rest = [one for one in IDS if one != IDS[at]]
    assert list(model.order()) == [*rest[:to], IDS[at], *rest[to:]]
    assert [model.row(row).place for row in range(5)] == [1, 2, 3, 4, 5]


@pytest.mark.parametrize(("at", "to"), [(-1, 0), (0, 5), (5, 0)])
def test_nothing_moves_beyond_the_ends(qapp, at, to):
    model = DrillOrderModel(ORDER)
    assert not model.move(at, to)
    assert model.order() == IDS


def test_a_named_order_is_laid_and_what_it_leaves_out_lies_behind(qapp):
    model = DrillOrderModel(ORDER)
    model.take((C, "no step", A, C))
    assert model.order() == (C, A, B, D, E)
    assert model.rowCount(model.index(0)) == 0
    assert model.data(QModelIndex()) is None


def test_keys_take_a_step_by_its_letter_and_move_it(form, qtbot, said):
    form.begin()
    with qtbot.waitSignal(form.pointed) as pointed:
        qtbot.keyClick(form.list, Qt.Key.Key_D)
    assert pointed.args == [D]
    with qtbot.waitSignal(form.changed):
        qtbot.keyClick(form.list, Qt.Key.Key_Up, ALT)
    assert form.answer() == (A, B, D, C, E)
    qtbot.keyClick(form.list, Qt.Key.Key_Down, ALT)
    qtbot.keyClick(form.list, Qt.Key.Key_Down, ALT)
    assert form.answer() == (A, B, C, E, D)
    assert said == [f"D is now at place {n} of 5" for n in (3, 4, 5)]
    with qtbot.assertNotEmitted(form.changed):
        qtbot.keyClick(form.list, Qt.Key.Key_Down, ALT)


def test_a_step_goes_to_either_end_by_one_key(form, qtbot):
    form.begin()
    form.choose(C)
    qtbot.keyClick(form.list, Qt.Key.Key_End, ALT)
    assert form.answer() == (A, B, D, E, C)
    qtbot.keyClick(form.list, Qt.Key.Key_Home, ALT)
    assert form.answer() == (C, A, B, D, E)
    qtbot.keyClick(form.list, Qt.Key.Key_E, Qt.KeyboardModifier.ShiftModifier)
    assert form.list.currentIndex().row() == 4


def test_plain_arrows_move_the_keyboard_and_not_the_step(form, qtbot):
    form.begin()
    qtbot.keyClick(form.list, Qt.Key.Key_Down)
    assert form.list.currentIndex().row() == 1
    assert form.answer() == IDS


def test_a_row_goes_with_the_pointer(form, qtbot):
    view = form.list.viewport()
    start, end = middle(form, A), middle(form, C)
    qtbot.mousePress(view, Qt.MouseButton.LeftButton, pos=start)
    for share in range(1, 11):
        spot = QPoint(start.x(), round(start.y() + (end.y() + 20 - start.y()) * share / 10))
        qtbot.mouseMove(view, spot)
    qtbot.mouseRelease(view, Qt.MouseButton.LeftButton, pos=end)
    assert form.answer() == (B, C, A, D, E)
    assert form.list.currentIndex().data(ROW_ROLE).id == A
    qtbot.mouseMove(view, start)
    assert form.answer() == (B, C, A, D, E), "nothing is held any more"


def test_a_row_that_is_dragged_out_below_lies_last(form, qtbot):
    view = form.list.viewport()
    qtbot.mousePress(view, Qt.MouseButton.LeftButton, pos=middle(form, B))
    for _ in range(5):
        qtbot.mouseMove(view, QPoint(40, view.height() + 200))
    qtbot.mouseRelease(view, Qt.MouseButton.LeftButton, pos=QPoint(40, 10))
    assert form.answer() == (A, C, D, E, B)


def test_a_click_takes_a_step_in_hand_and_moves_nothing(form, qtbot):
    qtbot.mouseClick(form.list.viewport(), Qt.MouseButton.LeftButton, pos=middle(form, C))
    assert form.list.currentIndex().row() == 2
    assert form.answer() == IDS


def test_buttons_move_what_is_in_hand_and_end_where_it_cannot_go_on(form, qtbot):
    form.choose(B)
    qtbot.mouseClick(form.up, Qt.MouseButton.LeftButton)
    assert form.answer() == (B, A, C, D, E)
    form.down.setFocus()
    form.choose(E)
    form.choose(B)
    assert not form.up.isEnabled()
    qtbot.mouseClick(form.down, Qt.MouseButton.LeftButton)
    assert form.answer() == IDS


def test_rows_say_their_place_letter_and_words(form):
    assert spoken(form, 0) == "place 1 of 5: A, Rivet the upper row. two-part rivet, 3 mm"
    form.list.setCurrentIndex(form.steps.index(0))
    form.list.move_to(4)
    assert spoken(form, 4).startswith("place 5 of 5: A, ")


def test_every_button_has_a_name(form):
    assert form.list.accessibleName()
    assert form.nearest.accessibleName()
    assert all(button.text() for button in form.findChildren(QPushButton))


def test_a_judged_order_is_marked_and_no_more_moved(form, qtbot):
    form.show_answer((D, C, B, A, E), editable=True)
    form.show_judged(ORDER, wrong(nearest=(C, B, A, D, E), moved=(D,), play=PLAY))
    notes = [form.steps.row(at).note.mark for at in range(5)]
    assert notes == [Mark.BREAK, *[Mark.STAYS] * 4]
    assert spoken(form, 0).endswith(". here it goes wrong; to be moved")
    assert not form.up.isVisible()
    form.begin()
    with qtbot.assertNotEmitted(form.changed):
        qtbot.keyClick(form.list, Qt.Key.Key_Down, ALT)
    assert form.answer() == (D, C, B, A, E)


def test_a_right_order_stands_beside_only_when_it_is_asked_for(form, qtbot):
    form.show_answer((D, C, B, A, E), editable=True)
    assert not form.ask_nearest.isVisible()
    form.show_judged(ORDER, wrong(nearest=(C, B, A, D, E), moved=(D,)))
    assert not form.nearest.isVisible()
    form.ask_nearest.setFocus()
    qtbot.keyClick(form.ask_nearest, Qt.Key.Key_Space)
    assert form.nearest.isVisible()
    qtbot.keyClick(form.list, Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    assert not form.nearest.isVisible()
    shown = [form.nearest.model().row(at).id for at in range(5)]
    assert shown == [C, B, A, D, E]
    form.nearest.setCurrentIndex(form.nearest.model().index(0))
    assert not form.nearest.move_by(1), "it is only looked at"
    form.show_answer((D, C, B, A, E), editable=True)
    assert not form.nearest.isVisible()
    assert form.steps.row(0).note is None
    assert form.list.move_by(1)


def test_a_right_order_lies_below_where_there_is_no_room_beside(form, qtbot):
    form.show_judged(ORDER, wrong(nearest=IDS, moved=(D,)))
    form.ask_nearest.click()
    mine, other = form.list, form.nearest

    def apart():
        return other.mapTo(form, QPoint()) - mine.mapTo(form, QPoint())

    form.resize(360, 640)
    qtbot.waitUntil(lambda: apart().y() > 100 and apart().x() == 0)
    form.resize(1000, 640)
    qtbot.waitUntil(lambda: apart().x() > 400)


def test_no_word_of_a_row_is_cut_in_a_narrow_form_with_big_type(form, qtbot):
    font = form.font()
    font.setPointSizeF(2 * font.pointSizeF())
    form.setFont(font)
    form.resize(360, 700)
    qtbot.waitUntil(lambda: form.list.viewport().width() <= 360)
    room = form.list.viewport().width() - GRIP_PX
    faces = [face_of(form.steps.row(at)) for at in range(5)]
    heights = [form.list.visualRect(form.steps.index(at)).height() for at in range(5)]
    assert heights == [face_height(face, form.list.font(), room) for face in faces]
    assert not any("…" in line for face in faces for line in face_lines(face, font, room).title)
