"""What is typed of a drawing to bring in on the command line."""

import argparse
from math import isfinite
from pathlib import Path

from armorplan.files.typed_numbers import typed_number

_INCH_MM = 25.4
_NAMED = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "inch": _INCH_MM, "px": _INCH_MM / 96}
"""A px of 1/96 in is what CSS says: https://www.w3.org/TR/css-values-4/#absolute-lengths."""


def add_bring(command: argparse.ArgumentParser) -> None:
    """Give the command its options."""
    command.add_argument(
        "drawing", type=Path, metavar="FILE", help="SVG or DXF file, as for a cutter or a printer"
    )
    command.add_argument(
        "-o",
        "--out",
        dest="folder",
        type=Path,
        required=True,
        metavar="FOLDER",
        help="new or empty folder to write the pattern into",
    )
    command.add_argument(
        "--unit",
        type=_unit_mm,
        metavar="UNIT",
        help="what one unit of the file is: mm, cm, m, inch, px, or a number of mm",
    )
    command.add_argument("--name", default="", help="what the pattern is called")
    command.add_argument(
        "--answers",
        type=Path,
        metavar="FILE",
        help="answers to what is asked, as --save-answers has",
    )
    command.add_argument(
        "--save-answers",
        type=Path,
        metavar="FILE",
        help="write what was taken, to change and give again",
    )
    command.add_argument(
        "--sure-only", action="store_true", help="join only rows of holes that fit but one other"
    )
    command.add_argument(
        "--json", action="store_true", help="answer as JSON (schemas are shipped in resources)"
    )


def _unit_mm(given: str) -> float:
    value = _NAMED.get(given.lower()) or typed_number(given)
    if value is None or not isfinite(value) or value <= 0:
        message = f"'{given}' is no unit: {', '.join(_NAMED)}, or a number of mm such as 0.3528"
        raise argparse.ArgumentTypeError(message)
    return value
