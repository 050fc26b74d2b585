"""Saves the week, as it is laid now, as a picture."""

from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QWidget

from armorplan.app.week_paper import save_week_figure, week_figure_of
from armorplan.app.week_rows import Week
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop

NAME_OF_FILE = "week.pdf"


class WeekSaver(QWidget):
    """Asks for a file and writes the picture off the window's thread. Never shown itself."""

    def __init__(self, bridge: Bridge, parent: QWidget) -> None:
        super().__init__(parent)
        self.hide()
        self._bridge = bridge
        self._writer = Runner(self)
        self._writer.answered.connect(self._bridge.said.emit)
        self._writer.failed.connect(lambda error: self._bridge.said.emit(str(error)))

    def ask_file(self, week: Week, *, compares: bool) -> None:
        """Ask where the picture is to go, and write it there."""
        named = str(Path.home() / NAME_OF_FILE)
        title = self.tr("Save the week as a picture")
        kinds = self.tr("Pictures (*.pdf *.svg *.png)")
        chosen, _ = QFileDialog.getSaveFileName(self.parentWidget(), title, named, kinds)
        if chosen:
            self.write(Path(chosen), week, compares=compares)

    def write(self, path: Path, week: Week, *, compares: bool) -> None:
        """Write the picture; its kind follows from the file's ending."""
        session = self._bridge.session
        title, sentence = session.title, session.plan_face().sentence
        said = self.tr("Written: {0}").format(path)
        if len({lane.tag for lane in week.lanes} | {bar.tag for bar in week.bars}) > 1:
            title = self.tr("The week")

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            figure = week_figure_of(week, title=title, sentence=sentence, compares=compares)
            save_week_figure(path, figure)
            return said

        self._bridge.said.emit(self.tr("Drawing {0} …").format(path.name))
        self._writer.ask(work)

    def end_jobs(self) -> None:
        """Wait for what is still being written."""
        self._writer.close()
