"""Options of ``armorplan cutlist``; nothing that takes long to load."""

import argparse
from pathlib import Path

from armorplan.files.typed_numbers import typed_number, typed_sides
from armorplan.needs.cutting.model import MOST_BED_MM, MOST_KERF_MM, MOST_MARGIN_MM

_SIDES = 2


def bed_size(given: str) -> tuple[float, float]:
    """Return the sides of a bed in mm, as ``600x400``; the first runs along the hide's backbone."""
    sides = typed_sides(given)
    if len(sides) != _SIDES or not all(0 < side <= MOST_BED_MM for side in sides):
        message = f"'{given}' is no bed. Write its two sides in mm, such as 600x400"
        raise argparse.ArgumentTypeError(message)
    return sides[0], sides[1]


def _millimetres(given: str, most: float, what: str) -> float:
    mm = typed_number(given)
    if mm is None or not 0 <= mm <= most:
        message = f"'{given}' is no {what}. Write a number of mm from 0 to {most:g}"
        raise argparse.ArgumentTypeError(message)
    return mm


def kerf_mm(given: str) -> float:
    """Return a kerf in mm."""
    return _millimetres(given, MOST_KERF_MM, "kerf")


def margin_mm(given: str) -> float:
    """Return the margin between blanks in mm."""
    return _millimetres(given, MOST_MARGIN_MM, "margin")


def add_cutlist(command: argparse.ArgumentParser) -> None:
    """Give the command its options, beside those of reading a pattern."""
    command.add_argument(
        "--bed",
        type=bed_size,
        metavar="SIZE",
        help="lay blanks on beds of this size in mm: 600x400, the backbone along the first",
    )
    command.add_argument(
        "--margin",
        type=margin_mm,
        default=None,
        metavar="MM",
        help="keep so much free between blanks and at the edges of the bed (5)",
    )
    how = command.add_mutually_exclusive_group()
    how.add_argument(
        "--machine",
        action="store_true",
        help="cut with a laser: only what is known to be vegetable tanned is laid",
    )
    how.add_argument(
        "--knife-table",
        dest="knife_table",
        action="store_true",
        help="cut on a table with a knife that follows the drawing",
    )
    command.add_argument(
        "--kerf",
        type=kerf_mm,
        default=0.0,
        metavar="MM",
        help="so wide the cut takes leather away; drawings for the cutter allow for it",
    )
    command.add_argument(
        "--workshop",
        type=Path,
        metavar="FILE",
        help="workshop file: tell what cut each leather last, by the log kept in it",
    )
    command.add_argument(
        "--csv", type=Path, metavar="FILE", help="write the list as a table of figures"
    )
    command.add_argument(
        "--svg", type=Path, metavar="FILE", help="write each bed as an SVG for the cutter"
    )
    command.add_argument(
        "--dxf", type=Path, metavar="FILE", help="write each bed as a DXF for the cutter"
    )
