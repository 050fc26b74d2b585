"""Saves the week, as it is laid now, as a picture."""

from pathlib import Path

from armorplan.app.week_paper import save_week_figure, week_figure_of
from armorplan.app.week_rows import Week
from armorplan.desktop.widgets.file_writer import FileWriter

NAME_OF_FILE = "week.pdf"


class WeekSaver(FileWriter):
    """Saves the picture of a week."""

    def ask_file(self, week: Week, *, compares: bool) -> None:
        """Ask where the picture is to go, and write it there."""
        title, kinds = (
            self.tr("Save the week as a picture"),
            self.tr("Pictures (*.pdf *.svg *.png)"),
        )
        path = self.chosen_file(title, NAME_OF_FILE, kinds)
        if path is not None:
            self.write(path, week, compares=compares)

    def write(self, path: Path, week: Week, *, compares: bool) -> None:
        """Write the picture; its kind follows from the file's ending."""
        session = self._bridge.session
        title, sentence = session.title, session.plan_face().sentence
        if len({lane.tag for lane in week.lanes} | {bar.tag for bar in week.bars}) > 1:
            title = self.tr("The week")

        def draw() -> None:
            figure = week_figure_of(week, title=title, sentence=sentence, compares=compares)
            save_week_figure(path, figure)

        self.begin(path, self.tr("Drawing {0} …").format(path.name), draw)
