"""Saves worksheets and pages of progress as PDFs, on the paper chosen with the file."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QLocale
from PySide6.QtWidgets import QFileDialog

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
COUNTS = (8, 4, 16)
"""How many exercises a sheet may hold, the usual number first."""


def papers() -> tuple[Paper, ...]:
    """Return the papers, the usual one first."""
    is_letter = QLocale().measurementSystem() is QLocale.MeasurementSystem.ImperialUSSystem
    return (LETTER, A4) if is_letter else (A4, LETTER)


def sheet_forms() -> dict[str, tuple[int, Paper]]:
    """Return how many exercises on which paper, by what the file dialog calls it; the usual first."""
    name = QCoreApplication.translate("PracticeSaver", "Worksheet of {0} exercises, {1} (*.pdf)")
    return {
        name.format(count, paper.name): (count, paper) for paper in papers() for count in COUNTS
    }


def page_forms() -> dict[str, Paper]:
    """Return the papers of a page of progress, by what the file dialog calls them."""
    name = QCoreApplication.translate("PracticeSaver", "Page of progress, {0} (*.pdf)")
    return {name.format(paper.name): paper for paper in papers()}


class PracticeSaver(FileWriter):
    """Asks for a file and writes it off the window's thread."""

    def ask_sheet(self, asked: SheetAsked) -> None:
        """Ask where a worksheet is to go, how long it is to be, and write it there."""
        forms = sheet_forms()
        path, form = self._chosen(self.tr("Save a worksheet"), NAME_OF_SHEET, list(forms))
        if path is None or not self._is_fit(path, check_worksheet_file):
            return
        count, paper = forms[form]
        making = self._bridge.session.practice.worksheet(replace(asked, count=count))

        def write() -> str:
            sheet = making()
            save_worksheet(path, sheet, paper)
            held = len(sheet.exercises)
            if held == 1:
                return self.tr("It holds one exercise, the answer on a page behind.")
            return self.tr("It holds {0} exercises, the answers on pages behind.").format(held)

        self.begin(path, self.tr("Writing {0} …").format(path.name), write)

    def ask_page(self, progress: Progress) -> None:
        """Ask where a page of progress is to go, and write it there."""
        forms = page_forms()
        title = self.tr("Save the page of progress")
        path, form = self._chosen(title, NAME_OF_PAGE, list(forms))
        if path is None or not self._is_fit(path, check_progress_file):
            return
        zone = self._bridge.session.chart().zone
        write = partial(save_progress, path, progress, zone, forms[form])
        self.begin(path, self.tr("Writing {0} …").format(path.name), write)

    def _chosen(self, title: str, usual_name: str, kinds: list[str]) -> tuple[Path | None, str]:
        """Ask for a file and its form; no file: none was chosen."""
        named = str(Path.home() / usual_name)
        chosen, kind = QFileDialog.getSaveFileName(
            self.parentWidget(), title, named, ";;".join(kinds)
        )
        path = Path(chosen) if Path(chosen).suffix else Path(f"{chosen}.pdf")
        return path if chosen else None, kind if kind in kinds else kinds[0]

    def _is_fit(self, path: Path, check: Callable[[Path], None]) -> bool:
        try:
            check(path)
        except ArmorplanError as error:
            self.says.emit(str(error))
            return False
        return True
