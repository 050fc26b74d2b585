"""What is typed of a dry fit, or of a fitting to a wearer, on the command line."""

from argparse import ArgumentParser, ArgumentTypeError
from pathlib import Path

_MOST = 10_000


def add_fit(command: ArgumentParser) -> None:
    """Give the command its own arguments, behind those that read a pattern."""
    command.add_argument(
        "--pins",
        type=_pins,
        metavar="N",
        help="reckon with so many pins in all, of whatever size (otherwise as your own pins.toml says)",
    )
    wearer = command.add_argument_group("fitted to a wearer")
    wearer.add_argument(
        "--wearer",
        metavar="FILE|ID",
        help="make the pattern to a wearer's measures: a file of one, FILE:ID, or an id of your own wearers.toml",
    )
    wearer.add_argument(
        "-o", "--output", type=Path, metavar="FOLDER", help="new folder for the fitted pattern"
    )
    wearer.add_argument(
        "--side", choices=("left", "right"), help="of a wearer who differs left and right"
    )
    wearer.add_argument(
        "--again",
        action="store_true",
        help="fit anew into the folder it was fitted into before; what was changed there goes",
    )


def _pins(given: str) -> int:
    if not (given.isascii() and given.isdigit() and 1 <= int(given) <= _MOST):
        raise ArgumentTypeError(f"{given} is not a whole number from 1 to {_MOST:,}")
    return int(given)
