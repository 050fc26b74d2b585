"""A window killed with -9 between a tick and its plan loses nothing it had acknowledged.

A real process each time: forked, so that the build is derived once for all of them.
"""

import os
import signal
import sys
from contextlib import closing, suppress
from itertools import count
from shutil import copy

import pytest
from clocks import FakeClock

from armorplan.app.session import Session
from armorplan.app.shown_plan import plan_from
from armorplan.ledger.keepsakes import THE_BUILD
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.planning import first_plan
from armorplan.store.connection import connect
from armorplan.store.one_writer import OneWriter
from armorplan.store.workshop_file import WorkshopFile

MADE: list[str] = []
PHOTO = b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 400

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="processes as Unix has them")


def seek(session, _workshop):
    """Plan as the window does."""
    problem = session.problem()
    session.take_plan(CheckedPlan(problem=problem, plan=first_plan(problem)))


def keep_one(session, workshop):
    """Keep a plan that was made before; making one takes most of the time."""
    workshop.save_plan(session.build_id, MADE[0])


def tick_and_plan(path, opened, name, plan, tell):
    """Tick, tell it, plan, keep the plan, tell that, and keep a photo now and then; for ever."""
    clock, numbers = FakeClock(), count()
    turn = OneWriter(path, clock)
    assert turn.begin()
    workshop = WorkshopFile.open(path, clock, turn)
    session = Session(
        opened.build, opened.derived, workshop, clock, lambda: f"{name}-{next(numbers)}"
    )
    for round_ in count():
        clock.advance(3600)
        ready = session.ready_steps()
        said = session.done(ready[:1]) if ready else session.undo()
        assert not said.startswith("Not recorded")
        tell(f"tick {session.entries()[-1].seq}")
        plan(session, workshop)
        tell("plan 0")
        if round_ % 3 == 1:
            copied = session.keepsakes.copying((f"{name}.png", PHOTO + name.encode()))()
            session.keepsakes.photo(THE_BUILD, copied)
            tell(f"photo {session.keepsakes.all()[-1].seq}")


def killed(path, opened, name, plan, until):
    """Fork such a window, kill it after so many acknowledgements of a kind; return them all."""
    word, after = until
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        # What goes wrong in here is seen by what is missing there.
        with suppress(BaseException):
            os.close(read)
            tick_and_plan(
                path, opened, name, plan, lambda line: os.write(write, f"{line}\n".encode())
            )
        os._exit(1)
    os.close(write)
    told = []
    with os.fdopen(read) as acknowledged:
        for line in acknowledged:
            told.append(line.split())
            if sum(kind == word for kind, _ in told) == after:
                break
        os.kill(child, signal.SIGKILL)
        told += [line.split() for line in acknowledged if line.endswith("\n")]
    _, status = os.waitpid(child, 0)
    assert os.WTERMSIG(status) == signal.SIGKILL, f"{name} ended by itself after {told}"
    return told


def kill_over_and_over(path, opened, kills, plan):
    before = photos = ()
    for kill in range(kills):
        word = ("tick", "plan", "tick", "photo")[kill % 4]
        until = word, 1 + kill % 3 * (word != "photo")
        told = killed(path, opened, f"run{kill}", plan, until)
        with closing(connect(path)) as db:
            assert db.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        with closing(WorkshopFile.open(path, FakeClock())) as workshop:
            events = workshop.events(opened.build.id)
            # Nothing that was there has changed, nothing acknowledged is missing.
            assert events[: len(before)] == before
            assert max(int(seq) for kind, seq in told if kind == "tick") <= events[-1].seq
            assert [e.seq for e in events] == list(range(1, len(events) + 1))
            text = workshop.last_plan(opened.build.id)
            assert text is None or plan_from(text) is not None
            kept = workshop.keepsakes.of(opened.build.id)
            assert kept[: len(photos)] == photos
            assert len(kept) >= max((int(n) for kind, n in told if kind == "photo"), default=0)
            assert [workshop.keepsakes.files.amiss(k.file, thorough=True) for k in kept] == [
                ""
            ] * len(kept)
            # The state can be told from it, and the next window goes on.
            Session(opened.build, opened.derived, workshop, FakeClock(), str)
            before, photos = events, kept
    return len(before), len(photos)


def test_ten_kills_between_tick_and_plan_lose_nothing_acknowledged(tmp_path, begun):
    file, opened = begun
    path = copy(file, tmp_path / "workshop.sqlite")
    with closing(WorkshopFile.open(path, FakeClock())) as workshop:
        session = Session(opened.build, opened.derived, workshop, FakeClock(), str)
        seek(session, workshop)
        MADE[:] = [workshop.last_plan(opened.build.id)]
    ticks, photos = kill_over_and_over(path, opened, 10, keep_one)
    assert ticks >= 10
    assert photos >= 2


@pytest.mark.long
def test_two_hundred_kills_between_tick_and_plan_lose_nothing_acknowledged(tmp_path, begun):
    file, opened = begun
    path = copy(file, tmp_path / "workshop.sqlite")
    ticks, photos = kill_over_and_over(path, opened, 200, seek)
    assert ticks >= 200
    assert photos >= 50
