"""What is typed of a dry fit on the command line."""

from argparse import ArgumentParser, ArgumentTypeError

_MOST = 10_000


def add_fit(command: ArgumentParser) -> None:
    """Give the command its own arguments, behind those that read a pattern."""
    command.add_argument(
        "--pins",
        type=_pins,
        metavar="N",
        help="reckon with so many pins in all, of whatever size (otherwise as your own pins.toml says)",
    )


def _pins(given: str) -> int:
    if not (given.isascii() and given.isdigit() and 1 <= int(given) <= _MOST):
        raise ArgumentTypeError(f"{given} is not a whole number from 1 to {_MOST:,}")
    return int(given)
