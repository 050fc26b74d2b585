"""A day is planned by mouse, by keys and by typing, and nothing is told before it is judged."""

import pytest
from desktop.drill_scene import IDS, ORDER, PLAN, RIGHT, wrong
from PySide6.QtCore import QCoreApplication, QPoint, QPointF, Qt
from PySide6.QtGui import QAccessible, QValidator, QWheelEvent

from armorplan.desktop.drill_marks import Mark
from armorplan.desktop.widgets import drill_form_day
from armorplan.desktop.widgets.drill_day_bar import lane_scale
from armorplan.desktop.widgets.drill_day_field import NO_TIME
from armorplan.desktop.widgets.drill_form_day import DayForm
from armorplan.desktop.widgets.drill_forms import make_form

A, B, C = IDS[:3]
SHIFT = Qt.KeyboardModifier.ShiftModifier
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def said(monkeypatch):
    told = []
    monkeypatch.setattr(drill_form_day, "announce", lambda _widget, text: told.append(text))
    return told


@pytest.fixture
def form(qtbot):
    made = make_form(PLAN)
    qtbot.addWidget(made)
    made.resize(420, 640)
    made.show()
    qtbot.waitExposed(made)
    return made


def spot(form, name, minute):
    bar = form.bars[name]
    return QPoint(round(lane_scale(bar, form.span).x(minute)), bar.height() // 2)


def drag(qtbot, form, name, minute_from, minute_to):
    bar = form.bars[name]
    qtbot.mousePress(bar, LEFT, pos=spot(form, name, minute_from))
    qtbot.mouseMove(bar, spot(form, name, (minute_from + minute_to) / 2))
    qtbot.mouseMove(bar, spot(form, name, minute_to))
    qtbot.mouseRelease(bar, LEFT, pos=spot(form, name, minute_to))


def test_a_day_begins_without_times(form):
    assert form.answer() == ()
    assert not form.is_whole()
    assert {field.text() for field in form.fields.values()} == {NO_TIME}
    assert [lane.window_shown for _, lane, _ in form.waits] == [None, None]
    assert form.bars[A].accessibleName() == "A, Case the petals, 45 min: no time yet"


def test_keys_lay_a_bar(form, qtbot, said):
    form.begin()
    bar = form.bars[A]
    steps = [
        (Qt.Key.Key_Right, None, "08:00"),
        (Qt.Key.Key_Right, None, "08:15"),
        (Qt.Key.Key_Right, SHIFT, "09:15"),
        (Qt.Key.Key_PageUp, None, "10:15"),
        (Qt.Key.Key_Left, SHIFT, "09:15"),
        (Qt.Key.Key_PageDown, None, "08:15"),
        (Qt.Key.Key_End, None, "17:15"),
        (Qt.Key.Key_Home, None, "08:00"),
    ]
    for key, modifier, clock in steps:
        with qtbot.waitSignal(form.changed):
            qtbot.keyClick(bar, key, modifier or Qt.KeyboardModifier.NoModifier)
        assert form.answer() == (f"{A}={clock}",)
    with qtbot.assertNotEmitted(form.changed):
        qtbot.keyClick(bar, Qt.Key.Key_Left)
    assert said[:2] == ["08:00 to 08:45", "08:15 to 09:00"]


def test_a_slider_tells_whoever_listens_where_the_bar_is(form, qtbot):
    bar = form.bars[A]
    qtbot.keyClick(bar, Qt.Key.Key_Home)
    qtbot.keyClick(bar, Qt.Key.Key_Right)
    told = QAccessible.queryAccessibleInterface(bar)
    assert told.role() is QAccessible.Role.Slider
    assert told.text(QAccessible.Text.Name) == "A, Case the petals, 45 min: 08:15 to 09:00"
    assert form.fields[A].accessibleName() == "A, Case the petals: begins at"


def test_a_value_that_an_assistive_tool_sets_lays_the_bar(form, qtbot):
    with qtbot.waitSignal(form.changed):
        QAccessible.queryAccessibleInterface(form.bars[A]).valueInterface().setCurrentValue(5)
    assert form.answer() == (f"{A}=09:15",)
    form.show_answer(form.answer(), editable=False)
    QAccessible.queryAccessibleInterface(form.bars[A]).valueInterface().setCurrentValue(9)
    assert (form.answer(), form.bars[A].value()) == ((f"{A}=09:15",), 5)


@pytest.mark.parametrize("kind", ["bars", "fields"])
def test_the_wheel_scrolls_past_bars_and_times(form, qtbot, kind):
    form.show_answer((f"{A}=09:15",), editable=True)
    widget = getattr(form, kind)[A]
    widget.setFocus()
    turn = QWheelEvent(
        QPointF(5, 5),
        QPointF(5, 5),
        QPoint(),
        QPoint(0, 120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QCoreApplication.sendEvent(widget, turn)
    assert not turn.isAccepted()
    assert form.answer() == (f"{A}=09:15",)


def test_a_drag_takes_a_bar_where_it_was_held_and_snaps_to_the_grid(form, qtbot):
    form.show_answer((f"{A}=08:00",), editable=True)
    drag(qtbot, form, A, 20, 20 + 100)
    assert form.answer() == (f"{A}=09:45",)
    qtbot.mouseMove(form.bars[A], spot(form, A, 400))
    assert form.answer() == (f"{A}=09:45",), "it is let go"


def test_a_click_beside_lays_the_middle_of_the_bar_there(form, qtbot):
    qtbot.mouseClick(form.bars[B], LEFT, pos=spot(form, B, 165))
    assert form.answer() == (f"{B}=10:00",)
    qtbot.mouseClick(form.bars[B], LEFT, pos=spot(form, B, 599))
    assert form.answer() == (f"{B}=16:30",), "a bar lies within the day"


def test_a_time_can_be_typed_or_stepped(form, qtbot):
    field = form.fields[A]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "9:20")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert (field.text(), form.answer()) == ("09:15", (f"{A}=09:15",))
    assert form.bars[A].start_min == 75
    qtbot.keyClick(field, Qt.Key.Key_Up)
    assert form.answer() == (f"{A}=09:30",)
    field.selectAll()
    qtbot.keyClicks(field, "23")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert form.answer() == (f"{A}=09:30",), "no time of this day: it stays as it was"


@pytest.mark.parametrize(
    ("typed", "state"),
    [
        ("09:15", QValidator.State.Acceptable),
        ("9:", QValidator.State.Acceptable),
        ("2", QValidator.State.Intermediate),
        ("nine", QValidator.State.Invalid),
    ],
)
def test_only_what_can_become_a_time_can_be_typed(form, typed, state):
    assert form.fields[A].validate(typed, 0)[0] is state


def test_what_is_typed_counts_without_leaving_the_field(form):
    for field, typed in zip(form.fields.values(), ("08:00", "1000", "14.30"), strict=True):
        field.lineEdit().setText(typed)
    assert form.is_whole()
    assert [one.partition("=")[2] for one in form.answer()] == ["08:00", "10:00", "14:30"]


def test_waits_follow_the_bar_before_them(form):
    form.show_answer((f"{A}=08:30", f"{B}=10:30"), editable=True)
    (_, damp, damp_line), (_, dry, _) = form.waits
    assert (damp.window_shown.start_min, damp.window_shown.latest_min) == (75, 225)
    assert dry.window_shown.ready_min == 150 + 90 + 120
    assert damp_line.words.text().endswith("over at 10:15, too late after 11:45")
    form.bars[A].lay(0)
    assert damp.window_shown.start_min == 45


def test_nothing_is_told_of_a_plan_before_it_is_judged(form):
    form.show_answer((f"{A}=17:00", f"{B}=08:00", f"{C}=08:00"), editable=True)
    assert form.is_whole()
    assert not any(line.note.isVisible() for line in form._lines.values())


def test_a_letter_takes_a_bar_in_hand(form, qtbot):
    form.begin()
    with qtbot.waitSignal(form.pointed) as pointed:
        qtbot.keyClick(form.bars[A], Qt.Key.Key_C)
    assert pointed.args == [C]
    assert form.focusWidget() is form.bars[C]


def test_a_judged_plan_marks_the_bar_at_fault_and_is_no_more_changed(form, qtbot):
    given = (f"{A}=08:00", f"{B}=09:00", f"{C}=13:15")
    form.show_answer(given, editable=True)
    nearest = (f"{A}=08:00", f"{B}=09:45", f"{C}=13:15")
    form.show_judged(PLAN, wrong(nearest=nearest, moved=(B,), steps=(B,)))
    shown = {name: line.note.text() for name, line in form._lines.items()}
    assert shown == {
        A: Mark.STAYS.value,
        B: "here it goes wrong; at 09:45 it would do",
        C: Mark.STAYS.value,
    }
    assert (
        form.bars[B].accessibleName().endswith("10:30. here it goes wrong; at 09:45 it would do")
    )
    with qtbot.assertNotEmitted(form.changed):
        qtbot.keyClick(form.bars[A], Qt.Key.Key_Right)
        drag(qtbot, form, A, 20, 200)
        qtbot.keyClick(form.fields[A], Qt.Key.Key_Up)
    assert form.answer() == given
    form.show_judged(PLAN, RIGHT)
    assert {line.note.text() for line in form._lines.values()} == {Mark.RIGHT.value}


def test_the_bar_at_fault_is_scrolled_to(form, qtbot):
    form.resize(360, 240)
    form.show_answer((f"{A}=08:00", f"{B}=09:00", f"{C}=09:15"), editable=True)
    line = form._lines[C]

    def is_in_sight():
        box = line.visibleRegion().boundingRect()
        return box.height() > form.bars[C].height()

    qtbot.wait(1)
    assert not is_in_sight()
    form.show_judged(PLAN, wrong(moved=(B, C), steps=(C,)))
    qtbot.waitUntil(is_in_sight)


def test_lanes_lie_beside_the_words_where_there_is_room(form, qtbot):
    head, bar = form._lines[A].words, form.bars[A]

    def beside():
        return bar.mapTo(form, QPoint()).x() > head.mapTo(form, QPoint()).x() + head.width()

    form.resize(1100, 640)
    qtbot.waitUntil(beside)
    form.resize(360, 640)
    qtbot.waitUntil(lambda: not beside() and bar.width() > 300)


def test_only_a_day_can_be_planned(qapp):
    with pytest.raises(ValueError, match="holds no day"):
        DayForm(ORDER)
