"""Whose turn it is to write in a workshop: of windows one at a time does, of commands none beside it."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import monotonic, sleep

from armorplan.kernel.clock import Clock
from armorplan.store.gate import ReadsAlongError
from armorplan.store.one_writer import OneWriter

PATIENCE_S = 5.0
"""A window looks once a second whether another one asks."""
_PAUSE_S = 0.05


@contextmanager
def turn_of_a_window(path: Path, clock: Clock, *, write_here: bool) -> Iterator[OneWriter]:
    """Take the turn if nobody has it; with ``write_here`` ask the one who has it, and wait some seconds.

    Where it does not give way the window opens all the same, and reads along until it does.
    """
    turn = OneWriter(path, clock)
    try:
        if not turn.begin() and write_here:
            turn.ask()
            end_s = monotonic() + PATIENCE_S
            while not turn.writes and monotonic() < end_s:
                turn.look()
                sleep(_PAUSE_S)
        yield turn
    finally:
        turn.close()


@contextmanager
def turn_of_a_command(path: Path, clock: Clock) -> Iterator[OneWriter]:
    """Hold the turn for a command that writes.

    Raises:
        ReadsAlongError: a window writes in the workshop.
    """
    turn = OneWriter(path, clock)
    try:
        if not turn.begin():
            raise ReadsAlongError(
                f"Nothing was changed: {turn.other()} writes in the workshop {path}. "
                "Do it there, or close it and try again."
            )
        yield turn
    finally:
        turn.close()


def not_begun_here(turn: OneWriter, path: Path) -> ReadsAlongError:
    """Return the message for a window that would have to begin a build, and may not write."""
    return ReadsAlongError(
        f"What you asked for is not begun yet, and {turn.other()} writes in the workshop {path}. "
        "Open it there, or close that window first, or add --write-here: then that window reads along."
    )
