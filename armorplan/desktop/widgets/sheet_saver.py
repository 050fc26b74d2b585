"""Saves the bench sheet of the open build, or its mock-up, as a PDF on the paper chosen with the file."""

from dataclasses import replace
from enum import Enum, auto
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QLocale
from PySide6.QtWidgets import QFileDialog

from armorplan.app.sheet_files import check_sheet_file, save_sheet, sheet_words
from armorplan.desktop.widgets.file_writer import FileWriter
from armorplan.kernel.errors import ArmorplanError
from armorplan.sheets.bench_sheet_ink import A4, LETTER, Paper
from armorplan.sheets.printer_scale import TRUE_SCALE, scale_words

NAME_OF_FILE, NAME_OF_MOCK_UP = "bench_sheet.pdf", "mock_up.pdf"


class Holds(Enum):
    """What a sheet holds."""

    STEPS = auto()
    STEPS_AND_PARTS = auto()
    PARTS = auto()


Form = tuple[Paper, Holds]
"""A paper, and what is on it."""


def forms() -> dict[str, Form]:
    """Return the forms of a sheet by what the file dialog calls them, the likeliest first."""
    is_letter = QLocale().measurementSystem() is QLocale.MeasurementSystem.ImperialUSSystem
    papers = (LETTER, A4) if is_letter else (A4, LETTER)
    names = {
        Holds.STEPS: QCoreApplication.translate("SheetSaver", "Bench sheet, {0} (*.pdf)"),
        Holds.STEPS_AND_PARTS: QCoreApplication.translate(
            "SheetSaver", "Bench sheet with the parts at full size, {0} (*.pdf)"
        ),
        Holds.PARTS: QCoreApplication.translate(
            "SheetSaver", "Only the parts at full size, for the mock-up, {0} (*.pdf)"
        ),
    }
    return {
        name.format(paper.name): (paper, holds)
        for holds, name in names.items()
        for paper in papers
    }


class SheetSaver(FileWriter):
    """Saves the bench sheet as the build stands, for the printer that is in use."""

    def ask_file(self) -> None:
        """Ask where the sheet is to go, and in which form, and write it there."""
        self._ask(self.tr("Save the bench sheet"), NAME_OF_FILE, forms())

    def ask_mock_up(self) -> None:
        """Ask where the parts at full size are to go, and on which paper, and write them there."""
        mock_ups = {kind: form for kind, form in forms().items() if form[1] is Holds.PARTS}
        self._ask(
            self.tr("Save the parts at full size for the mock-up"), NAME_OF_MOCK_UP, mock_ups
        )

    def _ask(self, title: str, usual_name: str, kinds: dict[str, Form]) -> None:
        named = str(Path.home() / usual_name)
        chosen, kind = QFileDialog.getSaveFileName(
            self.parentWidget(), title, named, ";;".join(kinds)
        )
        if chosen:
            paper, holds = kinds.get(kind, next(iter(kinds.values())))
            path = Path(chosen) if Path(chosen).suffix else Path(f"{chosen}.pdf")
            self.write(path, paper, holds)

    def write(self, path: Path, paper: Paper, holds: Holds) -> None:
        """Write the sheet on a paper; what its letters lack, and its printer, is said with it."""
        with_parts = holds is not Holds.STEPS
        printers = self._bridge.printers if with_parts else None
        try:
            check_sheet_file(path)
            scale = printers.in_use() if printers else TRUE_SCALE
        except ArmorplanError as error:
            self._bridge.said.emit(str(error))
            return
        held = self._bridge.pins.held if self._bridge.pins else None
        making = self._bridge.session.making_sheet(with_parts=with_parts, pins=held)
        is_mock_up = holds is Holds.PARTS
        for_printer = self.tr("Drawn for {0}: {1}.").format(scale.printer, scale_words(scale))

        def write() -> str:
            sheet = replace(making(), scale=scale, parts_only=is_mock_up)
            if is_mock_up:
                sheet = replace(sheet, chapters=(), needs=(), days=())
            printed = save_sheet(path, sheet, paper)
            words = sheet_words(printed.missing) if printed.missing else ""
            return words if scale.is_true else f"{for_printer} {words}".strip()

        self.begin(path, self.tr("Writing {0} …").format(path.name), write)
