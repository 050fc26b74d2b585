"""Files that ``armorplan plan`` writes beside its answer: picture, table, calendar, sheet."""

from argparse import Namespace
from pathlib import Path

from armorplan.app.picture_file import check_picture
from armorplan.app.week_files import KINDS, check_week_file, save_week_file
from armorplan.cli.planned_week import WeekAsked
from armorplan.kernel.clock import SystemClock
from armorplan.schedule.problem import Plan
from armorplan.sheets.week_table import WeekTable


def check_files(chosen: Namespace) -> None:
    """Look at the names of files before the work for them is done.

    Raises:
        ArmorplanError: one cannot be written so.
    """
    if chosen.png is not None:
        check_picture(chosen.png)
    for kind, path in _named(chosen).items():
        check_week_file(path, kind)


def write_files(
    chosen: Namespace, asked: WeekAsked, plan: Plan, table: WeekTable, *, sure: str = ""
) -> None:
    """Write the files that were named; no file is changed by halves.

    ``sure``: how sure the dates are, for the picture; the table has it in its sentence.

    Raises:
        ArmorplanError: one cannot be written, or the calendar that is there is none.
    """
    if chosen.png is not None:
        asked.picture(chosen.png, plan, sure)
    for kind, path in _named(chosen).items():
        save_week_file(path, kind, table, now_at=SystemClock().now())


def _named(chosen: Namespace) -> dict[str, Path]:
    given = ((kind, getattr(chosen, kind.removeprefix("."))) for kind in KINDS)
    return {kind: path for kind, path in given if path is not None}
