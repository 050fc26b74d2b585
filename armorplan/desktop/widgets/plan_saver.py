"""Saves the plan of all builds in hand for other programs: a calendar, a spreadsheet, paper."""

from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QWidget

from armorplan.app.week_files import KINDS, save_week_file
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop

NAME_OF_FILE = "week.ics"


class PlanSaver(QWidget):
    """Asks for a file and writes the plan off the window's thread. Never shown itself."""

    def __init__(self, bridge: Bridge, parent: QWidget) -> None:
        super().__init__(parent)
        self.hide()
        self._bridge = bridge
        self._writer = Runner(self)
        self._writer.answered.connect(self._bridge.said.emit)
        self._writer.failed.connect(lambda error: self._bridge.said.emit(str(error)))

    def ask_file(self) -> None:
        """Ask where the plan is to go, and write it there; its kind follows from the ending."""
        named = str(Path.home() / NAME_OF_FILE)
        title = self.tr("Save the plan")
        kinds = self.tr("Calendar (*.ics);;Spreadsheet (*.csv);;Week on paper (*.pdf)")
        chosen, _ = QFileDialog.getSaveFileName(self.parentWidget(), title, named, kinds)
        if chosen:
            self.write(Path(chosen))

    def write(self, path: Path) -> None:
        """Write the plan as it stands."""
        kind = path.suffix.lower()
        tabling = self._bridge.session.tabling_week()
        if kind not in KINDS:
            endings = ", ".join(sorted(KINDS))
            self._bridge.said.emit(
                self.tr("{0}: let the name of the file end in one of {1}.").format(path, endings)
            )
            return
        if tabling is None:
            self._bridge.said.emit(self.tr("There is no plan yet that could be saved."))
            return
        said, now_at = self.tr("Written: {0}").format(path), self._bridge.clock.now()

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            save_week_file(path, kind, tabling(), now_at=now_at)
            return said

        self._bridge.said.emit(self.tr("Writing {0} …").format(path.name))
        self._writer.ask(work)

    def end_jobs(self) -> None:
        """Wait for what is still being written."""
        self._writer.close()
