"""What is named of two things on the command line."""

from argparse import ArgumentParser


def add_why(command: ArgumentParser) -> None:
    """Give the command its own arguments, behind those that read a pattern."""
    command.add_argument("first", nargs="?", metavar="A", help="joint, row, form, part or step")
    command.add_argument("other", nargs="?", metavar="B", help="does A have to come before it?")
    command.add_argument(
        "--firm",
        action="store_true",
        help="say which orders by reach flip where a tool's reach or a number of the bench is a "
        "fifth off",
    )
