"""Practice in the window: exercises answered to the end by keys, told of, kept; tabs of how one stands."""

import threading
from dataclasses import replace

import pytest
from desktop.fake_practice import (
    CLOSE,
    DAY,
    ONE,
    ORDER,
    REASON,
    RIGHT,
    RIGHT_DAY,
    STRAP,
    TRIM,
    WHY,
    FakePractice,
)
from desktop.fake_session import FakeSession
from PySide6.QtCore import QPoint, Qt, QUrl
from PySide6.QtGui import QFontMetricsF
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QTableView, QWidget

from armorplan.app.help_pages import help_page
from armorplan.desktop.bench_type import USUAL_PX_PER_MM, capital_mm
from armorplan.desktop.theme import BASE_PT
from armorplan.desktop.widgets.drill_answer_foot import At
from armorplan.desktop.widgets.drill_answer_head import ARM_MM, question_font
from armorplan.desktop.widgets.drill_page import PracticePanel
from armorplan.desktop.widgets.panel_page import PanelPage
from armorplan.practice.drill import Asked, DrillKind, Level
from armorplan.practice.grades import Grade
from armorplan.workshop.skill_how import SkillHow

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def practice(session):
    return session.practice


@pytest.fixture
def page(qtbot, bridge, window):
    made = PanelPage(PracticePanel(bridge), "Practice", (984, 728), window)
    qtbot.addWidget(made)
    made.show()
    made.panel.begin()
    qtbot.waitUntil(lambda: not made.panel.pane.desk.is_busy)
    yield made
    made.close()


@pytest.fixture
def panel(page):
    return page.panel


def settle(qtbot, panel):
    busy = (panel.pane.desk, panel.progress, panel.skills)
    qtbot.waitUntil(lambda: not any(one.is_busy for one in busy))


def turn_to(qtbot, panel, tab):
    """Show a tab, with all that is read for it."""
    panel.tabs.setCurrentWidget(tab)
    settle(qtbot, panel)


def press(panel, key, modifier=CTRL):
    """Press a key where the keyboard is."""
    QTest.keyClick(panel.window().focusWidget() or panel, key, modifier)


def answer(qtbot, panel, order):
    panel.pane.view.form.show_answer(order, editable=True)
    press(panel, Qt.Key.Key_Return)
    settle(qtbot, panel)


def told(panel):
    return panel.pane.view.told.toPlainText()


def shown_buttons(panel):
    foot = panel.pane.view.foot
    return [b.objectName() for b in foot.findChildren(QAbstractButton) if b.isVisible()]


def test_an_exercise_stands_there_with_all_that_is_known(panel, practice):
    view = panel.pane.view
    assert practice.asked == [("maker", None, None, "")]
    assert view.head.question.text() == ORDER.question
    known = view.given.findChild(QWidget, "drill_known").text()
    assert all(line in known for line in ORDER.given)
    assert panel.bar.number.text() == "Exercise 7"
    assert shown_buttons(panel) == ["drill_answer", "drill_hint", "drill_on"]
    assert not view.told.isVisible()
    assert view.form.isAncestorOf(panel.window().focusWidget())


def test_a_question_is_read_from_an_arms_length(qapp):
    font = qapp.font()
    font.setPointSizeF(BASE_PT)
    capital_px = QFontMetricsF(question_font(font)).capHeight()
    # ISO 9241-303: capitals of 16 arcmin at the least (from memory).
    assert capital_px / USUAL_PX_PER_MM >= capital_mm(ARM_MM)


def test_a_wrong_answer_is_told_with_its_reasons_and_comes_back(qtbot, panel, practice, clock):
    clock.advance(0.5)
    answer(qtbot, panel, (CLOSE, STRAP, TRIM))
    text = told(panel)
    assert "Not yet" in text
    assert "One step is to be moved: 'Rivet the strap'." in text
    assert "In one pair of steps the one you put first comes later" in text
    assert "This reason comes back soon." in text
    assert "Once the boss is <closed>" in text
    assert "Numbers: 41.5 mm, 38 mm." in text
    assert "Source: common practice, no source." in text
    ((person, drill, given, grade, seconds, hint),) = practice.kept
    assert (person, drill, given) == ("maker", ORDER, (CLOSE, STRAP, TRIM))
    assert (grade, seconds, hint) == (Grade.MISSED, 30.0, False)
    assert shown_buttons(panel) == ["drill_play", "drill_again", "drill_on"]


def test_a_second_try_is_offered_and_counts_for_nothing(qtbot, panel, practice):
    answer(qtbot, panel, (CLOSE, STRAP, TRIM))
    press(panel, Qt.Key.Key_T)
    assert panel.pane.at is At.AGAIN
    assert panel.pane.view.form.answer() == (CLOSE, STRAP, TRIM)
    answer(qtbot, panel, RIGHT)
    assert "Right" in told(panel)
    assert "only the first one is kept" in told(panel)
    assert [row[3] for row in practice.kept] == [Grade.MISSED]


@pytest.mark.parametrize(
    ("letter", "grade", "words"),
    [
        (Qt.Key.Key_A, Grade.COULD_TEACH, "You could teach it."),
        (Qt.Key.Key_B, Grade.KNEW, "You knew it."),
    ],
    ids=["rightly", "wrongly"],
)
def test_a_right_answer_is_asked_why_before_its_reasons_are_told(
    qtbot, panel, practice, letter, grade, words
):
    answer(qtbot, panel, RIGHT)
    view = panel.pane.view
    assert panel.pane.at is At.WHY
    assert told(panel).splitlines() == ["✓ Right. And why?", WHY.question]
    assert practice.kept == []
    # The first question, what is known of it and what was answered stay in sight.
    assert view.head.question.text() == ORDER.question
    assert view.form.isVisible()
    assert view.given.isVisible()
    assert view.form.answer() == RIGHT
    press(panel, letter, Qt.KeyboardModifier.NoModifier)
    press(panel, Qt.Key.Key_Return)
    assert practice.kept[0][3] is grade
    assert words in told(panel)
    assert "Once the boss is <closed>" in told(panel)
    assert view.asked_form is view.form


def test_all_reasons_of_the_second_question_are_in_sight(qtbot, panel):
    answer(qtbot, panel, RIGHT)
    form = panel.pane.view.asked_form
    for button in form.buttons.values():
        low = button.mapTo(form, QPoint(0, button.height()))
        assert low.y() <= form.height()


def test_the_reason_chosen_stays_marked_with_what_there_is_to_say_of_it(qtbot, panel):
    answer(qtbot, panel, RIGHT)
    press(panel, Qt.Key.Key_B, Qt.KeyboardModifier.NoModifier)
    press(panel, Qt.Key.Key_Return)
    lines = told(panel).splitlines()
    at = lines.index(WHY.question)
    assert lines[at + 1 : at + 5] == [
        "✓ A  Later no anvil reaches it.",
        "41.5 mm lie between, 38 mm reach.",
        "◇ B  It has to dry first. (your choice)",
        "A strap is not dyed here.",
    ]


@pytest.mark.parametrize("by", ["key", "click"])
def test_cautions_are_one_line_until_they_are_opened(panel, by):
    (line,) = panel.pane.view.given.findChildren(QAbstractButton, "drill_cautions")
    box = panel.pane.view.given.findChild(QWidget, "why_cautions")
    assert line.text() == "&Cautions of this work (1)"
    assert not box.isVisible()
    if by == "key":
        line.setFocus()
        QTest.keyClick(line, Qt.Key.Key_Return)
    else:
        QTest.mouseClick(line, Qt.MouseButton.LeftButton)
    assert box.isVisible()


def test_leaving_the_second_question_keeps_that_it_was_known(qtbot, panel, practice):
    answer(qtbot, panel, RIGHT)
    press(panel, Qt.Key.Key_N)
    assert [row[3] for row in practice.kept] == [Grade.KNEW]
    assert panel.pane.at is At.TOLD


def test_a_look_at_another_tab_leaves_the_second_question_at_that(qtbot, panel, practice):
    answer(qtbot, panel, RIGHT)
    panel.tabs.setCurrentWidget(panel.progress)
    panel.tabs.setCurrentWidget(panel.exercise)
    assert panel.pane.at is At.TOLD
    assert [row[3] for row in practice.kept] == [Grade.KNEW]
    assert "You knew it." in told(panel)


def test_closing_the_window_at_the_second_question_keeps_it_too(qtbot, page, practice):
    answer(qtbot, page.panel, RIGHT)
    page.close()
    assert [row[3] for row in practice.kept] == [Grade.KNEW]


def test_the_reason_shown_first_is_told_and_kept_so(qtbot, panel, practice):
    press(panel, Qt.Key.Key_R)
    assert ORDER.hint in told(panel)
    assert "drill_hint" not in shown_buttons(panel)
    answer(qtbot, panel, RIGHT)
    assert panel.pane.at is At.TOLD
    assert [(row[3], row[5]) for row in practice.kept] == [(Grade.NEEDED_REASON, True)]


def test_where_no_second_question_can_be_asked_it_is_known(qtbot, panel, practice):
    practice.asks_why = False
    answer(qtbot, panel, RIGHT)
    assert [row[3] for row in practice.kept] == [Grade.KNEW]


def test_an_answer_that_lacks_something_is_not_judged(qtbot, panel, practice):
    panel.bar.kind.setCurrentIndex(panel.bar.kind.findData(DrillKind.FIRST.value))
    panel.bar.kind.activated.emit(panel.bar.kind.currentIndex())
    settle(qtbot, panel)
    assert panel.pane.view.head.question.text() == ONE.question
    press(panel, Qt.Key.Key_Return)
    assert panel.said.text() == "Choose one, then answer."
    lack = panel.pane.view.foot.lack
    assert (lack.isVisible(), lack.text()) == (True, "Choose one, then answer.")
    assert practice.kept == []
    press(panel, Qt.Key.Key_A, Qt.KeyboardModifier.NoModifier)
    assert not lack.isVisible()


def test_a_right_day_is_shown_and_turned_back(qtbot, panel, practice):
    practice.drill = DAY
    press(panel, Qt.Key.Key_N)
    settle(qtbot, panel)
    late = (*RIGHT_DAY[:-1], "s5=12:00")
    answer(qtbot, panel, late)
    press(panel, Qt.Key.Key_E)
    assert panel.pane.view.form.answer() == RIGHT_DAY
    assert "This answer is right." in told(panel)
    press(panel, Qt.Key.Key_E)
    assert panel.pane.view.form.answer() == late


def test_of_one_all_is_marked_so_nothing_shows_it_again(qtbot, panel):
    panel.bar.kind.setCurrentIndex(panel.bar.kind.findData(DrillKind.FIRST.value))
    panel.bar.kind.activated.emit(panel.bar.kind.currentIndex())
    settle(qtbot, panel)
    answer(qtbot, panel, ("j2",))
    assert "Right is: 'Left 1'." in told(panel)
    assert shown_buttons(panel) == ["drill_again", "drill_on"]


@pytest.mark.parametrize("how", ["another kind", "a number", "closing"])
def test_a_first_try_that_is_being_judged_is_never_lost(qtbot, page, practice, how):
    panel = page.panel
    panel.pane.view.form.show_answer((CLOSE, STRAP, TRIM), editable=True)
    practice.hold = threading.Event()
    press(panel, Qt.Key.Key_Return)
    assert panel.pane.at is At.JUDGING
    if how == "another kind":
        panel.bar.kind.setCurrentIndex(panel.bar.kind.findData(DrillKind.FIRST.value))
        panel.bar.kind.activated.emit(panel.bar.kind.currentIndex())
    elif how == "a number":
        panel.bar.number.setValue(12)
    practice.hold.set()
    if how == "closing":
        page.close()
    settle(qtbot, panel)
    assert [row[3] for row in practice.kept] == [Grade.MISSED]
    if how == "another kind":
        qtbot.waitUntil(lambda: panel.pane.view.head.question.text() == ONE.question)
    elif how == "a number":
        qtbot.waitUntil(lambda: panel.bar.number.text() == "Exercise 12")


def test_opened_again_it_goes_on_with_what_was_asked(qtbot, page, practice):
    panel = page.panel
    panel.who.box.setEditText("Nell")
    panel.who.take()
    settle(qtbot, panel)
    panel.pane.view.form.show_answer((TRIM, STRAP, CLOSE), editable=True)
    asked = len(practice.asked)
    page.close()
    page.show()
    panel.begin()
    settle(qtbot, panel)
    assert len(practice.asked) == asked
    assert panel.who.person == "nell"
    assert panel.pane.view.form.answer() == (TRIM, STRAP, CLOSE)


def test_an_exercise_is_played_to_its_end_by_mouse(qtbot, panel, practice):
    def click(name):
        found = panel.pane.view.asked_form.findChildren(QAbstractButton, name)
        found = found or panel.findChildren(QAbstractButton, name)
        (button,) = [one for one in found if one.isVisible()]
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)
        settle(qtbot, panel)

    practice.drill = ONE
    click("drill_on")
    click("drill_choice_A")
    click("drill_answer")
    assert panel.pane.at is At.WHY
    click("drill_choice_A")
    click("drill_answer")
    assert practice.kept[0][3] is Grade.COULD_TEACH
    click("drill_on")
    assert panel.pane.at is At.ASKED


def test_the_mistake_is_played_on_the_picture_by_keys(qtbot, panel):
    answer(qtbot, panel, (CLOSE, STRAP, TRIM))
    press(panel, Qt.Key.Key_G)
    picture = panel.pane.view.picture
    assert picture.is_played
    QTest.keyClick(picture.canvas, Qt.Key.Key_Right)
    assert "The boss is closed." in picture.bar.said.text()
    QTest.keyClick(picture.canvas, Qt.Key.Key_Escape)
    assert not picture.is_played
    assert panel.isVisible()


def test_the_keyboard_stays_where_kinds_are_walked_through(qtbot, panel, practice):
    panel.bar.kind.setFocus()
    QTest.keyClick(panel.bar.kind, Qt.Key.Key_Down)
    settle(qtbot, panel)
    QTest.keyClick(panel.bar.kind, Qt.Key.Key_Down)
    settle(qtbot, panel)
    assert panel.bar.kind.hasFocus()
    assert [row[1] for row in practice.asked[1:]] == [DrillKind.ORDER, DrillKind.FIRST]


def test_another_exercise_has_the_keyboard_at_its_answer(qtbot, panel):
    press(panel, Qt.Key.Key_N)
    settle(qtbot, panel)
    assert panel.pane.view.form.isAncestorOf(panel.window().focusWidget())


def test_the_same_number_sets_the_same_exercise(qtbot, panel, practice):
    panel.bar.number.setValue(12)
    settle(qtbot, panel)
    assert practice.asked[-1] == Asked(kind=DrillKind.ORDER, seed=12, level=Level.STRAP)
    assert panel.bar.number.text() == "Exercise 12"


def test_a_number_sets_what_it_sets_everywhere_whatever_was_due(qtbot, panel, practice):
    """On the command line and on paper an exercise is made by kind, number, level and piece."""
    asked = replace(ORDER.asked, focus=REASON.rule, piece="")
    practice.drill = replace(ORDER, asked=asked)
    press(panel, Qt.Key.Key_N)
    settle(qtbot, panel)
    number = practice.number_of(asked)
    assert panel.bar.number.text() == f"Exercise {number}"
    panel.bar.number.setValue(asked.seed)
    settle(qtbot, panel)
    assert practice.asked[-1] == replace(asked, focus="")
    assert panel.bar.number.text() == f"Exercise {asked.seed}"
    panel.bar.number.setValue(number)
    settle(qtbot, panel)
    assert practice.asked[-1] == asked


def test_a_number_that_no_exercise_has_is_told_and_the_exercise_stays(qtbot, panel, practice):
    shown, asked = panel.bar.number.text(), len(practice.asked)
    panel.bar.number.setValue(9_990_001)
    assert panel.said.text() == "There is no exercise 9990001."
    assert panel.bar.number.text() == shown
    assert len(practice.asked) == asked


def test_what_is_chosen_above_is_asked_for(qtbot, panel, practice):
    panel.bar.level.setCurrentIndex(panel.bar.level.findData(Level.PIECE.value))
    panel.bar.piece.setCurrentIndex(panel.bar.piece.findData("boss"))
    press(panel, Qt.Key.Key_N)
    settle(qtbot, panel)
    assert practice.asked[-1] == ("maker", None, Level.PIECE, "boss")


def test_somebody_new_practises_once_a_name_is_typed(qtbot, panel, practice):
    line = panel.who.box.lineEdit()
    line.selectAll()
    QTest.keyClicks(line, "Orla")
    QTest.keyClick(line, Qt.Key.Key_Return)
    settle(qtbot, panel)
    assert practice.asked[-1][0] == "Orla"
    answer(qtbot, panel, (CLOSE, STRAP, TRIM))
    assert practice.kept[0][0] == "Orla"


def test_enter_behind_a_name_goes_to_the_exercise_and_no_letter_into_the_name(
    qtbot, panel, practice
):
    line = panel.who.box.lineEdit()
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, "Orla")
    practice.hold = threading.Event()
    QTest.keyClick(line, Qt.Key.Key_Return)
    press(panel, Qt.Key.Key_B, Qt.KeyboardModifier.NoModifier)  # while it is still being set
    practice.hold.set()
    settle(qtbot, panel)
    assert panel.who.box.currentText() == "Orla"
    assert panel.pane.view.form.isAncestorOf(panel.window().focusWidget())


@pytest.mark.parametrize("field", ["kind", "level", "piece", "number"])
def test_enter_in_what_is_chosen_above_goes_to_the_answer(panel, field):
    box = getattr(panel.bar, field)
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Return)
    assert panel.pane.view.form.isAncestorOf(panel.window().focusWidget())


def test_the_letter_of_an_open_tab_leads_into_it(panel):
    panel.who.box.lineEdit().setFocus()
    QTest.keyClick(panel.who.box.lineEdit(), Qt.Key.Key_E, Qt.KeyboardModifier.AltModifier)
    assert panel.pane.view.form.isAncestorOf(panel.window().focusWidget())


def test_help_is_a_key_away(qtbot, panel, bridge):
    with qtbot.waitSignal(bridge.help_wanted) as led:
        press(panel, Qt.Key.Key_F1, Qt.KeyboardModifier.NoModifier)
    assert led.args == ["practice"]
    assert help_page(led.args[0]) is not None


@pytest.mark.parametrize(
    ("works", "practises"),
    [("Nell", "nell"), ("", ""), ("Orla", "Orla")],
    ids=["works here", "not said", "not of the shop"],
)
def test_whoever_works_here_practises_and_nobody_is_guessed(
    qtbot, bridge, practice, works, practises
):
    practice.who = works
    panel = PracticePanel(bridge)
    qtbot.addWidget(panel)
    panel.begin()
    settle(qtbot, panel)
    assert panel.who.person == practises
    assert practice.asked[-1][0] == practises
    assert ("until it is said who" in panel.said.text()) is (practises == "")
    panel.close_jobs()


def test_no_exercise_is_said_so(qtbot, panel, practice):
    practice.drill = None
    press(panel, Qt.Key.Key_N)
    settle(qtbot, panel)
    assert panel.pane.view.head.question.text().startswith("No exercise can be made")
    assert shown_buttons(panel) == ["drill_on"]


def test_another_build_drops_what_is_asked_and_begins_anew(qtbot, panel, bridge, practice):
    practice.hold = threading.Event()
    press(panel, Qt.Key.Key_N)
    other = FakeSession.of(20)
    other.practice = FakePractice(drill=ONE)
    bridge.open(other)
    practice.hold.set()
    settle(qtbot, panel)
    assert panel.pane.view.head.question.text() == ONE.question
    assert other.practice.asked == [("maker", None, None, "")]


def test_what_was_answered_is_kept_where_it_was_asked(qtbot, panel, bridge, practice):
    answer(qtbot, panel, RIGHT)
    other = FakeSession.of(20)
    bridge.open(other)
    settle(qtbot, panel)
    assert [row[3] for row in practice.kept] == [Grade.KNEW]
    assert other.practice.kept == []


def test_a_rule_is_led_to_from_its_reason(qtbot, panel, bridge):
    answer(qtbot, panel, (CLOSE, STRAP, TRIM))
    html = panel.pane.view.told.toHtml()
    assert f'href="rule:{REASON.rule}"' in html
    assert 'href="rule:own:1"' not in html
    with qtbot.waitSignal(bridge.help_wanted) as led:
        panel.pane.view.told.anchorClicked.emit(QUrl(f"rule:{REASON.rule}"))
    assert led.args == [f"rule:{REASON.rule}"]


def test_why_nothing_is_kept_is_said_at_once(qtbot, bridge, practice):
    practice.why_not_kept = "Another window writes here."
    panel = PracticePanel(bridge)
    qtbot.addWidget(panel)
    panel.begin()
    settle(qtbot, panel)
    assert panel.said.text() == "Another window writes here."
    panel.close_jobs()


def cells(table: QTableView):
    model = table.model()
    return [
        [model.index(row, at).data() for at in range(model.columnCount())]
        for row in range(model.rowCount())
    ]


def test_progress_tells_each_reason_and_when_it_comes_back(panel, bridge, qtbot):
    turn_to(qtbot, panel, panel.progress)
    table = panel.progress.table
    assert [row[1] for row in cells(table)] == ["◐ shaky", "○ unseen", "● mastered"]
    assert cells(table)[0][2:] == ["Thu 7 May", "missed", "now"]
    assert cells(table)[2][4] == "Thu 28 May"
    assert panel.progress.told.text() == "Missed on Thursday; it comes back now."
    panel.progress.pieces.setCurrentRow(1)
    assert [row[0] for row in cells(table)] == [REASON.name, "Cut before use"]
    with qtbot.waitSignal(bridge.help_wanted) as led:
        QTest.keyClick(table, Qt.Key.Key_Return)
    assert led.args == [f"rule:{REASON.rule}"]


@pytest.mark.parametrize("tab", ["progress", "skills"])
def test_how_somebody_stands_is_read_in_another_thread(qtbot, panel, practice, tab, monkeypatch):
    """Thousands of results take a quarter of a second to go through."""
    read_in = []

    def reading(read):
        def noted(person):
            read_in.append(threading.get_ident())
            return read(person)

        return noted

    monkeypatch.setattr(practice, tab, reading(getattr(practice, tab)))
    turn_to(qtbot, panel, getattr(panel, tab))
    assert read_in
    assert threading.get_ident() not in read_in
    assert getattr(panel, tab).rows.rowCount()


def test_shares_are_told_apart_by_pattern_and_in_words(qtbot, panel):
    turn_to(qtbot, panel, panel.progress)
    pieces = panel.progress.pieces
    spoken = pieces.item(0).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == "All of it: 1 mastered, 1 shaky, 1 unseen"
    image = pieces.viewport().grab().toImage()
    rect = pieces.visualItemRect(pieces.item(0))
    y = rect.top() + 8 + pieces.fontMetrics().height() + 3 + 8
    at = [rect.left() + 8 + (rect.width() - 16) * (2 * n + 1) // 6 for n in range(3)]
    filled, hatched, empty = (
        {image.pixelColor(x + d, y + e).name() for d in range(6) for e in range(6)} for x in at
    )
    assert len(filled) == 1
    assert len(hatched) > 1
    assert len(empty) == 1
    assert filled != empty


def test_a_skill_is_signed_off_and_taken_back_by_keys(qtbot, panel, practice, bridge):
    turn_to(qtbot, panel, panel.skills)
    skills = panel.skills
    assert skills.table.hasFocus()
    QTest.keyClick(skills.table, Qt.Key.Key_Down)
    press(panel, Qt.Key.Key_Return)
    assert panel.said.text() == "Say first who signs it off."
    QTest.keyClicks(skills.form.who.lineEdit(), "Maker")
    QTest.keyClick(skills.table, Qt.Key.Key_Return)
    QTest.keyClick(skills.form.company, Qt.Key.Key_Down)
    skills.form.note.setText("four clean heads")
    bridge.changed.emit()  # a better plan was found meanwhile
    settle(qtbot, panel)
    with qtbot.waitSignal(bridge.acted):
        press(panel, Qt.Key.Key_Return)
    settle(qtbot, panel)
    assert practice.signed == [("maker", "rivet", SkillHow.BESIDE, "Maker", "four clean heads")]
    assert cells(skills.table)[1][1:3] == ["with the maker beside", "Maker, Thu 7 May"]
    assert cells(skills.table)[1][3] == "Two reasons of it sit, one is shaky."
    press(panel, Qt.Key.Key_Z)
    settle(qtbot, panel)
    assert practice.signed == []
    assert cells(skills.table)[1][2] == "the shop file"
    assert not skills.form.back.isEnabled()


def test_somebody_who_is_not_of_the_shop_is_signed_nothing_off(qtbot, panel):
    panel.who.box.setEditText("Orla")
    panel.who.take()
    turn_to(qtbot, panel, panel.skills)
    assert "not among the people of this shop" in panel.skills.head.text()
    assert not panel.skills.form.sign.isEnabled()
    assert "no certificate of safety" in panel.skills.plain.text()


def test_every_control_can_be_told_by_a_reader_and_reached_by_tab(qtbot, panel):
    for tab in (panel.exercise, panel.progress, panel.skills):
        turn_to(qtbot, panel, tab)
        kinds = (QAbstractButton, QComboBox, QLineEdit, QTableView)
        controls = [c for kind in kinds for c in panel.findChildren(kind) if c.isVisible()]
        own = [c for c in controls if c.objectName() and not c.objectName().startswith("qt_")]
        unnamed = [
            c.objectName() for c in own if not (c.accessibleName() or getattr(c, "text", str)())
        ]
        assert own
        assert unnamed == []
        unreached = [
            c.objectName()
            for c in own
            if c.isEnabled() and not c.focusPolicy() & Qt.FocusPolicy.TabFocus
        ]
        assert unreached == []


@pytest.mark.parametrize("at", [At.ASKED, At.WHY], ids=["asked", "why"])
def test_tab_goes_from_what_is_known_to_the_answer_the_picture_and_the_buttons(qtbot, panel, at):
    if at is At.WHY:
        answer(qtbot, panel, RIGHT)
    assert panel.pane.at is at
    panel.bar.kind.setFocus()
    walked = []
    for _ in range(14):
        held = panel.window().focusWidget()
        walked.append(held.objectName())
        QTest.keyClick(held, Qt.Key.Key_Tab)
    why = ["drill_choice_A"] if at is At.WHY else []
    here = ["drill_cautions", "drill_order", "drill_canvas", *why, "drill_answer", "drill_on"]
    wanted = ["drill_number", *here, "practice_who"]
    assert [name for name in walked if name in wanted] == wanted


@pytest.mark.parametrize("share", [1.0, 2.0], ids=["usual", "twice"])
def test_nothing_is_cut_on_a_small_screen(qtbot, page, share):
    """A screen of 1024 by 768 leaves this much beside the frame."""
    font = page.font()
    font.setPointSizeF(font.pointSizeF() * share)
    page.setFont(font)
    page.resize(984, 728)
    answer(qtbot, page.panel, (CLOSE, STRAP, TRIM))
    for tab in range(3):
        page.panel.tabs.setCurrentIndex(tab)
        assert page.minimumSizeHint().width() <= 984
        assert page.minimumSizeHint().height() <= 728
    foot = page.panel.pane.view.foot
    page.panel.tabs.setCurrentIndex(0)
    low = foot.mapTo(page, QPoint(0, foot.height()))
    assert low.y() <= page.height()


def test_tables_and_fields_grow_with_the_text_of_the_program(qtbot, page, qapp):
    skills = page.panel.skills
    turn_to(qtbot, page.panel, skills)
    watched = (skills.form.note, skills.form.company, skills.form.sign)
    before = [skills.table.rowHeight(0), *(w.sizeHint().height() for w in watched[:2])]
    usual = qapp.font()
    larger = qapp.font()
    larger.setPointSizeF(usual.pointSizeF() * 2)
    try:
        qapp.setFont(larger)
        QTest.qWait(0)
        after = [skills.table.rowHeight(0), *(w.sizeHint().height() for w in watched[:2])]
        assert all(new > old * 1.4 for new, old in zip(after, before, strict=True))
        assert skills.form.sign.font().pointSizeF() == larger.pointSizeF()
    finally:
        qapp.setFont(usual)


def test_a_screen_of_1440_by_900_at_twice_the_scale_has_room(qtbot, page):
    page.resize(680, 410)
    answer(qtbot, page.panel, (CLOSE, STRAP, TRIM))
    assert page.minimumSizeHint().width() <= 680
    assert page.minimumSizeHint().height() <= 410


def test_a_day_does_not_make_the_window_larger_than_the_screen(qtbot, page, practice):
    size = page.size()
    practice.drill = DAY
    press(page.panel, Qt.Key.Key_N)
    settle(qtbot, page.panel)
    assert page.panel.pane.view.head.question.text() == DAY.question
    assert page.size() == size
    sides = page.panel.pane.view.sides
    assert sides.given.parentWidget() is not sides.widget(0)
    press(page.panel, Qt.Key.Key_Return)
    assert page.panel.said.text() == "Give each of them a time first, then answer."
