"""Options of ``armorplan plan``; nothing that takes long to load."""

from argparse import ArgumentParser
from pathlib import Path


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
