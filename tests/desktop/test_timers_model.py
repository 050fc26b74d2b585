"""Timers are told from instants: a suspend, a late tick or a restart changes nothing."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import count

import pytest

from armorplan.app.rows import TimerRow
from armorplan.desktop.timers_model import Ticker, is_due, left_s, next_due_at

AT = datetime(2026, 5, 4, 9, 0, tzinfo=UTC)


def row(**changes):
    fields = {
        "step": "a",
        "title": "Dry the strap",
        "elapsed_s": 0.0,
        "as_of": AT,
        "running_since": AT,
        "planned_min": 30,
        "due_at": AT + timedelta(minutes=30),
    }
    return TimerRow(**{**fields, **changes})


def test_what_is_left_is_told_by_the_due_instant():
    assert left_s(row(), AT + timedelta(minutes=10)) == 1200
    assert left_s(row(), AT + timedelta(minutes=31)) == -60
    assert is_due(row(), AT + timedelta(minutes=30))


def test_a_paused_timer_keeps_what_is_left():
    paused = row(running_since=None, due_at=None, elapsed_s=600.0)
    assert left_s(paused, AT + timedelta(days=2)) == 1200
    assert not is_due(paused, AT + timedelta(days=2))


def test_the_next_due_instant_skips_what_is_past_and_what_stands():
    rows = (
        row(due_at=AT - timedelta(minutes=1)),
        row(step="b", due_at=AT + timedelta(minutes=5)),
        row(step="c", due_at=None, running_since=None),
    )
    assert next_due_at(rows, AT) == AT + timedelta(minutes=5)
    assert next_due_at(rows[:1], AT) is None


@pytest.fixture
def ticker(bridge, session):
    made = Ticker(bridge)
    yield made
    made.deleteLater()


def test_due_is_told_once_for_each_timer(ticker, bridge, session, clock):
    heard = []
    changes = []
    ticker.due.connect(lambda due: heard.append(due.title))
    first, second = session.ready_steps()[:2]
    bridge.start((first,))
    clock.advance(1)
    bridge.start((second,))
    bridge.changed.connect(lambda: changes.append("changed"))
    clock.advance(5.5)
    ticker.tick()
    ticker.tick()
    assert heard == ["Cut the lower petal"]
    assert changes == ["changed"]
    clock.advance(60)
    ticker.tick()
    assert heard == ["Cut the lower petal", "Cut the middle petal"]


def test_a_due_instant_that_jitters_with_each_reading_rings_once(
    bridge, session, clock, monkeypatch
):
    heard = []
    now, timers = clock.now, session.timers
    reads = count()

    def jittering():
        # The instant is reckoned from two clocks, read one after the other, back and forth.
        shift = timedelta(microseconds=(-1) ** next(reads))
        return tuple(replace(r, due_at=r.due_at and r.due_at + shift) for r in timers())

    monkeypatch.setattr(clock, "now", lambda: now() + timedelta(microseconds=next(reads)))
    monkeypatch.setattr(session, "timers", jittering)
    ticker = Ticker(bridge)
    ticker.due.connect(lambda due: heard.append(due.title))
    first, second = session.ready_steps()[:2]
    bridge.start((first,))
    clock.advance(30)
    for _ in range(5):
        ticker.refresh()
    bridge.start((second,))
    bridge.pause((second,))
    assert heard == ["Cut the lower petal"]
    bridge.pause((first,))
    bridge.start((first,))
    assert heard == ["Cut the lower petal"] * 2
    ticker.deleteLater()


def test_the_single_shot_hits_the_deadline_between_ticks(ticker, bridge, session, clock, qtbot):
    first = session.ready_steps()[0]
    bridge.start((first,))
    clock.advance(6 - 0.05 / 60)
    ticker.tick()
    with qtbot.waitSignal(ticker.ticked, timeout=500):
        clock.advance(0.06 / 60)


def test_each_tick_looks_at_what_time_and_other_windows_changed(ticker, session, monkeypatch):
    asked = []
    monkeypatch.setattr(type(session), "read_along", lambda _self: asked.append("asked") or False)
    ticker._beat.timeout.emit()
    assert asked == ["asked"]
    assert ticker._beat.isActive()
