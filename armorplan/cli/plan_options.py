"""Options of ``armorplan plan``; nothing that takes long to load."""

from argparse import ArgumentParser
from pathlib import Path

from armorplan.app.what_if_notation import NOTATION


def add_files(plan: ArgumentParser) -> None:
    """Add the options that name files."""
    plan.add_argument("--png", type=Path, metavar="FILE", help="draw the days to a picture")
    plan.add_argument("--csv", type=Path, metavar="FILE", help="write it for a spreadsheet")
    plan.add_argument(
        "--ics",
        type=Path,
        metavar="FILE",
        help="write it as a calendar, with alarms; written again, it moves the events it made",
    )
    plan.add_argument("--pdf", type=Path, metavar="FILE", help="write the week on paper, A4")


def add_asks(plan: ArgumentParser) -> None:
    """Add the options that ask something of a plan."""
    plan.add_argument(
        "--what-if",
        dest="what_if",
        action="append",
        default=[],
        metavar="CHANGE",
        help=f"set the plan beside one with a change; may be given again. {NOTATION}",
    )
    plan.add_argument(
        "--around-tonight",
        dest="around_tonight",
        action="store_true",
        help="lay tomorrow anew around what dries in the workshop now, all else stays where it can",
    )
