"""The printers of a maker, by the names the maker gives them, and how long their bars come out."""

from pathlib import Path

from armorplan.app.own_catalogue import keep_values
from armorplan.files.faults import listed
from armorplan.files.printer_file import PRINTERS_FILE, read_printers
from armorplan.kernel.errors import ArmorplanError
from armorplan.sheets.printer_scale import PrinterScale


def kept_scales(folder: Path) -> tuple[PrinterScale, ...]:
    """Return the printers whose bars were measured, by name.

    Raises:
        UnreadableError: their file has faults.
    """
    return tuple(
        PrinterScale(along_mm=along_mm, up_mm=up_mm, printer=name)
        for name, (along_mm, up_mm) in sorted(read_printers(folder).items())
    )


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
