"""What is typed of a trial at the bench on the command line."""

from argparse import ArgumentParser


def add_reached(command: ArgumentParser) -> None:
    """Give the command its own arguments, behind those that read a pattern."""
    command.add_argument("joint", metavar="JOINT", help="the joint it was tried at, by its id")
    command.add_argument("answer", choices=("yes", "no"), help="did the tool get there?")
    command.add_argument(
        "--tool",
        metavar="ID",
        help="which tool (otherwise the one that by the shapes serves best)",
    )
    command.add_argument(
        "--after",
        nargs="*",
        metavar="JOINT-OR-ROW",
        help="what was set before; with no name nothing was (otherwise all that the order sets before)",
    )
    command.add_argument(
        "--keep", action="store_true", help="write the tool's reach into your own tools.toml"
    )
