"""A window that reads along says so, takes over when asked, and gives way to another one."""

from dataclasses import dataclass

import pytest

from armorplan.desktop.bench_type import LEAST_TARGET_PX
from armorplan.desktop.reading_along import PATIENCE_LOOKS, ReadingAlong
from armorplan.desktop.widgets.reading_bar import ReadingBar


@dataclass
class FakeTurn:
    writes: bool = False
    wants: bool = False
    knows_locks: bool = True
    next: bool | None = None
    """What the next look makes of it."""

    def ask(self):
        self.wants = True

    def look(self):
        if self.next is not None:
            self.writes, self.next = self.next, None
            self.wants = False

    def other(self):
        return "another window (since 1 Mar 09:00)"


@pytest.fixture
def turn():
    return FakeTurn()


@pytest.fixture
def said(bridge):
    found = []
    bridge.said.connect(found.append)
    return found


@pytest.fixture
def reading(bridge, turn):
    return ReadingAlong(bridge, turn)


@pytest.fixture
def bar(qtbot, reading):
    made = ReadingBar(reading)
    qtbot.addWidget(made)
    return made


def test_the_bar_names_who_writes_and_takes_over_with_one_press(reading, bar, turn, said, bridge):
    seen = []
    bridge.changed.connect(lambda: seen.append(turn.writes))
    assert not bar.isHidden()
    assert "reads along: another window (since 1 Mar 09:00) writes" in bar.words.text()
    bar.take_over.click()
    assert turn.wants
    assert "has asked another window" in bar.words.text()
    turn.next = True
    reading.look()
    assert bar.isHidden()
    assert said == ["From now on this window writes in the workshop."]


def test_beside_the_bench_view_its_button_is_pressed_with_a_knuckle(bar):
    bar.grow(True)
    assert bar.take_over.minimumHeight() == LEAST_TARGET_PX
    bar.grow(False)
    assert bar.take_over.minimumHeight() < LEAST_TARGET_PX


def test_a_window_that_does_not_give_way_is_told_to_hang(reading, bar, turn):
    reading.write_here()
    for _ in range(PATIENCE_LOOKS):
        reading.look()
    assert "does not give way. If it hangs, end it" in bar.words.text()
    # Asked anew, it is waited for anew.
    reading.write_here()
    assert "has asked" in bar.words.text()


def test_a_window_that_is_asked_reads_along_and_says_so(reading, bar, turn, said):
    turn.writes = True
    bar.refresh()
    assert bar.isHidden()
    turn.next = False
    reading.look()
    assert not bar.isHidden()
    assert said == ["Another window has taken over writing; this one reads along."]


def test_what_the_other_did_last_is_seen_before_this_one_writes(
    reading, turn, bridge, monkeypatch
):
    order = []
    monkeypatch.setattr(type(bridge), "read_along", lambda _self: order.append("read"))
    reading.turned.connect(lambda: order.append("turned"))
    turn.next = True
    reading.look()
    assert order == ["read", "turned"]


def test_a_window_that_writes_already_says_so(reading, turn, said):
    turn.writes = True
    reading.write_here()
    assert said == ["This window writes in the workshop already."]
    assert not turn.wants


def test_a_disk_without_locks_is_told_once(reading, turn, said):
    reading.tell_at_start()
    turn.writes, turn.knows_locks = True, False
    reading.tell_at_start()
    turn.knows_locks = True
    reading.tell_at_start()
    assert len(said) == 2
    assert "reads along" in said[0]
    assert "knows no locks" in said[1]
