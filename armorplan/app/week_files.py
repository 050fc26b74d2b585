"""The plan of some builds in files for others: a calendar, a spreadsheet, a week on paper."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from armorplan.kernel.errors import ArmorplanError
from armorplan.sheets.week_csv import week_csv
from armorplan.sheets.week_folded import folded
from armorplan.sheets.week_ics import check_former, week_ics
from armorplan.sheets.week_sheet import week_pdf
from armorplan.sheets.week_table import WeekTable

KINDS = {".csv": "table", ".ics": "calendar", ".pdf": "sheet"}
"""What a file of each ending is."""
_MOST_CALENDAR_BYTES = 50_000_000


def check_week_file(path: Path, kind: str) -> None:
    """Look at a file's name before the work for it is done.

    Args:
        path: the file.
        kind: one of the endings in ``KINDS``; the file may end otherwise.

    Raises:
        ArmorplanError: it cannot be written there, or what is there is to be kept.
    """
    check_place(path, KINDS[kind])
    if kind == ".ics":
        check_former(_former(path))


def check_place(path: Path, what: str) -> None:
    """Refuse a path that no file can have; ``what`` is what it is to hold.

    Raises:
        ArmorplanError: it is a folder, or its folder is not there.
    """
    if path.is_dir() or not path.parent.is_dir():
        message = f"{path}: the {what} cannot be written there. Choose another file."
        raise ArmorplanError(message)


def save_week_file(path: Path, kind: str, table: WeekTable, *, now_at: datetime) -> None:
    """Write a plan; what is there before is replaced whole or left as it is.

    A calendar that is written over tells what is planned no more as cancelled.

    Args:
        path: the file.
        kind: one of the endings in ``KINDS``.
        table: the plan.
        now_at: when it is written.

    Raises:
        ArmorplanError: it cannot be written, or the calendar that is there is none or not ours.
    """
    check_week_file(path, kind)
    makers: dict[str, Callable[[], bytes]] = {
        ".csv": lambda: week_csv(table).encode("utf-8"),
        ".ics": lambda: week_ics(folded(table), now_at=now_at, before=_former(path)),
        ".pdf": lambda: week_pdf(table, printed_at=now_at),
    }
    write_whole(path, makers[kind](), KINDS[kind])


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
        raise _refused(path, KINDS[".ics"], error) from error


def write_whole(path: Path, data: bytes, what: str) -> None:
    """Write a file whole or leave what is there before as it is; ``what`` is what it holds.

    Raises:
        ArmorplanError: it cannot be written.
    """
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
