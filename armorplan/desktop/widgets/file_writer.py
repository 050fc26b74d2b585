"""Writes a file off the window's thread, and says what came of it in the notice line."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop


class FileWriter(QWidget):
    """Asks for a file and writes it. Never shown itself.

    ``says`` carries what is said of it, for a window that lies before the notice line.
    """

    says = Signal(str)

    def __init__(self, bridge: Bridge, parent: QWidget) -> None:
        super().__init__(parent)
        self.hide()
        self._bridge = bridge
        self._writer = Runner(self)
        self._writer.answered.connect(self.says.emit)
        self._writer.failed.connect(lambda error: self.says.emit(str(error)))
        self.says.connect(self._bridge.said.emit)

    def chosen_file(self, title: str, usual_name: str, kinds: str) -> Path | None:
        """Ask for a file, in the home folder at first; ``None``: none was chosen."""
        named = str(Path.home() / usual_name)
        chosen, _ = QFileDialog.getSaveFileName(self.parentWidget(), title, named, kinds)
        return Path(chosen) if chosen else None

    def begin(self, path: Path, doing: str, write: Callable[[], str | None]) -> None:
        """Say what is being done and do it in another thread; what it returns is said beside it."""
        said = self.tr("Written: {0}").format(path)

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            more = write()
            return f"{said}. {more}" if more else said

        self.says.emit(doing)
        self._writer.ask(work)

    def end_jobs(self) -> None:
        """Wait for what is still being written."""
        self._writer.close()
