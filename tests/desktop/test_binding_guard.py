"""Guard against the binding that loses a reference to None in void calls and aborts."""

import subprocess
import sys


def test_two_hundred_thousand_void_calls_end_well():
    code = (
        "from PySide6.QtWidgets import QApplication, QLabel; app = QApplication([]);"
        "label = QLabel()\n"
        "for i in range(200_000): label.setText('x')"
    )
    run = subprocess.run([sys.executable, "-c", code], check=False, timeout=120)
    assert run.returncode == 0
