"""The cut list in files: a table of figures, and drawings of the beds for the cutter."""

from collections.abc import Sequence
from pathlib import Path

from armorplan.app.week_files import check_place, write_whole
from armorplan.kernel.errors import ArmorplanError
from armorplan.needs.cutting.model import CutList, CutterBed
from armorplan.sheets.cut_csv import cut_csv
from armorplan.sheets.cut_dxf import cut_dxf
from armorplan.sheets.cut_svg import cut_svg

TABLE = "cut list"
DRAWING = "drawing for the cutter"
MAKERS = {".svg": cut_svg, ".dxf": cut_dxf}
"""What makes a drawing of each ending."""


def check_cut_table(path: Path) -> None:
    """Refuse a file that no table can be written to; ArmorplanError."""
    check_place(path, TABLE)


def save_cut_table(path: Path, found: CutList) -> None:
    """Write the cut list as a table; what is there before is replaced whole or left as it is.

    Raises:
        ArmorplanError: it cannot be written.
    """
    check_cut_table(path)
    # The mark at its front tells spreadsheets that it is UTF-8.
    write_whole(path, cut_csv(found).encode("utf-8-sig"), TABLE)


def bed_files(path: Path, beds: Sequence[CutterBed]) -> tuple[Path, ...]:
    """Return a file for each bed: the one named, or of several each its own beside it.

    Raises:
        ArmorplanError: its ending is none of ``MAKERS``.
    """
    if path.suffix.lower() not in MAKERS:
        endings = " or ".join(MAKERS)
        raise ArmorplanError(f"{path}: let the name of the {DRAWING} end in {endings}.")
    if len(beds) == 1:
        return (path,)
    return tuple(path.with_name(f"{path.stem}-{bed.key}{path.suffix}") for bed in beds)


def check_beds(path: Path, beds: Sequence[CutterBed]) -> tuple[Path, ...]:
    """Return the files of the beds, none of them written yet.

    Raises:
        ArmorplanError: there is no bed, or one cannot be written there.
    """
    if not beds:
        message = f"{path}: nothing lies on a bed, so no {DRAWING} was written."
        raise ArmorplanError(message)
    files = bed_files(path, beds)
    for file in files:
        check_place(file, DRAWING)
    return files


def save_beds(path: Path, beds: Sequence[CutterBed]) -> tuple[Path, ...]:
    """Write a drawing of each bed, and return the files.

    Raises:
        ArmorplanError: there is no bed, or one cannot be written.
    """
    files = check_beds(path, beds)
    for file, bed in zip(files, beds, strict=True):
        write_whole(file, MAKERS[file.suffix.lower()](bed), DRAWING)
    return files
