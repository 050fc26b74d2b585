"""What a search may spend: seconds of the clock, or work where it has to be repeatable."""

import os
from time import monotonic

from armorplan.solving.model import Answer, Effort

_SECONDS_EACH = 30.0
"""In a repeatable search the clock ends a solve only after so many seconds for each."""
_WORK_EACH_S = 0.2
"""The solver's own unit of work for a second: measured on parts of a full week."""
_THREADS = min(2, os.cpu_count() or 1)
"""Of a search that need not be repeatable: one proves while another improves."""
_LEAST_S = 0.1
"""Every solve counts as so long at least, so that a repeatable search ends."""


class Allowance:
    """Counts down; a part of it can be given to one stage."""

    def __init__(self, seconds: float, *, repeatable: bool) -> None:
        self._repeatable = repeatable
        self._seconds = seconds
        self._spent = 0.0
        self._began_s = monotonic()

    @property
    def left(self) -> float:
        """What is left, in seconds or work of about a second."""
        if self._repeatable:
            return self._seconds - self._spent
        return self._seconds - (monotonic() - self._began_s)

    def spend(self, answer: Answer) -> None:
        """Count the work of a solve."""
        self.work(max(_LEAST_S, answer.work / _WORK_EACH_S))

    def work(self, seconds: float) -> None:
        """Count work done without the solver that takes about so long."""
        self._spent += seconds

    def effort(self, amount: float, seed: int) -> Effort:
        """Return the effort of one solve."""
        amount = max(0.0, min(amount, self.left))
        if self._repeatable:
            return Effort(seconds=amount * _SECONDS_EACH, seed=seed, work=amount * _WORK_EACH_S)
        return Effort(seconds=amount, seed=seed, workers=_THREADS, repeatable=False)
