"""Saves the cut list as a table, and its beds as drawings for the cutter."""

from pathlib import Path

from armorplan.app.cutting import CutPage, save_cut_page
from armorplan.desktop.widgets.file_writer import FileWriter


class CutSaver(FileWriter):
    """Saves what the page of cutting shows."""

    def ask_list(self, page: CutPage | None) -> None:
        """Ask where the table is to go, and write it there."""
        kinds = self.tr("Tables (*.csv)")
        self.save(page, self.chosen_file(self.tr("Save the cut list"), "cut_list.csv", kinds))

    def ask_beds(self, page: CutPage | None) -> None:
        """Ask where the drawings are to go, and write them there; the ending says which kind."""
        title, kinds = self.tr("Save the beds for the cutter"), self.tr("Drawings (*.svg *.dxf)")
        self.save(page, self.chosen_file(title, "beds.svg", kinds))

    def save(self, page: CutPage | None, path: Path | None) -> None:
        """Write what the file's ending says; of several beds all files are named when it is done."""
        if path is None or page is None:
            return

        each = self.tr("A file for each bed: {0}.")

        def write() -> str:
            files = save_cut_page(page, path)
            names = ", ".join(file.name for file in files)
            return "" if files == (path,) else each.format(names)

        self.begin(path, self.tr("Writing {0} …").format(path.name), write)
