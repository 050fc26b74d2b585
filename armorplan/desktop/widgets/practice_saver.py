"""Saves worksheets and pages of progress as PDFs, on the paper of where one is."""

from functools import partial

from PySide6.QtCore import QLocale

from armorplan.app.practice_asked import SheetAsked
from armorplan.app.practice_paper import (
    check_progress_file,
    check_worksheet_file,
    save_progress,
    save_worksheet,
)
from armorplan.desktop.widgets.file_writer import FileWriter
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.progress import Progress
from armorplan.sheets.bench_sheet_ink import A4, LETTER, Paper

NAME_OF_SHEET, NAME_OF_PAGE = "worksheet.pdf", "progress.pdf"


def usual_paper() -> Paper:
    """Return the paper that is usual here."""
    is_letter = QLocale().measurementSystem() is QLocale.MeasurementSystem.ImperialUSSystem
    return LETTER if is_letter else A4


class PracticeSaver(FileWriter):
    """Asks for a file and writes it off the window's thread."""

    def ask_sheet(self, asked: SheetAsked) -> None:
        """Ask where a worksheet is to go, and write it there."""
        title, kinds = self.tr("Save a worksheet"), self.tr("Worksheets (*.pdf)")
        path = self.chosen_file(title, NAME_OF_SHEET, kinds)
        if path is None:
            return
        path = path if path.suffix else path.with_suffix(".pdf")
        try:
            check_worksheet_file(path)
        except ArmorplanError as error:
            self.says.emit(str(error))
            return
        making, paper = self._bridge.session.practice.worksheet(asked), usual_paper()

        def write() -> str:
            sheet = making()
            save_worksheet(path, sheet, paper)
            count = len(sheet.exercises)
            if count == 1:
                return self.tr("It holds one exercise, the answer on a page behind.")
            return self.tr("It holds {0} exercises, the answers on pages behind.").format(count)

        self.begin(path, self.tr("Writing {0} …").format(path.name), write)

    def ask_page(self, progress: Progress) -> None:
        """Ask where a page of progress is to go, and write it there."""
        title, kinds = self.tr("Save the page of progress"), self.tr("Pages (*.pdf)")
        path = self.chosen_file(title, NAME_OF_PAGE, kinds)
        if path is None:
            return
        path = path if path.suffix else path.with_suffix(".pdf")
        try:
            check_progress_file(path)
        except ArmorplanError as error:
            self.says.emit(str(error))
            return
        zone = self._bridge.session.chart().zone
        write = partial(save_progress, path, progress, zone, usual_paper())
        self.begin(path, self.tr("Writing {0} …").format(path.name), write)
