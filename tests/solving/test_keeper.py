"""The worker process may die, hang or be orphaned; the keeper answers or says it is lost."""

import os
import signal
import subprocess
import sys
import threading
import time
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import pytest
from solving.small_models import long_search, two_tasks

from armorplan.kernel.errors import SolverLostError
from armorplan.solving.keeper import SolverKeeper
from armorplan.solving.model import Effort, Least, Model, ModelError, Outcome
from armorplan.solving.process import WorkerProcess

_AN_HOUR_S = 3600.0
posix_only = pytest.mark.skipif(os.name != "posix", reason="sends POSIX signals")


@pytest.fixture
def keeper():
    with SolverKeeper(grace_s=0.5) as kept:
        yield kept


@pytest.fixture
def later(monkeypatch):
    """Seconds to be put on the keeper's clock: its patience ends when a test says so."""
    more = []
    monkeypatch.setattr(
        "armorplan.solving.keeper.time",
        SimpleNamespace(monotonic=lambda: time.monotonic() + sum(more)),
    )
    return more


def pid_of(keeper):
    return keeper._worker.pid


def is_gone(pid, within_s=10.0):
    """Tell whether a process ends in time; one that only waits to be reaped has ended."""
    until = time.monotonic() + within_s
    while time.monotonic() < until:
        try:
            state = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rpartition(")")[2]
        except OSError:
            return True
        if state.split()[0] == "Z":
            return True
        time.sleep(0.02)
    return False


def test_solves_in_another_process(keeper):
    answer = keeper.solve(two_tasks())
    assert (answer.status, answer.objective) == (Outcome.BEST, 15)
    assert pid_of(keeper) != os.getpid()


def test_one_worker_serves_many_solves(keeper):
    keeper.solve(two_tasks())
    first = pid_of(keeper)
    keeper.solve(two_tasks())
    assert pid_of(keeper) == first


def test_better_answers_come_as_they_are_found(keeper):
    told = []
    answer = keeper.solve(long_search(), on_better=told.append, should_stop=lambda: len(told) > 1)
    assert len(told) > 1
    first, second, *_ = (each.objective for each in told)
    assert answer.objective <= second < first


def test_a_stop_brings_the_best_so_far(keeper):
    told = []
    answer = keeper.solve(long_search(), on_better=told.append, should_stop=lambda: bool(told))
    assert answer.status is Outcome.STOPPED
    assert answer.values
    assert answer.objective <= told[0].objective
    assert keeper.solve(two_tasks()).status is Outcome.BEST


def test_a_stop_while_the_worker_loads_does_not_wait(keeper):
    assert keeper.solve(long_search(), should_stop=lambda: True).status is Outcome.STOPPED
    assert keeper.solve(two_tasks()).status is Outcome.BEST


@posix_only
def test_killed_in_mid_solve_it_is_started_again(keeper):
    killed = []

    def kill_once(_):
        if not killed:
            os.kill(pid_of(keeper), signal.SIGKILL)
        killed.append(pid_of(keeper))

    answer = keeper.solve(
        long_search(), on_better=kill_once, should_stop=lambda: killed[-1:] != killed[:1]
    )
    assert answer.status is Outcome.STOPPED
    assert answer.values
    assert keeper.solve(two_tasks()).status is Outcome.BEST
    assert pid_of(keeper) == killed[-1]
    assert is_gone(killed[0])


@posix_only
def test_killed_three_times_it_is_lost_and_serves_again_later(keeper, monkeypatch):
    threads = []
    send = WorkerProcess.send_model

    def noted(worker, number, model):
        threads.append(model.effort.workers)
        send(worker, number, model)

    def kill(_):
        os.kill(pid_of(keeper), signal.SIGKILL)

    monkeypatch.setattr(WorkerProcess, "send_model", noted)
    busy = long_search()
    busy = replace(busy, effort=replace(busy.effort, workers=2))
    with pytest.raises(SolverLostError, match="three times"):
        keeper.solve(busy, on_better=kill)
    assert threads == [2, 2, 1]
    assert keeper.solve(two_tasks()).status is Outcome.BEST


@posix_only
def test_killed_while_idle_costs_nothing(keeper):
    keeper.solve(two_tasks())
    first = pid_of(keeper)
    os.kill(first, signal.SIGKILL)
    assert is_gone(first)
    assert keeper.solve(two_tasks()).status is Outcome.BEST


@posix_only
def test_a_hung_worker_is_killed_and_started_again(keeper, later):
    hung = []

    def hang_once(_):
        if not hung:
            os.kill(pid_of(keeper), signal.SIGSTOP)
            later.append(_AN_HOUR_S)
        hung.append(pid_of(keeper))

    answer = keeper.solve(
        long_search(seconds=2 * _AN_HOUR_S),
        on_better=hang_once,
        should_stop=lambda: hung[-1:] != hung[:1],
    )
    assert answer.status is Outcome.STOPPED
    assert answer.values
    assert keeper.solve(two_tasks()).status is Outcome.BEST
    assert pid_of(keeper) == hung[-1]
    assert is_gone(hung[0])


@posix_only
def test_workers_that_hang_share_the_time_of_the_model(keeper, later, monkeypatch):
    seconds, halted = [], []
    send = WorkerProcess.send_model

    def noted(worker, number, model):
        seconds.append(model.effort.seconds)
        send(worker, number, model)

    def halt(_):
        if pid_of(keeper) not in halted:
            halted.append(pid_of(keeper))
            os.kill(halted[-1], signal.SIGSTOP)
            later.append(_AN_HOUR_S)

    monkeypatch.setattr(WorkerProcess, "send_model", noted)
    with pytest.raises(SolverLostError, match="no time is left"):
        keeper.solve(long_search(seconds=1.5 * _AN_HOUR_S), on_better=halt)
    assert seconds == pytest.approx([1.5 * _AN_HOUR_S, 0.5 * _AN_HOUR_S], abs=60)


@posix_only
def test_silence_is_told_long_before_the_time_is_over():
    halted = []
    with SolverKeeper(silence_s=0.1) as keeper:

        def halt_once():
            pid = pid_of(keeper)
            if keeper._worker.ready and not halted:
                halted.append(pid)
                os.kill(pid, signal.SIGSTOP)
            return pid not in halted and bool(halted)

        assert keeper.solve(long_search(), should_stop=halt_once).status is Outcome.STOPPED
    assert is_gone(halted[0])


def test_a_worker_at_work_says_again_and_again_that_it_lives(keeper, monkeypatch):
    alive = []
    hear = WorkerProcess._hear

    def heard(worker, line):
        hear(worker, line)
        if "alive" in line:
            alive.append(worker.words)

    monkeypatch.setattr(WorkerProcess, "_hear", heard)
    answer = keeper.solve(long_search(), should_stop=lambda: len(alive) > 1)
    assert answer.status is Outcome.STOPPED
    assert alive[0] < alive[1]


@posix_only
def test_a_hung_worker_that_does_not_stop_is_killed():
    told = []
    with SolverKeeper(stop_grace_s=0.2) as keeper:

        def hang(answer):
            told.append(answer)
            os.kill(pid_of(keeper), signal.SIGSTOP)

        answer = keeper.solve(long_search(), on_better=hang, should_stop=lambda: bool(told))
        assert answer.status is Outcome.STOPPED
        assert answer.values == told[-1].values
        assert keeper.solve(two_tasks()).status is Outcome.BEST


@posix_only
def test_a_hung_worker_cannot_block_the_sending_of_a_large_model(later):
    # Time enough for a busy machine to build so large a model in the second worker.
    patient = SolverKeeper(grace_s=60.0, silence_s=60.0)
    try:
        patient.solve(two_tasks())
        hung = pid_of(patient)
        os.kill(hung, signal.SIGSTOP)

        def an_hour_passes_once():
            asked.append(True)
            if len(asked) == 2:
                later.append(_AN_HOUR_S)

        asked = []
        answer = patient.solve(
            long_search(seconds=_AN_HOUR_S + 3, tasks=3000), should_stop=an_hour_passes_once
        )
        assert answer.status in (Outcome.GOOD, Outcome.OUT_OF_TIME)
        assert pid_of(patient) != hung
    finally:
        patient.close()


def test_close_leaves_no_process(keeper):
    keeper.solve(two_tasks())
    pid = pid_of(keeper)
    keeper.close()
    assert not Path(f"/proc/{pid}").exists()
    keeper.close()
    with pytest.raises(SolverLostError, match="closed"):
        keeper.solve(two_tasks())


def test_close_ends_a_solve_under_way(keeper):
    answers = []
    found = threading.Event()
    solve = threading.Thread(
        target=lambda: answers.append(keeper.solve(long_search(), on_better=lambda _: found.set()))
    )
    solve.start()
    assert found.wait(20)
    keeper.close()
    solve.join(5)
    assert [a.status for a in answers] == [Outcome.STOPPED]
    assert answers[0].values


def test_several_threads_take_turns(keeper):
    answers = []
    threads = [
        threading.Thread(target=lambda: answers.append(keeper.solve(two_tasks()).objective))
        for _ in range(4)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert answers == [15] * 4


def test_warm_up_starts_the_worker_and_returns(keeper):
    keeper.warm_up()
    pid = pid_of(keeper)
    keeper.warm_up()
    keeper.solve(two_tasks())
    assert pid_of(keeper) == pid


def test_an_ill_formed_model_is_refused_and_the_worker_lives(keeper):
    keeper.solve(two_tasks())
    pid = pid_of(keeper)
    nobody = Model(effort=Effort(seconds=1), objective=Least(terms=(("nobody", 1),)))
    with pytest.raises(ModelError, match="nobody"):
        keeper.solve(nobody)
    assert keeper.solve(two_tasks()).status is Outcome.BEST
    assert pid_of(keeper) == pid


@posix_only
def test_the_worker_dies_with_its_parent():
    script = """
import sys, time
from armorplan.solving.keeper import SolverKeeper
from solving.small_models import long_search
keeper = SolverKeeper()
keeper.solve(long_search(), on_better=lambda _: print(keeper._worker.pid, flush=True))
"""
    tests = str(Path(__file__).resolve().parents[1])
    with subprocess.Popen(
        [sys.executable, "-c", script],
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": tests},
    ) as parent:
        worker = int(parent.stdout.readline())
        parent.kill()
    assert is_gone(worker)


def test_the_folder_one_stands_in_supplies_no_modules(tmp_path, monkeypatch):
    (tmp_path / "ortools.py").write_text("raise SystemExit('not the solver')", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    with SolverKeeper() as keeper:
        assert keeper.solve(two_tasks()).status is Outcome.BEST
