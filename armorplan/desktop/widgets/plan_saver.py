"""Saves the plan of all builds in hand for other programs: a calendar, a spreadsheet, paper."""

from pathlib import Path

from armorplan.app.week_files import KINDS, save_week_file
from armorplan.desktop.widgets.file_writer import FileWriter

NAME_OF_FILE = "week.ics"


class PlanSaver(FileWriter):
    """Saves the plan as it stands."""

    def ask_file(self) -> None:
        """Ask where the plan is to go, and write it there; its kind follows from the ending."""
        kinds = self.tr("Calendar (*.ics);;Spreadsheet (*.csv);;Week on paper (*.pdf)")
        path = self.chosen_file(self.tr("Save the plan"), NAME_OF_FILE, kinds)
        if path is not None:
            self.write(path)

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
        now_at = self._bridge.clock.now()
        self.begin(
            path,
            self.tr("Writing {0} …").format(path.name),
            lambda: save_week_file(path, kind, tabling(), now_at=now_at),
        )
