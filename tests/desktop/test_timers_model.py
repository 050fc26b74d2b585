"""Timers are told from instants: a suspend, a late tick or a restart changes nothing."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import count

import pytest
from desktop.fake_timing import bell, ringing_once

from armorplan.app.bells import BellKind
from armorplan.app.rows import TimerRow
from armorplan.desktop.timers_model import Ticker, is_due, left_s, next_at

AT = datetime(2026, 5, 4, 9, 0, tzinfo=UTC)


def row(**changes):
    fields = {
        "step": "a",
        "id": "a|1",
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


def test_the_next_instant_skips_what_is_past():
    past, soon = AT - timedelta(minutes=1), AT + timedelta(minutes=5)
    assert next_at((past, AT + timedelta(hours=1), soon), AT) == soon
    assert next_at((past,), AT) is None


@pytest.fixture
def ticker(bridge, session):
    made = Ticker(bridge)
    yield made
    made.deleteLater()


@pytest.fixture
def heard(ticker):
    found = []
    ticker.rang.connect(lambda bells: found.append([b.title for b in bells]))
    return found


def test_what_is_due_rings_and_again_each_minute_until_it_is_answered(
    ticker, bridge, session, clock, heard
):
    first, second = session.ready_steps()[:2]
    bridge.start((first,))
    clock.advance(1)
    bridge.start((second,))
    clock.advance(5.5)
    ticker.tick()
    ticker.tick()
    assert heard == [["Cut the lower petal"]]
    assert [b.title for b in ticker.ringing] == ["Cut the lower petal"]
    clock.advance(1)
    ticker.tick()
    assert heard[1:] == [["Cut the lower petal", "Cut the middle petal"]]
    session.timing.hush(ticker.ringing[0].timer)
    session.timing.hush(ticker.ringing[0].timer)
    clock.advance(60)
    ticker.tick()
    assert len(heard) == 2
    assert ticker.ringing == ()


def test_a_change_at_the_bench_does_not_make_it_ring_again(ticker, bridge, session, clock, heard):
    bridge.start(session.ready_steps()[:1])
    clock.advance(6.1)
    ticker.tick()
    bridge.start(session.ready_steps()[:1])
    clock.advance(0.1)
    ticker.tick()
    assert heard == [["Cut the lower petal"]]


def test_one_timer_tells_each_of_its_moments(ticker, session, clock, heard):
    kinds = []
    ticker.rang.connect(lambda bells: kinds.extend(b.kind for b in bells))
    timer = row(id="damp", due_at=None)
    at = clock.now()
    moments = tuple(
        bell(timer, kind, at + timedelta(minutes=minutes))
        for kind, minutes in ((BellKind.OPENS, 1), (BellKind.CLOSES, 1.5), (BellKind.LATE, 1.8))
    )
    session.timing.more = (replace(timer, due_at=moments[0].at, bells=moments),)
    ticker.refresh()
    for _ in range(4):
        clock.advance(0.5)
        ticker.tick()
    assert kinds == [BellKind.OPENS, BellKind.CLOSES, BellKind.LATE]
    assert [r.kind for r in ticker.rows] == [BellKind.LATE]


def test_the_clock_set_back_or_ahead_has_the_timers_read_again(
    ticker, session, clock, monkeypatch
):
    told = []
    ticker.clock_set.connect(told.append)
    boot_s = clock.boot_seconds()
    monkeypatch.setattr(clock, "boot_seconds", lambda: boot_s + 1)
    ticker.tick()
    assert told == []
    clock.advance(-90)
    session.timing.more = (ringing_once(row(due_at=clock.now() + timedelta(minutes=5))),)
    ticker.tick()
    assert told == [-5400]
    assert [r.title for r in ticker.rows] == ["Dry the strap"]


def test_a_suspend_moves_both_clocks_and_rings_once_for_all_it_slept_through(
    ticker, bridge, session, clock, heard
):
    told, woke = [], []
    ticker.clock_set.connect(told.append)
    ticker.woke.connect(lambda: woke.append("woke"))
    bridge.start(session.ready_steps()[:1])
    ticker.tick()
    assert woke == []
    clock.advance(600)
    ticker.tick()
    assert heard == [["Cut the lower petal"]]
    assert told == []
    assert woke == ["woke"]


def test_a_due_instant_that_jitters_with_each_reading_rings_once(
    bridge, session, clock, monkeypatch
):
    heard = []
    now, timing = clock.now, type(session.timing)
    timers = timing.rows.fget
    reads = count()

    def jittering(self):
        # The instant is reckoned from two clocks, read one after the other, back and forth.
        shift = timedelta(microseconds=(-1) ** next(reads))
        return tuple(
            replace(r, bells=tuple(replace(b, at=b.at + shift) for b in r.bells))
            for r in timers(self)
        )

    monkeypatch.setattr(clock, "now", lambda: now() + timedelta(microseconds=next(reads)))
    monkeypatch.setattr(timing, "rows", property(jittering))
    ticker = Ticker(bridge)
    ticker.rang.connect(lambda bells: heard.extend(b.title for b in bells))
    first, second = session.ready_steps()[:2]
    bridge.start((first,))
    clock.advance(6.5)
    for _ in range(5):
        ticker.tick()
        bridge.changed.emit()
    bridge.start((second,))
    ticker.tick()
    assert heard == ["Cut the lower petal"]
    ticker.deleteLater()


def test_the_single_shot_hits_the_deadline_between_ticks(ticker, bridge, session, clock, qtbot):
    first = session.ready_steps()[0]
    bridge.start((first,))
    clock.advance(6 - 0.05 / 60)
    ticker.tick()
    with qtbot.waitSignal(ticker.rang, timeout=500):
        clock.advance(0.06 / 60)


def test_each_tick_looks_at_what_time_and_other_windows_changed(ticker, session, monkeypatch):
    asked = []
    monkeypatch.setattr(type(session), "read_along", lambda _self: asked.append("asked") or False)
    ticker._beat.timeout.emit()
    assert asked == ["asked"]
    assert ticker._beat.isActive()
