"""The dry fit in the window: gone through line by line, what was found kept, signed off or waived."""

import json

import pytest
from desktop.fake_dry_fit import fit_plan_of
from desktop.fake_session import FakeSession
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton

from armorplan.app.entries import NOT_RECORDED
from armorplan.desktop.dry_fit_lines import (
    LineKind,
)
from armorplan.desktop.widgets.dry_fit_panel import DryFitPanel


@pytest.fixture
def fit(session):
    return fit_plan_of(session.steps).fits[0]


@pytest.fixture
def panel(qtbot, bridge):
    made = DryFitPanel(bridge)
    qtbot.addWidget(made)
    made.resize(760, 640)
    made.show()
    made.begin()
    qtbot.waitUntil(lambda: bool(made.lines.lines))
    yield made
    made.close_jobs()
    made.close()


def go_to(panel, key):
    keys = [line.key for line in panel.lines.lines]
    panel.lines.setCurrentRow(keys.index(key))


def press(panel, *keys):
    for key in keys:
        at = panel.answers if panel.answers.isVisible() else panel.lines
        QTest.keyClick(at, key)


def test_enter_ticks_and_goes_on_past_the_heads(panel, fit):
    count = len(fit.lay_out)
    press(panel, *[Qt.Key.Key_Return] * count)
    assert panel.lines.line().kind is LineKind.PIN
    assert panel.lines.item(panel.lines.currentRow() - 3).text().startswith("✓")
    assert len(panel.desk.ticked(fit.step)) == count


def test_the_sign_off_says_that_it_is_too_early_until_its_time_has_come(panel, fit, session):
    def sign_off():
        return next(x.text for x in panel.lines.lines if x.kind is LineKind.SIGN_OFF)

    assert "too early, it waits for: " in sign_off()
    at = next(n for n, step in enumerate(session.steps) if step.id == fit.step)
    session.done(tuple(step.id for step in session.steps[:at]))
    panel.begin()
    panel._show_fit()
    assert "too early" not in sign_off()


def test_a_tick_is_taken_back_by_the_same_key(panel, fit):
    press(panel, Qt.Key.Key_Return, Qt.Key.Key_Up, Qt.Key.Key_Return)
    assert panel.desk.ticked(fit.step) == frozenset()


def test_the_line_in_hand_lights_up_in_the_pictures(panel, fit, bridge):
    pin = fit.rounds[0].pins[0]
    go_to(panel, f"pin:1:{pin.joint}")
    assert bridge.selection.joints == (pin.joint,)
    assert bridge.selection.steps == (fit.step,)
    go_to(panel, "look:gap:lower")
    assert set(bridge.selection.parts) == set(fit.rounds[0].looks[0].about[:-1])


def test_the_picture_within_shows_the_line_in_hand_and_numbers_the_pins(panel, fit):
    pin = fit.rounds[0].pins[1]
    go_to(panel, f"pin:1:{pin.joint}")
    assert panel.picture.isVisible()
    assert panel.picture._choice.selection.joints == (pin.joint,)
    assert panel.picture._numbers == tuple((p.joint, p.number) for p in fit.rounds[0].pins)
    go_to(panel, "look:gap:lower")
    assert panel.picture._numbers == ()
    assert set(panel.picture._choice.selection.parts) == set(fit.rounds[0].looks[0].about[:-1])


def test_what_was_found_is_told_in_three_keys_and_kept_with_the_fit(panel, fit, session):
    go_to(panel, "look:gap:lower")
    panel.finds.click()
    assert panel.heading.text() == "What was found?"
    press(panel, Qt.Key.Key_1)
    assert panel.heading.text() == "Where?"
    press(panel, Qt.Key.Key_1)
    assert panel.heading.text() == "How far?"
    press(panel, Qt.Key.Key_4)
    ((step, text),) = session.way_back.findings
    assert step == fit.step
    told = json.loads(text)
    assert (told["kind"], told["mm"], told["about"]) == ("gap", 4.0, "lower_row")
    assert panel.heading.text() == "Kept with the fit."
    assert panel.lines.line().key == "look:gap:lower"


def test_something_is_found_at_looks_alone(panel):
    assert not panel.finds.isEnabled()
    panel.tell()
    assert "Choose the look" in panel.heading.text()


def test_escape_leaves_the_questions_first_and_then_the_panel(qtbot, panel):
    go_to(panel, "look:gap:lower")
    panel.tell()
    press(panel, Qt.Key.Key_1, Qt.Key.Key_Escape, Qt.Key.Key_Escape)
    assert panel.lines.isVisible()
    with qtbot.waitSignal(panel.left):
        press(panel, Qt.Key.Key_Escape)


def test_signing_off_ticks_the_step_and_leaves(qtbot, panel, fit, session):
    go_to(panel, "sign-off")
    with qtbot.waitSignal(panel.left):
        panel.take()
    assert session.can_undo().startswith("Done: ")
    assert fit.step in session._bench.done


def test_a_sign_off_that_the_disk_refuses_is_told_and_leaves_the_fit_open(panel, session):
    left = []
    panel.left.connect(lambda: left.append(1))
    session.done = lambda _steps: f"{NOT_RECORDED} The disk is full."
    go_to(panel, "sign-off")
    panel.take()
    assert panel.heading.text() == "Not recorded. The disk is full."
    assert left == []


def test_a_look_with_a_step_of_its_own_ticks_that_with_the_sign_off(panel, fit, session):
    mark = fit.rounds[1].looks[1]
    go_to(panel, "look:mark")
    panel.take()
    assert mark.step not in session._bench.done
    go_to(panel, "sign-off")
    panel.take()
    assert {fit.step, mark.step} <= {*session._bench.done}


def test_a_fit_is_waived_with_a_note_alone(qtbot, panel, fit, session):
    go_to(panel, "waive")
    panel.take()
    assert panel.why.isVisible()
    QTest.keyClick(panel.why, Qt.Key.Key_Return)
    assert session.waived == []
    assert "Say why" in panel.heading.text()
    QTest.keyClicks(panel.why, "proven on the first watch")
    with qtbot.waitSignal(panel.left):
        QTest.keyClick(panel.why, Qt.Key.Key_Return)
    assert session.waived == [((fit.step,), "proven on the first watch")]


def test_the_fit_of_what_is_chosen_comes_first(qtbot, bridge, session):
    second = fit_plan_of(session.steps).fits[1]
    bridge.choose_part(second.lay_out[0].part)
    made = DryFitPanel(bridge)
    qtbot.addWidget(made)
    made.show()
    made.begin()
    qtbot.waitUntil(lambda: made.fits.currentData() == second.step)
    assert made.fits.isVisible()
    made.close_jobs()
    made.close()


def test_page_and_bench_view_tick_the_same_fit(qtbot, panel, bridge, fit):
    press(panel, Qt.Key.Key_Return)
    other = DryFitPanel(bridge, big=True)
    qtbot.addWidget(other)
    assert other.desk.ticked(fit.step) == {f"part:{fit.lay_out[0].part}"}


def test_another_build_has_its_own_fits_and_ticks(qtbot, panel, bridge):
    press(panel, Qt.Key.Key_Return)
    bridge.open(FakeSession(steps=FakeSession.of(92).steps[:30], build_id="watch-2"))
    qtbot.waitUntil(lambda: panel.fits.count() == 0 and not panel.desk.is_busy)
    assert panel.lines.lines == ()
    assert "no dry fit" in panel.heading.text()


def test_an_error_is_told(qtbot, panel, session):
    class Broken:
        def at_once(self):
            raise ValueError("The pins cannot be read.")

    session.asking_fit = Broken
    panel.begin()
    qtbot.waitUntil(lambda: panel.heading.text() == "The pins cannot be read.")


def test_big_targets(qtbot, panel, bridge):
    big = DryFitPanel(bridge, big=True)
    qtbot.addWidget(big)
    font = big.font()
    font.setPixelSize(35)
    big.setFont(font)
    big.resize(1024, 700)
    big.show()
    big.begin()
    qtbot.waitUntil(lambda: bool(big.lines.lines))
    row = big.lines.currentRow()
    assert big.lines.sizeHintForRow(row) >= 88
    shown = [b for b in big.findChildren(QAbstractButton) if b.isVisible() and b.text()]
    assert all(button.height() >= 88 for button in shown)
    big.close_jobs()
    big.close()


def test_home_shows_what_is_said_before_the_first_line(panel):
    press(panel, Qt.Key.Key_End)
    assert panel.lines.verticalScrollBar().value() > 0
    press(panel, Qt.Key.Key_Home)
    assert panel.lines.verticalScrollBar().value() == 0


def test_no_key_takes_a_head_in_hand(panel):
    seen = []
    panel.lines.currentRowChanged.connect(lambda row: seen.append(panel.lines.lines[row].kind))
    press(panel, Qt.Key.Key_End, *[Qt.Key.Key_Up] * 12, Qt.Key.Key_Home, *[Qt.Key.Key_Down] * 12)
    assert len(seen) > 20
    assert not {LineKind.HEAD, LineKind.SAID} & set(seen)
