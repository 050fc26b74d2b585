"""The window opens, runs and closes as a whole, in a process of its own."""

import os
import subprocess
import sys
from pathlib import Path

PROGRAM = """
import sys
from pathlib import Path
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from desktop.fake_session import FakeSession
from armorplan.desktop import run
from armorplan.schedule.problem import Plan, Status

session = FakeSession.of(46)
def planner(_problem, *, hint, on_better, should_stop, at_hand=None):
    return Plan(status=Status.BEST)
def look():
    app = QApplication.instance()
    window = next(w for w in app.topLevelWidgets() if w.objectName() == "main_window")
    print(window.windowTitle(), app.desktopFileName(), len(session.plans), window.isVisible())
    if "fault" in sys.argv:
        QTimer.singleShot(0, lambda: {}["petal"])
    QTimer.singleShot(50, window.close)
show = run.MainWindow.show
run.MainWindow.show = lambda self: (show(self), QTimer.singleShot(700, look))
code = run.run_window(session, lambda folder: None, planner=planner, clock=session.clock)
sys.exit(code)
"""


def run_it(home: Path, *given: str) -> subprocess.CompletedProcess[str]:
    tests = Path(__file__).parent.parent
    environ = os.environ | {
        "PYTHONPATH": str(tests),
        "QT_QPA_PLATFORM": "offscreen",
        "HOME": str(home),
        "XDG_CONFIG_HOME": str(home / "config"),
        "XDG_STATE_HOME": str(home / "state"),
    }
    return subprocess.run(
        [sys.executable, "-c", PROGRAM, *given],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
        env=environ,
    )


def test_it_opens_plans_and_closes_clean(tmp_path):
    run = run_it(tmp_path)
    assert run.returncode == 0, run.stderr
    assert run.stdout.strip() == "Lantern watch, first set armorplan 1 True"
    assert (tmp_path / "config" / "armorplan" / "settings.json").exists()


def test_a_fault_is_written_down_and_the_window_lives_on(tmp_path):
    run = run_it(tmp_path, "fault")
    assert run.returncode == 0, run.stderr
    log = (tmp_path / "state" / "armorplan" / "log" / "armorplan.log").read_text()
    assert "KeyError: 'petal'" in log
