"""What a view may ask about timers and tell of them. ``timing.Timing`` fulfils it."""

from typing import Protocol

from armorplan.app.bells import Bell
from armorplan.app.ringing import Answers
from armorplan.app.rows import TimerRow


class BenchTiming(Protocol):
    """Timers of the build, those set by hand, and those of the workshop's other builds.

    Actions return a sentence for the status line. What cannot be recorded says so, and counts in
    this window all the same.
    """

    @property
    def rows(self) -> tuple[TimerRow, ...]:
        """All timers, soonest first; the same object until something changes."""
        ...

    @property
    def answers(self) -> Answers:
        """Up to where timers were answered, for the functions of ``ringing``."""
        ...

    @property
    def doubt(self) -> str:
        """A question about the computer's clock, where it stands behind what was recorded."""
        ...

    def missed(self) -> tuple[Bell, ...]:
        """What passed while nobody was there, oldest first, with what it means now.

        While the program was closed or had crashed, or the machine was off or slept. The same
        until ``told_missed``, an answer, or work that answers it.
        """
        ...

    def told_missed(self) -> str:
        """The maker has seen what was missed; empty, or why that could not be recorded."""
        ...

    def hush(self, timer_id: str) -> str:
        """Answer what rings of a timer; it rings again at its next moment. A free one ends."""
        ...

    def set_timer(self, minutes: float, title: str) -> str:
        """Set a free timer."""
        ...

    def add_minutes(self, timer_id: str, minutes: float) -> str:
        """Let a free timer run longer."""
        ...

    def pause_timer(self, timer_id: str) -> str:
        """Pause a free timer, or let it go on."""
        ...

    def stop_timer(self, timer_id: str) -> str:
        """Stop a free timer for good."""
        ...
