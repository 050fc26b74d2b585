"""Time that runs out: whoever works asks now and then whether to stop."""

from collections.abc import Callable
from time import monotonic


class Deadline:
    """Says yes once so many seconds have passed since it was made, or somebody asked to stop."""

    def __init__(self, seconds: float, should_stop: Callable[[], bool] | None = None) -> None:
        self._until = monotonic() + seconds
        self._should_stop = should_stop

    def __call__(self) -> bool:
        """Tell whether to stop."""
        return self.left_s <= 0 or self.is_asked_to_stop()

    def is_asked_to_stop(self) -> bool:
        """Tell whether somebody asked to stop, whatever time is left."""
        return self._should_stop is not None and self._should_stop()

    @property
    def left_s(self) -> float:
        """Seconds left; never fewer than 0."""
        return max(0.0, self._until - monotonic())
