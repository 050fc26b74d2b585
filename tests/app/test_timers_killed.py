"""A program killed with -9 loses no timer, no answer and no pause that it had acknowledged."""

import os
import signal
import subprocess
import sys
from contextlib import contextmanager
from datetime import datetime, timedelta

import pytest
from app.timer_scene import CUFF, PLATE, Workshop
from shifted_clock import ShiftedClock

from armorplan.kernel.clock import SystemClock
from armorplan.steps.model import StepKind

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="forks once for each kill")


class Told:
    """What the process told before it died."""

    def __init__(self):
        self.set_at, self.stopped, self.answered = {}, set(), set()
        self.runs, self.under_way = None, ()

    def hear(self, line):
        when, what, *rest = line.split()
        self.under_way = (what, *rest) if when == "will" else ()
        if when == "did":
            getattr(self, f"_{what}")(*rest)

    def _set(self, title, at):
        self.set_at[title] = datetime.fromisoformat(at)

    def _stop(self, title):
        self.stopped.add(title)

    def _answer(self, timer):
        self.answered.add(timer)

    def _press(self, odd):
        self.runs = odd == "0"


@contextmanager
def pressing(path, tests_folder):
    script = str(tests_folder / "app" / "timers_forever.py")
    process = subprocess.Popen(
        [sys.executable, script, str(path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(tests_folder)},
        text=True,
    )
    with process:
        yield process
        process.stdin.close()


def kill_after(process, told, lines):
    """Let it press, kill it after so many lines, and hear all that it told."""
    process.stdin.write("go\n")
    process.stdin.flush()
    pid, heard = None, 0
    for line in iter(process.stdout.readline, ""):
        word, rest = line.split(maxsplit=1)
        if word == "pid":
            pid = int(rest)
        elif word == "gone":
            return
        else:
            told.hear(line)
            heard += 1
        if pid is not None and heard == lines:
            os.kill(pid, signal.SIGKILL)


def check(path, told):
    window = Workshop(path, clock=ShiftedClock()).window(PLATE)
    free = {row.title: row for row in window.timing.rows if row.free}
    unsure = set(told.under_way[1:2])
    assert set(told.set_at) - told.stopped - unsure <= set(free) <= set(told.set_at) | unsure
    assert not (told.stopped - unsure) & set(free)
    for title in set(free) & set(told.set_at):
        late = free[title].due_at - told.set_at[title] - timedelta(minutes=600)
        assert abs(late) < timedelta(seconds=5), title
    rung = {bell.timer for bell in window.ringing()}
    assert not rung & told.answered
    running = [row for row in window.timing.rows if row.step == window.one(StepKind.MEASURE)]
    if told.under_way[:1] != ("press",) and told.runs is not None:
        assert [row.running_since is not None for row in running] == [told.runs]
    other = Workshop(path, clock=ShiftedClock()).window(CUFF)
    assert {row.id for row in other.timing.rows} == {row.id for row in window.timing.rows}
    window.close()
    other.close()
    # What was under way when it was killed is known from now on, whichever way it went.
    for title in unsure:
        if title in free:
            told.set_at[title] = free[title].due_at - timedelta(minutes=600)
        else:
            told.stopped.add(title)
    told.under_way = ()
    return len(free)


def kill_over_and_over(path, tests_folder, kills):
    window = Workshop(path, clock=SystemClock()).window(PLATE)
    window.do(StepKind.CASE)
    window.close()
    told = Told()
    with pressing(path, tests_folder) as process:
        for kill in range(kills):
            kill_after(process, told, 1 + 17 * kill % 40)
            found = check(path, told)
    assert told.answered
    assert told.stopped
    return found


@pytest.fixture
def tests_folder(request):
    return request.config.rootpath / "tests"


def test_six_kills_lose_no_timer(tmp_path, tests_folder):
    assert kill_over_and_over(tmp_path / "workshop.sqlite", tests_folder, 6) > 6


@pytest.mark.long
def test_a_hundred_kills_lose_no_timer(tmp_path, tests_folder):
    assert kill_over_and_over(tmp_path / "workshop.sqlite", tests_folder, 100) > 100
