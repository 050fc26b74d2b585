"""The bench sheet in a file."""

from pathlib import Path

from armorplan.app.week_files import check_place, write_whole
from armorplan.kernel.errors import ArmorplanError
from armorplan.sheets.bench_sheet import Printed, bench_sheet_pdf
from armorplan.sheets.bench_sheet_ink import Paper
from armorplan.sheets.bench_sheet_model import BenchSheet

WHAT = "bench sheet"
ENDING = ".pdf"
_MOST_NAMED = 8


def check_sheet_file(path: Path) -> None:
    """Look at a file's name before the work for it is done.

    Raises:
        ArmorplanError: it cannot be written there, or does not end in .pdf.
    """
    if path.suffix.lower() != ENDING:
        message = f"{path}: a bench sheet is a PDF. Let the name of the file end in {ENDING}."
        raise ArmorplanError(message)
    check_place(path, WHAT)


def save_sheet(path: Path, sheet: BenchSheet, paper: Paper) -> Printed:
    """Write a sheet; what is there before is replaced whole or left as it is.

    Raises:
        ArmorplanError: it cannot be written.
    """
    check_sheet_file(path)
    printed = bench_sheet_pdf(sheet, paper)
    write_whole(path, printed.data, WHAT)
    return printed


def sheet_words(missing: str) -> str:
    """Return in a sentence which letters are printed as squares."""
    named = " ".join(f"{letter} (U+{ord(letter):04X})" for letter in missing[:_MOST_NAMED])
    more = f" and {len(missing) - _MOST_NAMED} more" if len(missing) > _MOST_NAMED else ""
    return (
        f"The sheet's letters have no {named}{more}: a square is printed instead. Write these "
        "names in Latin, Greek or Cyrillic letters to have them on paper."
    )
