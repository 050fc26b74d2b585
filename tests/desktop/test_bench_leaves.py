"""What lies over the bench view: reading, fitting it to the bench, dry fits, what is amiss."""

import json
from dataclasses import replace
from types import SimpleNamespace

import pytest
from desktop.bench_fit_scene import LOOKS, PIN, fit_of
from desktop.fake_next_version import FakeTeaching
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from armorplan.app.dry_fit_rows import DryFitPlan
from armorplan.app.rows import BenchState
from armorplan.desktop.bench_commits import BenchCommits
from armorplan.desktop.bench_content import Weight
from armorplan.desktop.bench_leaf import PanelLeaf
from armorplan.desktop.bench_verbs import Verb, read_pedals
from armorplan.desktop.bench_words import unbroken
from armorplan.desktop.next_version_desk import NextVersionDesk
from armorplan.desktop.settings import BENCH_DISTANCE_CM, BENCH_PEDALS, BENCH_TEXT_PCT
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.bench_view import BenchView


@pytest.fixture
def view(bridge, settings, qtbot, session, monkeypatch):
    fit = next(s.id for s in session.steps if s.kind == "dry-fit")
    plan = DryFitPlan(fits=(fit_of(fit),))
    monkeypatch.setattr(session, "asking_fit", lambda: SimpleNamespace(at_once=lambda: plan))
    ticker = Ticker(bridge)
    made = BenchView(bridge, ticker, settings, lambda: None)
    qtbot.addWidget(made)
    made.resize(1366, 768)
    made.show()
    yield made
    made.close()
    made.end_jobs()
    ticker._beat.stop()
    ticker._shot.stop()


@pytest.fixture
def press(view, clock):
    def pressed(*verbs):
        for verb in verbs:
            clock.advance(1 / 60)
            view.desk.act(verb)

    return pressed


@pytest.fixture
def at_fit(view, bridge, session, qtbot):
    at = next(i for i, s in enumerate(session.steps) if s.kind == "dry-fit")
    bridge.done(tuple(s.id for s in session.steps[:at]))
    bridge.choose_steps((session.steps[at].id,))
    view.come()
    qtbot.waitUntil(lambda: view.desk.walk is not None)
    return session.steps[at].id


def titles(view, press, verb, count):
    found = [view.page.title.text()]
    for _ in range(count):
        press(verb)
        found.append(view.page.title.text())
    return found


def test_a_dry_fit_goes_from_the_lay_out_over_pins_to_one_look_at_a_time(
    view, at_fit, press, session
):
    shown = titles(view, press, Verb.DONE, 4)
    assert shown[:2] == ["Lay it out without pins", unbroken("Round 1 of 1, on the bench")]
    assert shown[2:4] == [look.text for look in LOOKS]
    assert session.states()[at_fit] is BenchState.READY
    press(Verb.DONE)
    assert session.states()[at_fit] is BenchState.DONE
    assert view.desk.card.step != at_fit


def test_going_back_in_a_fit_takes_back_no_press(view, at_fit, press, session):
    press(Verb.DONE, Verb.DONE, Verb.TAKE_BACK)
    assert view.page.title.text() == unbroken("Round 1 of 1, on the bench")
    assert "M4" in view.page.facts.text()
    assert session.states()[at_fit] is BenchState.READY


def test_parts_of_a_look_are_lit_and_where_one_stands_is_told(view, at_fit, press):
    press(Verb.DONE, Verb.DONE)
    content = view.content()
    assert content.lit.parts == ("piece_0.petal_low",)
    assert content.progress == "page 3 of 5"


def test_a_fit_is_gone_on_with_where_it_was_left(view, at_fit, press, bridge, session):
    press(Verb.DONE, Verb.DONE)
    bridge.choose_steps((session.steps[0].id,))
    bridge.choose_steps((at_fit,))
    assert view.page.title.text() == LOOKS[0].text


def test_what_is_amiss_at_a_look_is_told_in_three_presses_and_kept(
    view, at_fit, press, session, monkeypatch
):
    kept = []
    monkeypatch.setattr(
        type(session.way_back),
        "found",
        lambda _self, step, text: kept.append((step, text)) or "Kept.",
    )
    press(Verb.DONE, Verb.DONE, Verb.AMISS)
    assert view.desk.leaf is not None
    while view.desk.leaf is not None:
        press(Verb.DONE)
    assert [step for step, _ in kept] == [at_fit]
    assert '"rim"' in kept[0][1]
    assert view.page.title.text() == LOOKS[0].text


def test_digits_choose_the_answer_they_stand_before(view, at_fit, press, session):
    press(Verb.DONE, Verb.DONE)
    QTest.keyClick(view, Qt.Key.Key_4)
    assert view.page.title.text() == "What was found?"
    lines = view.page.facts.text().split("\n")
    assert [line[2:4] for line in lines] == [f"{n}\N{EN SPACE}" for n in range(1, 7)]
    QTest.keyClick(view, Qt.Key.Key_2)
    assert view.page.title.text() != "What was found?"
    while view.page.title.text() != "How far?":
        QTest.keyClick(view, Qt.Key.Key_1)
    assert view.page.facts.text().split("\n")[-1].startswith("▼\N{NO-BREAK SPACE}")
    QTest.keyClick(view, Qt.Key.Key_7)
    assert view.desk.leaf is None
    ((step, text),) = session.way_back.findings
    told = json.loads(text)
    assert (step, told["kind"], told["mm"]) == (at_fit, "overlap", 7.0)


def test_the_sign_off_names_what_was_found(view, at_fit, press, bridge, session):
    bench = FakeTeaching()
    bench.findings = ()
    desk = NextVersionDesk(bridge, bench)
    press(*[Verb.DONE] * 4)
    assert "Is all of it as it should be?" in view.page.facts.text()
    bench.findings = ((at_fit, "a gap of 2 mm, lower row"), ("another", "too long"))
    view.refresh()
    assert unbroken("• a gap of 2 mm, lower row") in view.page.facts.text()
    assert "too long" not in view.page.facts.text()
    assert "Is all of it" not in view.page.facts.text()
    press(Verb.DONE)
    assert session.states()[at_fit] is BenchState.DONE
    desk.close()


def test_pins_have_their_numbers_in_the_picture(view, at_fit, press):
    press(Verb.DONE)
    assert view.content().numbers == ((PIN.joint, 1),)
    assert view.page.picture._numbers == ((PIN.joint, 1),)
    plain = view.page.picture.grab().toImage()
    view.page.picture.number(())
    assert view.page.picture.grab().toImage() != plain
    press(Verb.DONE)
    assert view.content().numbers == ()


def test_a_look_with_a_step_of_its_own_ticks_it_and_what_is_needed_is_told_by_size(
    view, at_fit, press, session
):
    mark = next(s.id for s in session.steps if s.kind == "rivet")
    fit = fit_of(at_fit)
    thin = replace(PIN, number=2, joint="piece_0.lower_1", pin_name="Bolt M3 × 12")
    (on,) = fit.rounds
    looks = (replace(LOOKS[0], step=mark), LOOKS[1])
    fit = replace(fit, rounds=(replace(on, pins=(PIN, thin), looks=looks),))
    view.fits._take(DryFitPlan(fits=(fit,)))
    press(Verb.DONE)
    first = view.page.facts.text().split("\n")[0]
    assert first.replace("\N{NO-BREAK SPACE}", " ") == (
        "Have ready: 1 × Bolt M3 × 12, 1 × Bolt M4 × 12 with wing nut."
    )
    press(Verb.DONE, Verb.DONE, Verb.DONE)
    assert mark not in session._bench.done
    press(Verb.DONE)
    assert {at_fit, mark} <= {*session._bench.done}
    assert session.can_undo().startswith("Done: 2 steps")


def test_all_there_is_to_read_is_a_key_away_and_pages_hold_it(view, bridge, session, press):
    dye = next(s for s in session.steps if s.cautions)
    bridge.choose_steps((dye.id,))
    view.come()
    QTest.keyClick(view, Qt.Key.Key_M)
    assert dye.cautions[0] in view.page.facts.text()
    assert not view.page.picture.isVisible()
    press(Verb.OTHER)
    assert view.desk.leaf is None
    assert view.page.picture.isVisible()


def test_the_view_is_fitted_to_the_bench_by_its_own_verbs(view, settings, press):
    view.come()
    before = view.page.laid.body_px
    QTest.keyClick(view, Qt.Key.Key_S)
    press(Verb.BEGIN, Verb.BEGIN)
    assert settings.value(BENCH_DISTANCE_CM) == 130
    press(Verb.OTHER, Verb.OTHER, Verb.DONE)
    assert settings.value(BENCH_TEXT_PCT) == 110
    press(Verb.TAKE_BACK)
    assert view.desk.leaf is None
    assert view.page.laid.body_px != before


def test_a_pedal_is_learned_by_pressing_it(view, settings, press):
    view.come()
    QTest.keyClick(view, Qt.Key.Key_S)
    press(*[Verb.OTHER] * 5, Verb.DONE)
    assert "Done" in view.page.title.text()
    QTest.keyClick(view, Qt.Key.Key_PageDown)
    assert read_pedals(settings.value(BENCH_PEDALS)) == {"PgDown": Verb.DONE}
    press(Verb.DONE)
    QTest.keyClick(view, Qt.Key.Key_F5)
    assert "something else" in view.page.title.text()
    press(Verb.BEGIN)
    assert settings.value(BENCH_PEDALS) == ""


def test_amiss_opens_the_way_back_over_the_view_and_pedals_work_it(
    view, settings, press, bridge, session
):
    settings.put(BENCH_PEDALS, "other=PgDown; amiss=PgUp")
    view.come()
    step = view.desk.card.step
    press(Verb.AMISS)
    assert isinstance(view.desk.leaf, PanelLeaf)
    panel = next(iter(view.leaves.panels._made.values()))
    assert panel.isVisible()
    assert not panel.go_on.isVisible()
    panel.go_on.setEnabled(False)
    assert set(view.desk.leaf.words()) == {Verb.AMISS, Verb.TAKE_BACK}
    panel.go_on.setEnabled(True)
    first = panel.answers.currentRow()
    QTest.keyClick(panel.answers, Qt.Key.Key_PageDown)
    assert panel.answers.currentRow() == (first + 1) % panel.answers.count()
    QTest.keyClick(panel.answers, Qt.Key.Key_PageUp)
    assert view.desk.leaf is None
    assert not panel.isVisible()
    assert view.desk.card.step == step


def test_earlier_next_time_is_asked_over_the_view(view, press):
    view.come()
    QTest.keyClick(view, Qt.Key.Key_E)
    assert isinstance(view.desk.leaf, PanelLeaf)
    QTest.keyClick(view, Qt.Key.Key_Escape)
    assert view.desk.leaf is None


def test_the_commit_line_stands_before_the_blow(view, bridge, session, qtbot):
    view.come()
    qtbot.waitUntil(lambda: "cannot be taken back" in view.page.commit.accessibleName())
    commits = BenchCommits(bridge)
    rivet = next(s for s in session.steps if s.id.endswith("lower_3"))
    card = session.bench_card(rivet.id)
    assert commits.line(card).weight is Weight.NOTHING
    with qtbot.waitSignal(commits.told):
        pass
    assert commits.line(card).text.startswith("After this, 1 joint")
    assert commits.line(card).weight is Weight.CLOSES
    commits.close()


def test_a_step_that_closes_nothing_says_so(bridge, session, qtbot):
    commits = BenchCommits(bridge)
    card = session.bench_card(next(s.id for s in session.steps if s.kind == "rivet"))
    commits.line(card)
    with qtbot.waitSignal(commits.told):
        pass
    assert commits.line(card).text == "Nothing is closed off by this."
    assert commits.line(card).weight is Weight.NOTHING
    commits.close()
