"""What is typed of what stands and what went wrong on the command line."""

from argparse import ArgumentParser

from armorplan.orders.recovery.mistakes import MistakeKind

KINDS = ", ".join(kind.slug for kind in MistakeKind)


def add_recover(command: ArgumentParser) -> None:
    """Give the command its own arguments, behind those that read a pattern."""
    command.add_argument(
        "--done",
        action="append",
        default=[],
        metavar="STEP,STEP",
        help="what stands: steps, joints, rows or parts by id or name; what has to come before them "
        "is taken as done, too",
    )
    command.add_argument(
        "--left",
        action="append",
        default=[],
        metavar="STEP,STEP",
        help="what was left out though it should have come before",
    )
    command.add_argument(
        "--only",
        action="store_true",
        help="only what --done names stands, and what it cannot be without: no dye, no dry fit",
    )
    command.add_argument(
        "--mistake",
        action="append",
        default=[],
        metavar="KIND:WHAT[:HOW]",
        help=f"what went wrong: {KINDS}; then a hole, row or part; then mm and which way ('edge', 'in' "
        "or 'along'; where it is spoilt 'edge', 'face' or 'shape'), or 'darker' or 'lighter', such "
        "as row-off:left_row:3:edge",
    )
    command.add_argument(
        "--all", action="store_true", help="tell each way step by step, not only the best"
    )
