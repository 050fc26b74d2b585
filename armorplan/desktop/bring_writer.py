"""Writes a drawing that was brought in as a pattern, off the window's thread."""

from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from armorplan.app.bringing.model import Bringing
from armorplan.desktop.bring_protocol import BringCore, findings_of
from armorplan.desktop.jobs import Report, Runner, ShouldStop


@dataclass(frozen=True, slots=True)
class _Written:
    """A folder that was written, and what the pattern does not say yet, as sentences."""

    folder: Path
    open: tuple[str, ...]


class BringWriter(QObject):
    """``wrote`` carries the folder and what it leaves open, ``refused`` findings, ``busy`` what is under way."""

    wrote = Signal(object, object)
    refused = Signal(object)
    busy = Signal(str)

    def __init__(self, core: BringCore, parent: QObject) -> None:
        super().__init__(parent)
        self._core = core
        self._runner = Runner(self)
        self._runner.answered.connect(lambda done: self.wrote.emit(done.folder, done.open))
        self._runner.failed.connect(lambda error: self.refused.emit(findings_of(error)))
        self._runner.ended.connect(lambda: self.busy.emit(""))

    def write(self, bringing: Bringing, file: Path, folder: Path) -> None:
        """Write a pattern into a new or empty folder; what is open is taken as it is suggested."""

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            return _Written(folder, self._core.write(bringing, file, folder))

        self.busy.emit(self.tr("Writing the pattern …"))
        self._runner.ask(work)

    def close(self) -> bool:
        """Wait for what runs; tell whether it ended in time."""
        return self._runner.close()
