"""Time as the program asks for it; the real clock is made only by the command line."""

import time
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from typing import Protocol


class Clock(Protocol):
    """Tells instants (aware, UTC) and seconds since boot that also count a suspend."""

    def now(self) -> datetime:
        """Return the present instant, aware and in UTC."""
        ...

    def boot_id(self) -> str:
        """Return a name for this run of the machine, the same until it restarts."""
        ...

    def boot_seconds(self) -> float:
        """Return seconds since boot, unmoved by changes of the wall clock."""
        ...


class SystemClock:
    """The machine's own clock."""

    def now(self) -> datetime:
        """Return the present instant, aware and in UTC."""
        return datetime.now(UTC)

    def boot_id(self) -> str:
        """Return Linux's boot id; elsewhere the boot instant to ten seconds.

        Ten seconds: the difference of two clocks read apart wobbles, a restart takes longer. It
        is read once for each run of the program, so that a wall clock set meanwhile changes nothing.
        """
        return _boot_id()

    def boot_seconds(self) -> float:
        """Return seconds since boot, a suspend counted where the system can tell it."""
        boottime = getattr(time, "CLOCK_BOOTTIME", None)
        if boottime is not None:
            return time.clock_gettime(boottime)
        return time.monotonic()


@cache
def _boot_id() -> str:
    try:
        return Path("/proc/sys/kernel/random/boot_id").read_text(encoding="ascii").strip()
    except OSError:
        return f"boot-{round((time.time() - SystemClock().boot_seconds()) / 10)}"
