"""Options of ``armorplan promise``; nothing that takes long to load."""

from argparse import ArgumentParser, ArgumentTypeError

LEAST_RUNS, MOST_RUNS = 100, 20_000
MOST_ODDS_PCT = 99


def add_promise(command: ArgumentParser) -> None:
    """Add what is asked of a promise."""
    command.add_argument(
        "--odds",
        type=_odds,
        default=80,
        metavar="PERCENT",
        help="how sure the date is to be: 80 is kept four times of five (usual: 80)",
    )
    command.add_argument(
        "--runs",
        type=_runs,
        default=1000,
        metavar="N",
        help="go through the plan so often, with durations that are drawn (usual: 1000)",
    )
    command.add_argument(
        "--seed", type=_seed, default=1, metavar="N", help="draw otherwise (usual: 1)"
    )


def _whole(given: str, least: int, most: int) -> int:
    try:
        number = int(given)
    except ValueError:
        number = least - 1
    if not least <= number <= most:
        message = f"{given} is not a whole number from {least} to {most}"
        raise ArgumentTypeError(message)
    return number


def _odds(given: str) -> int:
    return _whole(given.removesuffix("%").strip(), 1, MOST_ODDS_PCT)


def _runs(given: str) -> int:
    return _whole(given, LEAST_RUNS, MOST_RUNS)


def _seed(given: str) -> int:
    return _whole(given, 0, 2**32 - 1)
