"""The dry fit in the window: gone through line by line, what was found kept, signed off or waived."""

import json
from dataclasses import replace

import pytest
from desktop.fake_dry_fit import FakeFits, fit_plan_of
from desktop.fake_session import FakeSession
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton

from armorplan.app.entries import NOT_RECORDED
from armorplan.app.fit_findings import found_words
from armorplan.app.fit_looks import LookKind
from armorplan.app.rows import BenchState, Grouping
from armorplan.desktop.dry_fit_lines import (
    LineKind,
    first_line,
    lines_of,
    next_line,
    pin_words,
    with_last_fits,
)
from armorplan.desktop.dry_fit_talk import DryFitTalk, places_of
from armorplan.desktop.widgets.dry_fit_panel import DryFitPanel
from armorplan.kernel.errors import SolverLostError


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


def test_lay_out_comes_before_pins_pins_before_looks_and_the_sign_off_last(fit):
    lines = lines_of(fit, ())
    kinds = [line.kind for line in lines]
    assert kinds.index(LineKind.PART) < kinds.index(LineKind.PIN) < kinds.index(LineKind.LOOK)
    assert kinds[-2:] == [LineKind.SIGN_OFF, LineKind.WAIVE]
    said = [line.text for line in lines if line.kind is LineKind.SAID]
    assert said[0] == "5 pins that fit are owned; all of it at once takes 8."
    heads = [line.text for line in lines if line.kind is LineKind.HEAD]
    assert heads[1:4] == ["The lames flow down the arm.", "Round 1 of 2: 4 pins", "Look at it"]
    assert len({line.key for line in lines}) == len(lines)


def test_pins_say_size_hole_and_what_is_special_about_them(fit):
    first, _, third, last = fit.rounds[0].pins
    assert pin_words(first) == "1. lower row, hole 1 of 4: Bolt M3 × 12, into 3.5 mm"
    assert pin_words(third).endswith("▲ a hand hardly gets there")
    assert pin_words(last).endswith("(may be left out)")
    clips = [line.text for line in lines_of(fit, ()) if "clip" in line.key]
    assert clips == ["the strap: a clip or a tie, there is no pin left"]


def test_looks_left_are_counted_at_the_sign_off(fit):
    def sign_off(*ticked):
        return next(x.text for x in lines_of(fit, ticked) if x.kind is LineKind.SIGN_OFF)

    assert sign_off().endswith("– 3 looks not ticked")
    assert sign_off("look:gap:lower", "look:mark").endswith("– 1 look not ticked")
    assert sign_off("look:gap:lower", "look:mark", "look:gap:upper").endswith("may begin")


def test_enter_ticks_and_goes_on_past_the_heads(panel, fit):
    count = len(fit.lay_out)
    press(panel, *[Qt.Key.Key_Return] * count)
    assert panel.lines.line().kind is LineKind.PIN
    assert panel.lines.item(panel.lines.currentRow() - 3).text().startswith("✓")
    assert len(panel.desk.ticked(fit.step)) == count


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


def test_of_what_cannot_be_measured_no_distance_is_asked(fit, session):
    look = fit.rounds[0].looks[0]
    talk = DryFitTalk(look, places_of(look, dict(fit.seams), ()))
    assert talk.take("turned").about == "lower_row"
    assert talk.back()
    assert talk.screen().heading == "What was found?"
    assert not talk.back()


def test_whether_it_is_fastened_alone_is_asked_where_that_is_looked_at(fit):
    look = replace(fit.rounds[0].looks[0], kind=LookKind.FASTEN, about=(), seams=())
    talk = DryFitTalk(look, ())
    assert talk.screen().choices[0].text == "The wearer cannot fasten it alone"
    found = talk.take("not-alone")
    assert found_words(found) == "the wearer cannot fasten it alone"
    other = DryFitTalk(replace(look, kind=LookKind.GAP), ())
    assert "not-alone" not in {choice.key for choice in other.screen().choices}


def test_a_single_hole_of_a_row_can_be_named(fit, session):
    look = fit.rounds[0].looks[0]
    rivets = [s for s in session.steps if s.joints and "/lower_" in s.id][:4]
    rows = [row for row in session.checklist(Grouping.PIECE) if row.id in {s.id for s in rivets}]
    tray = replace(rows[0], id="tray:x/seam:lower_row:1", steps=tuple(s.id for s in rivets))
    places = places_of(look, dict(fit.seams), (tray, *rows))
    assert [one.key for one in places] == ["lower_row", *(s.joints[0] for s in rivets)]
    assert places[1].text == rivets[0].title


def test_what_is_about_nothing_that_has_a_name_is_found_at_the_whole(fit):
    talk = DryFitTalk(fit.rounds[1].looks[1], ())
    assert talk.take("pinches").about == "whole"


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


def test_the_last_fit_on_the_wearer_can_be_waived_too(fit, session):
    rows = session.checklist(Grouping.PIECE)
    row = next(row for row in rows if row.id == fit.step)
    worn = replace(row, kind="fit", title="Fit it on the wearer", detail="All bends free.")
    over = replace(worn, state=BenchState.DONE)
    plan = with_last_fits(fit_plan_of(session.steps), (*rows, worn, over))
    last = plan.fits[-1]
    assert len(plan.fits) == len(fit_plan_of(session.steps).fits) + 1
    lines = lines_of(last, ())
    assert [line.text for line in lines[:1]] == ["All bends free."]
    assert [line.kind for line in lines[-2:]] == [LineKind.SIGN_OFF, LineKind.WAIVE]
    assert lines[-2].text == "Sign off the fit on the wearer"


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


class FakeSolver:
    """Counts what it is asked, and is lost where it is told so."""

    def __init__(self, *, is_lost=False):
        self.asked, self.is_lost = 0, is_lost

    def solve(self, _model, **_stop):
        self.asked += 1
        if self.is_lost:
            raise SolverLostError("The solver stopped working.")


def unproved(session, monkeypatch):
    plan = fit_plan_of(session.steps)
    fits = tuple(replace(fit, proved=False) for fit in plan.fits)
    monkeypatch.setattr(FakeFits, "at_once", lambda _fits: replace(plan, fits=fits))


@pytest.mark.parametrize(("is_lost", "rounds"), [(False, 1), (True, 2)])
def test_rounds_stand_at_once_and_are_fewer_once_the_solver_proves_it(
    qtbot, bridge, session, monkeypatch, is_lost, rounds
):
    unproved(session, monkeypatch)
    bridge.solver = solver = FakeSolver(is_lost=is_lost)
    panel = DryFitPanel(bridge)
    qtbot.addWidget(panel)
    plans = []
    panel.desk.planned.connect(plans.append)
    panel.begin()
    qtbot.waitUntil(lambda: len(plans) == 2)
    assert [len(plan.fits[0].rounds) for plan in plans] == [2, rounds]
    assert solver.asked == 1
    panel.close_jobs()


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


def test_the_next_line_passes_over_heads_and_goes_round(fit):
    lines = lines_of(fit, ())
    assert lines[next_line(lines, -1, 1)].kind is LineKind.PINS
    assert lines[next_line(lines, len(lines) - 1, 1)].kind is LineKind.PINS
    assert lines[first_line(lines)].kind is LineKind.PART
    assert next_line((), 3, 1) == 3
