"""The newest job wins, a stop is heard, and nothing runs on."""

import threading

import pytest

from armorplan.desktop.jobs import Runner
from armorplan.kernel.errors import SolverLostError


@pytest.fixture
def runner(qapp):
    made = Runner()
    yield made
    assert made.close()


def test_an_answer_comes_back_in_the_windows_thread(runner, qtbot):
    ran_in = []

    def work(report, should_stop):
        ran_in.append(threading.get_ident())
        return "plan"

    with qtbot.waitSignal(runner.answered) as answer:
        runner.ask(work)
        assert runner.is_busy
    assert answer.args == ["plan"]
    assert ran_in != [threading.get_ident()]
    assert not runner.is_busy


def test_the_newest_job_wins_and_the_former_is_dropped(runner, qtbot):
    go_on = threading.Event()
    stopped = []

    def slow(report, should_stop):
        go_on.wait(10)
        stopped.append(should_stop())
        report("stale hint")
        return "stale"

    heard = []
    framed = []
    runner.better.connect(heard.append)
    runner.answered.connect(heard.append)
    runner.begun.connect(lambda: framed.append("begun"))
    runner.ended.connect(lambda: framed.append("ended"))
    runner.ask(slow)
    runner.ask(lambda _report, _stop: "fresh")
    qtbot.waitUntil(lambda: heard == ["fresh"])
    go_on.set()
    assert runner.close()
    qtbot.wait(20)
    assert heard == ["fresh"]
    assert stopped == [True]
    assert framed == ["begun", "ended"]


def test_a_stop_ends_with_the_best_so_far(runner, qtbot):
    waiting = threading.Event()

    def work(report, should_stop):
        report("first")
        waiting.set()
        while not should_stop():
            threading.Event().wait(0.002)
        return "best so far"

    heard = []
    runner.better.connect(heard.append)
    with qtbot.waitSignal(runner.answered) as answer:
        runner.ask(work)
        assert waiting.wait(10)
        runner.stop()
    assert answer.args == ["best so far"]
    assert heard == ["first"]


def test_a_dropped_job_is_heard_no_more_and_leaves_nothing_busy(runner, qtbot):
    go_on = threading.Event()
    heard, framed = [], []

    def slow(report, should_stop):
        go_on.wait(10)
        report("stale hint")
        return "stale"

    runner.better.connect(heard.append)
    runner.answered.connect(heard.append)
    runner.ended.connect(lambda: framed.append("ended"))
    runner.ask(slow)
    runner.drop()
    assert not runner.is_busy
    go_on.set()
    qtbot.wait(50)
    assert (heard, framed) == ([], ["ended"])


def test_expected_trouble_and_faults_are_told(runner, qtbot, caplog):
    def lost(report, should_stop):
        raise SolverLostError("the solver went away")

    def wrong(report, should_stop):
        raise ZeroDivisionError

    with qtbot.waitSignal(runner.failed) as failure:
        runner.ask(lost)
    assert str(failure.args[0]) == "the solver went away"
    assert caplog.text == ""
    with qtbot.waitSignal(runner.failed):
        runner.ask(wrong)
    assert "ZeroDivisionError" in caplog.text
