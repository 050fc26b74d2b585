"""What was said last is shown whole as far as two lines hold it."""

import pytest

from armorplan.desktop.widgets.notice_line import NoticeLine, Sentence

LONG = "Recorded as done early: cut boss. It should wait until the card mock-up was tried. " * 2


@pytest.fixture
def line(bridge, qtbot):
    made = NoticeLine(bridge)
    qtbot.addWidget(made)
    made.resize(900, 30)
    made.show()
    return made


def test_a_long_sentence_takes_a_second_line_and_a_short_one_gives_it_back(line):
    said = line.findChild(Sentence, "said")
    line.say("Done: cut boss.")
    one = said.minimumHeight()
    line.say(LONG)
    assert said.minimumHeight() == 2 * one
    assert said.toolTip() == LONG
    line.say("Done: cut boss.")
    assert said.minimumHeight() == one


def test_a_narrower_window_makes_room(line, qtbot):
    said = line.findChild(Sentence, "said")
    line.say("Done: cut boss. What waited for it can go on now, and its timer has ended.")
    one = said.minimumHeight()
    line.resize(500, 30)
    qtbot.waitUntil(lambda: said.minimumHeight() == 2 * one)


def test_what_was_not_recorded_offers_nothing_to_take_back(line, bridge, monkeypatch):
    said = line.findChild(Sentence, "said")
    step = bridge.session.ready_steps()[0]
    bridge.start((step,))
    assert "Ctrl+Z" in said.text()
    monkeypatch.setattr(bridge.session, "note", lambda *_: "Not recorded. The disk is full.")
    bridge.note(step, "dull blade")
    assert said.text() == "Not recorded. The disk is full."
