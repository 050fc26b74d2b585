"""Reads how long the bars came out on each printer of a maker: ``printers.toml``."""

from collections.abc import Mapping
from pathlib import Path

from armorplan.files.faults import Faults
from armorplan.files.file_bytes import read_file
from armorplan.files.tables import open_toml
from armorplan.files.values import Bounds, number
from armorplan.kernel.errors import UnreadableError

PRINTERS_FILE = "printers.toml"
_MAX_BYTES = 200_000
_BAR = Bounds(least=90, most=110, unit="mm")


def read_printers(folder: Path) -> Mapping[str, tuple[float, float]]:
    """Return by printer how long the bars of 100 mm come out in mm, along the page and up it.

    Raises:
        UnreadableError: with every fault of the file; none where there is no file.
    """
    if not (folder / PRINTERS_FILE).exists():
        return {}
    faults = Faults()
    text = read_file(folder, PRINTERS_FILE, most=_MAX_BYTES).decode("utf-8")
    top = open_toml(PRINTERS_FILE, text, faults)
    found: dict[str, tuple[float, float]] = {}
    for name in top.written() if top else ():
        row = top.table(name) if top else None
        if row is not None:
            found[name] = (number(row, "along_mm", _BAR), number(row, "up_mm", _BAR))
            row.finish()
    if faults.findings:
        raise UnreadableError(faults.findings)
    return found
