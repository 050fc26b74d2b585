"""What was seen of a drying, told from its page: dry, damp, weighed; forgotten and taken back."""

import pytest
from desktop.fake_drying import learned_row
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from armorplan.desktop.weigh_words import weights_of
from armorplan.desktop.widgets.learned_bar import LearnedBar


@pytest.fixture
def bar(qtbot, bridge):
    made = LearnedBar(bridge)
    qtbot.addWidget(made)
    made.show()
    yield made
    made.close()


@pytest.fixture
def running(session):
    dry = next(s for s in session.steps if s.id.split("/")[3] == "dry_6")
    session.done(dry.needs)
    session.start((dry.id,))
    return dry


def choice_of(session, step):
    return next(c for c in session.dryings().steps if c.step == step.id)


def press(button):
    button.setFocus()
    QTest.keyClick(button, Qt.Key.Key_Space)


def test_a_running_drying_can_be_told_dry_or_damp(qtbot, bar, bridge, session, running):
    bar.show_choice(choice_of(session, running))
    said = []
    bridge.said.connect(said.append)
    press(bar.damp)
    press(bar.dry)
    assert session.drying.pressed == [("damp", running.id), ("dry", running.id)]
    assert said == [f"damp: {running.id}.", f"dry: {running.id}."]
    assert "Learned from 5 dryings." in bar.words.text()


def test_what_does_not_dry_yet_is_not_told_dry(bar, session, running):
    bar.show_choice(session.dryings().treatments[0])
    assert bar.dry.isHidden()
    assert bar.damp.isHidden()
    assert bar.weigh.isHidden()
    assert bar.words.text()


def test_it_is_weighed_in_three_numbers_by_the_keyboard(qtbot, bar, session, running):
    bar.show_choice(choice_of(session, running))
    assert bar.scale.isHidden()
    press(bar.weigh)
    assert bar.scale.isVisible()
    for line, text in zip(bar.weights, ("80", "120,5", "84"), strict=True):
        QTest.keyClicks(line, text)
    QTest.keyClick(bar.weights[2], Qt.Key.Key_Return)
    assert session.drying.pressed == [("weighed", running.id, 80.0, 120.5, 84.0)]
    assert bar.weights[2].text() == ""
    assert bar.weights[0].text() == "80"


@pytest.mark.parametrize(
    ("texts", "says"),
    [
        (("", "2", "3"), "Still to weigh: Before"),
        (("80", "1,200", "3"), "Wet: write"),
        (("80", "120", "damp"), "Now: 'damp' is no weight"),
        (("-3", "120", "100"), "Before: '-3' is no weight"),
        (("nan", "120", "100"), "'nan' is no weight"),
    ],
)
def test_weights_that_cannot_be_get_one_message(texts, says):
    named = tuple(zip(("Before", "Wet", "Now"), texts, strict=True))
    assert says in weights_of(named)


def test_a_weight_that_cannot_be_is_told_and_not_recorded(bar, bridge, session, running):
    bar.show_choice(choice_of(session, running))
    bar.weigh.setChecked(True)
    with_words = []
    bridge.said.connect(with_words.append)
    bar.record.click()
    assert with_words == ["Still to weigh: Before, in grams."]
    assert session.drying.pressed == []


def test_what_was_learned_is_forgotten_and_that_taken_back(bar, session, running):
    choice = choice_of(session, running)
    bar.show_choice(choice)
    session.drying.rows = (learned_row(choice.entry.id, observations=0),)
    press(bar.forget)
    assert "ount all that was seen again" in bar.forget.text()
    session.drying.rows = (learned_row(choice.entry.id),)
    press(bar.forget)
    assert "orget what was learned" in bar.forget.text()
    assert session.drying.pressed == [("forget", "finish"), ("remember", "finish")]


def test_only_what_was_recorded_offers_to_be_taken_back(
    bar, bridge, session, running, qtbot, monkeypatch
):
    choice = choice_of(session, running)
    bar.show_choice(choice)
    session.drying.rows = (learned_row(choice.entry.id),)
    bar.refresh()
    with qtbot.waitSignal(bridge.acted):
        press(bar.damp)
    # The learned pace is no entry of the bench: undo would take back another press.
    with qtbot.assertNotEmitted(bridge.acted):
        press(bar.forget)
    bar.weigh.setChecked(True)
    for line in bar.weights:
        line.setText("80")
    refused = "Not recorded. The wet weight is not above the dry one."
    monkeypatch.setattr(type(session.drying), "weigh", lambda *_args, **_weights: refused)
    with qtbot.assertNotEmitted(bridge.acted), qtbot.waitSignal(bridge.said) as said:
        bar.record.click()
    assert said.args == [refused]


def test_where_nothing_was_learned_nothing_is_forgotten(bar, session, running):
    choice = choice_of(session, running)
    session.drying.rows = (learned_row(choice.entry.id, observations=0),)
    bar.show_choice(choice)
    assert bar.forget.isHidden()
