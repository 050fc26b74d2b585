"""The printers of a maker, by the names the maker gives them, and how long their bars come out."""

from pathlib import Path

from armorplan.app.own_catalogue import keep_values
from armorplan.files.faults import listed
from armorplan.files.printer_file import PRINTERS_FILE, PrinterRow, read_printers
from armorplan.kernel.errors import ArmorplanError
from armorplan.sheets.printer_scale import TRUE_SCALE, PrinterScale


def kept_scales(folder: Path) -> tuple[PrinterScale, ...]:
    """Return the printers whose bars were measured, by name.

    Raises:
        UnreadableError: their file has faults.
    """
    return tuple(map(_scale_of, read_printers(folder)))


def _scale_of(row: PrinterRow) -> PrinterScale:
    return PrinterScale(along_mm=row.along_mm, up_mm=row.up_mm, printer=row.name)


def kept_scale(folder: Path, printer: str) -> PrinterScale:
    """Return how the bars of a printer came out.

    Raises:
        UnreadableError: the file of printers has faults.
        ArmorplanError: nothing is kept of a printer of that name.
    """
    scales = kept_scales(folder)
    found = next((scale for scale in scales if scale.printer == printer), None)
    if found is None:
        names = listed(scale.printer for scale in scales)
        message = (
            f"Nothing is kept of a printer '{printer}'; there is: {names}. Print the pages, measure "
            "their bars, and give the lengths too: --bar 98.7x99.1."
        )
        raise ArmorplanError(message)
    return found


def keep_scale(folder: Path, scale: PrinterScale) -> Path:
    """Keep how the bars of a printer came out, in place of what was kept before; return the file.

    Raises:
        UnreadableError: the file of printers cannot be read; nothing is written.
        ArmorplanError: it cannot be written.
    """
    values = {"along_mm": float(scale.along_mm), "up_mm": float(scale.up_mm)}
    return keep_values(folder, PRINTERS_FILE, scale.printer, values)


class OwnPrinters:
    """The printers of a maker, and the one that sheets are drawn for; works in any thread."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def scales(self) -> tuple[PrinterScale, ...]:
        """Return the printers whose bars were measured, by name; UnreadableError as for reading."""
        return kept_scales(self._folder)

    def in_use(self) -> PrinterScale:
        """Return the printer that sheets are drawn for; a true one where none is."""
        used = (row for row in read_printers(self._folder) if row.in_use)
        return next(map(_scale_of, used), TRUE_SCALE)

    def keep(self, scale: PrinterScale) -> None:
        """Keep how the bars of a printer came out, and draw sheets for it from now on.

        Raises:
            ArmorplanError: it has no name, or cannot be kept.
        """
        if not scale.printer:
            raise ArmorplanError("The printer has no name. Write one. Nothing was kept.")
        keep_scale(self._folder, scale)
        self.use(scale.printer)

    def use(self, printer: str) -> None:
        """Draw sheets for a printer that is kept; empty: for one that draws true to size."""
        for row in read_printers(self._folder):
            if row.in_use != (row.name == printer):
                values = {"in_use": row.name == printer}
                keep_values(self._folder, PRINTERS_FILE, row.name, values)
