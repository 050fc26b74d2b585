"""What is typed of what a workshop learned on the command line."""

from argparse import ArgumentParser, _SubParsersAction
from pathlib import Path


def add_learned(commands: "_SubParsersAction[ArgumentParser]") -> ArgumentParser:
    """Add the command with its arguments, and return it."""
    command = commands.add_parser(
        "learned", help="say what the workshop learned of its dryings and its hands"
    )
    command.add_argument("--workshop", type=Path, metavar="FILE", help="workshop file to look in")
    command.add_argument("--shop", type=Path, metavar="FILE", help="shop file: people, hours, air")
    turn = command.add_mutually_exclusive_group()
    turn.add_argument(
        "--forget",
        metavar="WHAT",
        help="learn it anew from now on: a treatment's id, a kind of step, or 'all'",
    )
    turn.add_argument(
        "--remember", metavar="WHAT", help="let all count again that was seen before --forget"
    )
    command.add_argument(
        "--json", action="store_true", help="answer as JSON (schemas are shipped in resources)"
    )
    return command
