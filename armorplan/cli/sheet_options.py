"""Options of ``armorplan sheet``; nothing that takes long to load."""

import argparse
from pathlib import Path

PAPERS = ("a4", "letter")


def add_sheet(command: argparse.ArgumentParser) -> None:
    """Give the command its options, beside those of reading a pattern."""
    command.add_argument(
        "-o",
        "--output",
        type=Path,
        required=True,
        metavar="FILE",
        help="the PDF to write; of a shop one a build, its id put before the ending",
    )
    command.add_argument(
        "--paper", type=str.lower, choices=PAPERS, default=PAPERS[0], help="size of the paper (a4)"
    )
    command.add_argument(
        "--full-size",
        dest="full_size",
        action="store_true",
        help="with the parts at full size, for the paper mock-up",
    )
    when = command.add_mutually_exclusive_group()
    when.add_argument(
        "--from", dest="start", metavar="INSTANT", help="start then, such as 2026-11-30T09:00"
    )
    when.add_argument(
        "--undated",
        action="store_true",
        help="without dates: a sheet that goes with a pattern, whenever it is made",
    )
    command.add_argument(
        "--workshop",
        type=Path,
        metavar="FILE",
        help="workshop file: plan in the air kept in it, and by what was learned there",
    )
