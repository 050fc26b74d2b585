"""Saves the bench sheet of the open build as a PDF, on the paper that is chosen with the file."""

from pathlib import Path

from PySide6.QtCore import QCoreApplication, QLocale
from PySide6.QtWidgets import QFileDialog

from armorplan.app.sheet_files import check_sheet_file, save_sheet, sheet_words
from armorplan.desktop.widgets.file_writer import FileWriter
from armorplan.kernel.errors import ArmorplanError
from armorplan.sheets.bench_sheet_ink import A4, LETTER, Paper

NAME_OF_FILE = "bench_sheet.pdf"
Form = tuple[Paper, bool]
"""A paper, and whether the parts are there at full size."""


def forms() -> dict[str, Form]:
    """Return the forms of a sheet by what the file dialog calls them, the likeliest first."""
    is_letter = QLocale().measurementSystem() is QLocale.MeasurementSystem.ImperialUSSystem
    papers = (LETTER, A4) if is_letter else (A4, LETTER)
    plain = QCoreApplication.translate("SheetSaver", "Bench sheet, {0} (*.pdf)")
    full = QCoreApplication.translate(
        "SheetSaver", "Bench sheet with the parts at full size, {0} (*.pdf)"
    )
    told = {plain.format(paper.name): (paper, False) for paper in papers}
    return told | {full.format(paper.name): (paper, True) for paper in papers}


class SheetSaver(FileWriter):
    """Saves the bench sheet as the build stands."""

    def ask_file(self) -> None:
        """Ask where the sheet is to go, and in which form, and write it there."""
        kinds = forms()
        named = str(Path.home() / NAME_OF_FILE)
        title = self.tr("Save the bench sheet")
        chosen, kind = QFileDialog.getSaveFileName(
            self.parentWidget(), title, named, ";;".join(kinds)
        )
        if chosen:
            paper, with_parts = kinds.get(kind, next(iter(kinds.values())))
            path = Path(chosen) if Path(chosen).suffix else Path(f"{chosen}.pdf")
            self.write(path, paper, with_parts=with_parts)

    def write(self, path: Path, paper: Paper, *, with_parts: bool) -> None:
        """Write the sheet on a paper; what its letters lack is said when it is written."""
        try:
            check_sheet_file(path)
        except ArmorplanError as error:
            self._bridge.said.emit(str(error))
            return
        held = self._bridge.pins.held if self._bridge.pins else None
        making = self._bridge.session.making_sheet(with_parts=with_parts, pins=held)

        def write() -> str:
            printed = save_sheet(path, making(), paper)
            return sheet_words(printed.missing) if printed.missing else ""

        self.begin(path, self.tr("Writing {0} …").format(path.name), write)
