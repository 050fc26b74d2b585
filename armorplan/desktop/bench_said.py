"""A sentence that stands in the bench view for as long as it takes to read it."""

from armorplan.desktop.bench_words import said_s
from armorplan.kernel.clock import Clock


class BenchSaid:
    """Holds what was said last; ``text`` is empty once its time is over."""

    def __init__(self, clock: Clock) -> None:
        self._clock = clock
        self._until_s = 0.0
        self.text = ""

    def hear(self, sentence: str) -> None:
        """Let a sentence stand from now on."""
        self.text = sentence
        self._until_s = self._clock.boot_seconds() + said_s(sentence)

    def clear(self) -> None:
        """Say nothing any more."""
        self.text = ""

    def lapse(self) -> bool:
        """Say nothing any more where the time is over; tell whether that is so just now."""
        is_over = bool(self.text) and self._clock.boot_seconds() >= self._until_s
        if is_over:
            self.clear()
        return is_over
