"""Tells a worker that hangs from one that is at work: at work it says so several times a second."""

BEAT_S = 0.2
"""How often a worker that was asked something says that it lives."""
_ASKED = 25
"""Silence counts only where it was listened to so often: if this process itself was halted or
busy, what the worker said meanwhile has to be read first."""


class Pulse:
    """Hears whether a worker lives.

    Args:
        silence_s: so long without a word, and it hangs.
    """

    def __init__(self, silence_s: float) -> None:
        self._silence_s = silence_s
        self._words = -1
        self._since_s = 0.0
        self._asked = 0

    def is_lost(self, words: int, now_s: float) -> bool:
        """Tell whether a worker that said so many words in all was silent for too long."""
        if words != self._words:
            self._words, self._since_s, self._asked = words, now_s, 0
        self._asked += 1
        return self._asked > _ASKED and now_s - self._since_s > self._silence_s
