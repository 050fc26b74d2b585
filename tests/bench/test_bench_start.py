"""From the command to an answer, and to a painted window: whole processes, with a baseline each.

Goals on 2 cores: a painted sample within 2.5 s, ``check`` and ``order`` within 1 s each. The
baselines are Python alone for commands, and a bare Qt window for the window.
"""

import os
import subprocess
import sys
from statistics import median
from time import perf_counter

import pytest

pytestmark = pytest.mark.bench

_QUIT_WHEN_PAINTED = """
from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication

class Watch(QObject):
    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Paint:
            QTimer.singleShot(0, QApplication.quit)
        return False
"""
_BARE = (
    _QUIT_WHEN_PAINTED
    + """
from PySide6.QtWidgets import QLabel
app = QApplication([])
watch = Watch()
app.installEventFilter(watch)
label = QLabel("painted")
label.show()
app.exec()
"""
)
_SAMPLE = (
    _QUIT_WHEN_PAINTED
    + """
import sys
import armorplan.desktop.run as run_module
from armorplan.cli.program import run
made = run_module.make_application
def watched(settings):
    app = made(settings)
    app.watch = Watch()
    app.installEventFilter(app.watch)
    return app
run_module.make_application = watched
sys.exit(run(["window", "elbow_cop", "--workshop", sys.argv[1]]))
"""
)


def seconds(*command: str) -> float:
    started = perf_counter()
    subprocess.run(
        command,
        check=True,
        capture_output=True,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
    )
    return perf_counter() - started


def ratio_to(benchmark, baseline: tuple[str, ...], command: tuple[str, ...]) -> None:
    seconds(*command)
    base = median(seconds(*baseline) for _ in range(3))
    benchmark.pedantic(seconds, args=command, rounds=5)
    benchmark.extra_info["baseline_s"] = round(base, 3)
    if benchmark.stats is not None:
        benchmark.extra_info["ratio"] = round(benchmark.stats["median"] / base, 1)


@pytest.mark.parametrize("command", ["check", "order"])
def test_a_command_answers(benchmark, command):
    ratio_to(
        benchmark,
        (sys.executable, "-c", "pass"),
        (sys.executable, "-m", "armorplan", command, "elbow_cop"),
    )


def test_the_sample_is_painted(benchmark, tmp_path):
    ratio_to(
        benchmark,
        (sys.executable, "-c", _BARE),
        (sys.executable, "-c", _SAMPLE, str(tmp_path / "workshop.sqlite")),
    )
