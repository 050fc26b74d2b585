"""Reads how long the bars came out on each printer of a maker: ``printers.toml``."""

from dataclasses import dataclass
from pathlib import Path

from armorplan.files.faults import Faults
from armorplan.files.file_bytes import read_file
from armorplan.files.tables import open_toml
from armorplan.files.values import Bounds, flag, number
from armorplan.kernel.errors import UnreadableError

PRINTERS_FILE = "printers.toml"
_MAX_BYTES = 200_000
_BAR = Bounds(least=90, most=110, unit="mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class PrinterRow:
    """A printer: how long bars of 100 mm come out on it, in mm; ``in_use``: sheets are for it."""

    name: str
    along_mm: float
    up_mm: float
    in_use: bool


def read_printers(folder: Path) -> tuple[PrinterRow, ...]:
    """Return the printers of a maker, by name.

    Raises:
        UnreadableError: with every fault of the file; none where there is no file.
    """
    if not (folder / PRINTERS_FILE).exists():
        return ()
    faults = Faults()
    text = read_file(folder, PRINTERS_FILE, most=_MAX_BYTES).decode("utf-8")
    top = open_toml(PRINTERS_FILE, text, faults)
    found: list[PrinterRow] = []
    for name in top.written() if top else ():
        row = top.table(name) if top else None
        if row is not None:
            found.append(
                PrinterRow(
                    name=name,
                    along_mm=number(row, "along_mm", _BAR),
                    up_mm=number(row, "up_mm", _BAR),
                    in_use=flag(row, "in_use", default=False),
                )
            )
            row.finish()
    if faults.findings:
        raise UnreadableError(faults.findings)
    return tuple(sorted(found, key=lambda one: one.name))
