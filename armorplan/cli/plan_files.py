"""Files that ``armorplan plan`` writes beside its answer: picture, table, calendar, sheet."""

from argparse import Namespace
from pathlib import Path

from armorplan.app.picture_file import check_picture
from armorplan.cli.planned_week import WeekAsked
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError
from armorplan.schedule.problem import Plan
from armorplan.sheets.week_csv import week_csv
from armorplan.sheets.week_ics import week_ics
from armorplan.sheets.week_sheet import week_pdf
from armorplan.sheets.week_table import WeekTable

_MOST_CALENDAR_BYTES = 50_000_000
_KINDS = {"csv": "table", "ics": "calendar", "pdf": "sheet"}


def check_files(chosen: Namespace) -> None:
    """Look at the names of files before the work for them is done.

    Raises:
        ArmorplanError: one cannot be written so.
    """
    if chosen.png is not None:
        check_picture(chosen.png)
    for kind, what in _KINDS.items():
        path: Path | None = getattr(chosen, kind)
        if path is not None and (path.is_dir() or not path.parent.is_dir()):
            message = f"{path}: the {what} cannot be written there. Choose another file."
            raise ArmorplanError(message)


def write_files(chosen: Namespace, asked: WeekAsked, plan: Plan, table: WeekTable) -> None:
    """Write the files that were named; no file is changed by halves.

    Raises:
        ArmorplanError: one cannot be written, or the calendar that is there is none.
    """
    now_at = SystemClock().now()
    if chosen.png is not None:
        asked.picture(chosen.png, plan)
    if chosen.csv is not None:
        _write(chosen.csv, week_csv(table).encode("utf-8"), _KINDS["csv"])
    if chosen.ics is not None:
        before = _former(chosen.ics)
        _write(chosen.ics, week_ics(table, now_at=now_at, before=before), _KINDS["ics"])
    if chosen.pdf is not None:
        _write(chosen.pdf, week_pdf(table, printed_at=now_at), _KINDS["pdf"])


def _former(path: Path) -> bytes:
    """Return the calendar that is written over; empty where there is none."""
    if not path.exists():
        return b""
    try:
        if path.stat().st_size > _MOST_CALENDAR_BYTES:
            message = f"{path} is too large for a calendar of ours. Choose another file."
            raise ArmorplanError(message)
        return path.read_bytes()
    except OSError as error:
        raise _refused(path, "calendar", error) from error


def _write(path: Path, data: bytes, what: str) -> None:
    partial = path.with_name(f"{path.name}.partial")
    try:
        partial.write_bytes(data)
        partial.replace(path)
    except OSError as error:
        partial.unlink(missing_ok=True)
        raise _refused(path, what, error) from error


def _refused(path: Path, what: str, error: OSError) -> ArmorplanError:
    why = (error.strerror or "it cannot be written").lower()
    return ArmorplanError(f"{path}: the {what} cannot be written ({why}). Choose another file.")
