"""One or some of the choices, by mouse, keys and letters, and what judging leaves at them."""

import pytest
from desktop.drill_scene import FIRST, IDS, MISTAKE, RIGHT, SOME, wrong
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QCheckBox, QRadioButton

from armorplan.desktop.drill_marks import Mark
from armorplan.desktop.widgets import drill_form_some
from armorplan.desktop.widgets.drill_forms import make_form

A, B, C, D, E = IDS


@pytest.fixture
def said(monkeypatch):
    told = []
    monkeypatch.setattr(drill_form_some, "announce", lambda _widget, text: told.append(text))
    return told


@pytest.fixture
def form_of(qtbot):
    def made(drill, wide=420):
        form = make_form(drill)
        qtbot.addWidget(form)
        form.resize(wide, 480)
        form.show()
        qtbot.waitExposed(form)
        form.activateWindow()
        return form

    return made


def marks(form):
    return {
        name: button.face.note.mark for name, button in form.buttons.items() if button.face.note
    }


@pytest.mark.parametrize(("drill", "kind"), [(SOME, QCheckBox), (FIRST, QRadioButton)])
def test_the_form_of_an_answer_decides_the_buttons(form_of, drill, kind):
    form = form_of(drill)
    assert all(isinstance(button, kind) for button in form.buttons.values())
    assert list(form.buttons) == list(IDS)
    roles = {QAccessible.queryAccessibleInterface(b).role() for b in form.buttons.values()}
    assert roles == {
        QAccessible.Role.CheckBox if kind is QCheckBox else QAccessible.Role.RadioButton
    }


def test_letters_choose_some_and_let_go_again(form_of, qtbot, said):
    form = form_of(SOME)
    form.begin()
    assert not form.is_whole()
    for key in (Qt.Key.Key_B, Qt.Key.Key_D):
        with qtbot.waitSignal(form.changed):
            qtbot.keyClick(form.focusWidget(), key)
    assert form.answer() == (B, D)
    assert form.is_whole()
    qtbot.keyClick(form.focusWidget(), Qt.Key.Key_B)
    assert form.answer() == (D,)
    assert said == ["1 of 5 chosen", "2 of 5 chosen", "1 of 5 chosen"]
    assert form.count.text() == "1 of 5 chosen"


def test_the_space_bar_and_the_mouse_choose_as_letters_do(form_of, qtbot):
    form = form_of(SOME)
    form.begin()
    for key in (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_Space):
        qtbot.keyClick(form.focusWidget(), key)
    assert form.answer() == (B,)
    wide = form.buttons[C].width()
    qtbot.mouseClick(
        form.buttons[C], Qt.MouseButton.LeftButton, pos=form.buttons[C].rect().center()
    )
    assert wide > 300, "all of the row is the target"
    assert form.answer() == (B, C)


@pytest.mark.parametrize("drill", [SOME, FIRST])
def test_arrows_walk_and_choose_nothing(form_of, qtbot, drill):
    form = form_of(drill)
    form.begin()
    pointed = []
    qtbot.waitUntil(lambda: form.focusWidget().hasFocus())
    form.pointed.connect(pointed.append)
    for key in (Qt.Key.Key_Down, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Left):
        qtbot.keyClick(form.focusWidget(), key)
    assert pointed == [B, C, B, A]
    assert form.answer() == ()


def test_of_one_only_the_last_counts(form_of, qtbot):
    form = form_of(FIRST)
    form.begin()
    assert not form.is_whole()
    with qtbot.waitSignals([form.changed, form.changed]):
        qtbot.keyClick(form.focusWidget(), Qt.Key.Key_A)
        qtbot.keyClick(form.focusWidget(), Qt.Key.Key_E)
    assert form.answer() == (E,)
    assert not form.count.isVisible()


def test_an_answer_that_is_shown_replaces_the_one_before(form_of, qtbot):
    form = form_of(FIRST)
    form.choose(B)
    with qtbot.assertNotEmitted(form.changed):
        form.show_answer((C,), editable=True)
        assert form.answer() == (C,)
        form.show_answer((), editable=True)
    assert form.answer() == ()


@pytest.mark.parametrize("drill", [SOME, FIRST])
def test_what_is_only_looked_at_keeps_the_keyboard_but_changes_no_more(form_of, qtbot, drill):
    form = form_of(drill)
    form.show_answer((B,), editable=False)
    form.begin()
    for key in (Qt.Key.Key_Space, Qt.Key.Key_C, Qt.Key.Key_Down, Qt.Key.Key_Space):
        qtbot.keyClick(form.focusWidget(), key)
    qtbot.mouseClick(form.buttons[D], Qt.MouseButton.LeftButton)
    assert form.answer() == (B,)
    form.show_answer((B,), editable=True)
    form.choose(C)
    assert C in form.answer()


def test_judging_says_at_each_choice_what_was_right(form_of):
    form = form_of(SOME)
    form.choose(A)
    form.choose(B)
    form.show_judged(SOME, wrong(nearest=(A, C), moved=(B, C)))
    assert marks(form) == {A: Mark.RIGHT, B: Mark.WRONG, C: Mark.MISSED}
    assert form.buttons[C].accessibleName().endswith(". this one as well")
    form.choose(D)
    assert form.answer() == (A, B)
    form.show_answer((A, B), editable=True)
    assert marks(form) == {}
    form.show_judged(SOME, RIGHT)
    assert marks(form) == {A: Mark.RIGHT, B: Mark.RIGHT}


def test_of_a_mistake_the_order_that_holds_it_is_shown_with_its_places(form_of, qtbot):
    form = form_of(MISTAKE)
    assert list(form.buttons) == list(MISTAKE.shown)
    faces = [button.face for button in form.buttons.values()]
    assert [face.place for face in faces] == ["1", "2", "3", "4", "5"]
    assert "".join(face.letter for face in faces) == "DAEBC", "letters go by the choices"
    assert form.buttons[D].accessibleName() == (
        "place 1 of 5: D, Rivet the strap to the lower petal"
    )
    form.begin()
    qtbot.keyClick(form.focusWidget(), Qt.Key.Key_E)
    assert form.answer() == (E,)


def test_every_choice_is_named_with_its_letter(form_of):
    form = form_of(SOME)
    names = [button.accessibleName() for button in form.buttons.values()]
    assert [name[:3] for name in names] == ["A, ", "B, ", "C, ", "D, ", "E, "]


def test_a_narrow_form_gives_long_words_more_lines(form_of, qtbot):
    form = form_of(SOME, wide=360)
    font = form.font()
    font.setPointSizeF(1.6 * font.pointSizeF())
    form.setFont(font)
    qtbot.waitUntil(lambda: form.buttons[C].height() > 1.5 * form.buttons[B].height())
    assert form.buttons[C].width() <= 360
