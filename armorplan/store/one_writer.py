"""One window at a time writes in a workshop; the others read along, and may ask for their turn.

The right to write is a lock of the operating system, so that it never outlives its window. Who
wants to write holds a second one; the window that writes looks once a second whether somebody does,
and gives way. Nothing of it is on the workshop file: the store stays safe for any number of writers,
and where a disk knows no locks all windows write, as safely.
"""

import json
import os
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from enum import Enum, auto
from pathlib import Path
from threading import RLock

from armorplan.kernel.clock import Clock
from armorplan.store.columns import instant_text
from armorplan.store.gate import ReadsAlongError
from armorplan.store.os_lock import NoLocksError, OsLock


class Turn(Enum):
    """What a look at the locks changed."""

    NOTHING = auto()
    TAKEN = auto()
    """From now on this window writes."""
    GIVEN = auto()
    """From now on it reads along: another window asked."""


class OneWriter:
    """The right of one window to write in a workshop; fulfils ``gate.Gate``.

    Made and asked in one thread; ``writing`` may be entered in any.

    Attributes:
        knows_locks: whether the disk does; without locks every window writes.
    """

    def __init__(self, path: Path, clock: Clock) -> None:
        self._clock = clock
        self._turn = OsLock(path.with_name(f"{path.name}.writer"))
        self._asking = OsLock(path.with_name(f"{path.name}.writer-asked"))
        self._wants = False
        self._busy = RLock()
        self.knows_locks = True

    @property
    def writes(self) -> bool:
        """Whether this window writes."""
        return self._turn.is_held or not self.knows_locks

    @property
    def wants(self) -> bool:
        """Whether this window has asked for its turn."""
        return self._wants

    def begin(self) -> bool:
        """Take the turn if nobody has it; tell whether this window writes."""
        return self.look() is Turn.TAKEN or self.writes

    def ask(self) -> None:
        """Ask the window that writes to give way: within some seconds ``look`` has the turn."""
        self._wants = not self.writes

    def look(self) -> Turn:
        """Give way to a window that asks, or take a turn that is free; say what changed.

        To be called about once a second. A turn in the middle of a transaction is given a look later.
        """
        try:
            return self._give() if self._turn.is_held else self._take()
        except NoLocksError:
            self.knows_locks, self._wants = False, False
            return Turn.NOTHING

    def _give(self) -> Turn:
        if not self._asking.is_held_elsewhere() or not self._busy.acquire(blocking=False):
            return Turn.NOTHING
        try:
            self._turn.release()
        finally:
            self._busy.release()
        return Turn.GIVEN

    def _take(self) -> Turn:
        # Asking goes before waiting: what is given to one who asks is not taken by another.
        may = self._asking.take() if self._wants else not self._asking.is_held_elsewhere()
        if not may or not self._turn.take():
            return Turn.NOTHING
        self._turn.write(_card(self._clock))
        self._asking.release()
        self._wants = False
        return Turn.TAKEN

    @contextmanager
    def writing(self) -> Iterator[None]:
        """Hold the turn for one transaction, in any thread; ReadsAlongError where it is another's."""
        with self._busy:
            if not self.writes:
                raise ReadsAlongError(
                    f"This window reads along: {self.other()} writes in this workshop. Take over "
                    "writing here, then do it again."
                )
            yield

    def other(self) -> str:
        """Say who has the turn, as far as that was written down: begins a sentence's second half."""
        since_at, machine = _read(self._turn.text())
        where = f" on {machine}" if machine not in ("", _machine()) else ""
        if since_at is None:
            return f"another window{where}"
        return f"another window{where} (since {since_at.astimezone():%d %b %H:%M})"

    def close(self) -> None:
        """Let others write."""
        with self._busy:
            self._turn.release()
            self._asking.release()
            self._wants = False


def _machine() -> str:
    return socket.gethostname()


def _card(clock: Clock) -> str:
    return json.dumps(
        {"since": instant_text(clock.now()), "machine": _machine(), "process": os.getpid()}
    )


def _read(text: str) -> tuple[datetime | None, str]:
    try:
        card = json.loads(text)
        return datetime.fromisoformat(card["since"]), str(card["machine"])
    except (ValueError, TypeError, KeyError):
        return None, ""
