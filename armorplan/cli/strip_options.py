"""What is typed of a test strip on the command line."""

import argparse
from math import isfinite

_MOST = 10_000.0
_LEGS = 2


def add_strip(command: argparse.ArgumentParser) -> None:
    """Give the command its options."""
    command.add_argument(
        "--flat", type=_number, required=True, metavar="MM", help="length before it was bent"
    )
    command.add_argument(
        "--legs",
        type=_legs,
        required=True,
        metavar="MM,MM",
        help="what stays straight on either side, from the end to where the bend begins",
    )
    command.add_argument(
        "--radius", type=_number, required=True, metavar="MM", help="radius of the rod inside"
    )
    command.add_argument(
        "--angle", type=_number, required=True, metavar="DEG", help="how far it stays bent, dry"
    )
    command.add_argument(
        "--thickness", type=_number, required=True, metavar="MM", help="of the leather"
    )
    command.add_argument(
        "--outside",
        action="store_true",
        help="the legs are measured to where their outer faces meet, as with a square",
    )
    command.add_argument("--leather", metavar="ID", help="the leather it was cut from")
    command.add_argument(
        "--keep", action="store_true", help="write it into your own leathers.toml"
    )


def _number(given: str) -> float:
    try:
        value = float(given)
    except ValueError:
        value = float("nan")
    if not isfinite(value) or abs(value) > _MOST:
        message = f"'{given}' is no number up to {_MOST:,.0f}, such as 3.6"
        raise argparse.ArgumentTypeError(message)
    return value


def _legs(given: str) -> tuple[float, float]:
    found = [_number(leg) for leg in given.split(",")]
    if len(found) != _LEGS:
        message = f"'{given}' is not two lengths with a comma between, such as 40,41"
        raise argparse.ArgumentTypeError(message)
    return found[0], found[1]
