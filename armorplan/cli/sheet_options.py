"""Options of ``armorplan sheet``; nothing that takes long to load."""

import argparse
from pathlib import Path

from armorplan.files.typed_numbers import typed_sides
from armorplan.sheets.printer_scale import bar_question

PAPERS = ("a4", "letter")
_WAYS = 2
"""Along the page, and up it."""


def bar_mm(given: str) -> tuple[float, float]:
    """Return how long the bars came out in mm, along and up: ``98.7x99.1``, or ``98.7`` for both."""
    known = typed_sides(given)
    if not 1 <= len(known) <= _WAYS:
        message = f"'{given}' is no length of bars. Write it in mm, such as 98.7 or 98.7x99.1"
        raise argparse.ArgumentTypeError(message)
    asked = next(filter(None, map(bar_question, known)), "")
    if asked:
        raise argparse.ArgumentTypeError(asked)
    return known[0], known[-1]


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
    command.add_argument(
        "--parts-only",
        dest="parts_only",
        action="store_true",
        help="nothing but the parts at full size",
    )
    command.add_argument(
        "--bar",
        type=bar_mm,
        metavar="MM",
        help="so long came out a bar of 100 mm on an earlier print, along the page and up it: "
        "98.7x99.1, or 98.7 for both; the pages make up for it",
    )
    command.add_argument(
        "--printer",
        metavar="NAME",
        help="your name for the printer: with --bar its lengths are kept, without it they are used",
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
