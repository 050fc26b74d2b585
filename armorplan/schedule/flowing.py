"""Answers that come one by one, sought on a thread of its own, so that a stop is never waited for."""

from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from queue import Empty, SimpleQueue
from threading import Event, Thread
from time import monotonic
from typing import Generic, TypeVar

ShouldStop = Callable[[], bool]
_T = TypeVar("_T")
_ASKED_EACH_S = 0.02
"""How often it is asked whether to stop."""


class HaltedError(Exception):
    """What was sought is not wanted any more."""


@dataclass(frozen=True, slots=True)
class _Ended:
    error: BaseException | None = None


def until(seconds: float, should_stop: ShouldStop) -> ShouldStop:
    """Return what says to stop after so many seconds from now too."""
    due_s = monotonic() + seconds
    return lambda: monotonic() >= due_s or should_stop()


class Flow(Generic[_T]):
    """Yields what ``work`` tells, and ends at once when told to stop.

    ``work`` gets the flow: it calls ``tell``, and ``go_on`` between things that take long. What it
    is in the middle of at a stop ends by itself, and nothing it tells is heard any more.

    Attributes:
        is_cut: whether it was ended before ``work`` was done.
    """

    def __init__(self, work: Callable[["Flow[_T]"], None], should_stop: ShouldStop) -> None:
        self._work = work
        self._should_stop = should_stop
        self._said: SimpleQueue[tuple[_T] | _Ended] = SimpleQueue()
        self._halt = Event()
        self.is_cut = False

    def __iter__(self) -> Iterator[_T]:
        """Yield each answer as it comes; raises what ``work`` raised."""
        Thread(target=self._run, daemon=True, name="flow").start()
        try:
            while True:
                word = self._next()
                if isinstance(word, _Ended):
                    if word.error is not None:
                        raise word.error
                    return
                if word is not None:
                    yield word[0]
                elif self._should_stop():
                    self.is_cut = True
                    return
        finally:
            self._halt.set()

    def tell(self, answer: _T) -> None:
        """Hand an answer on; for ``work``."""
        self._said.put((answer,))

    def go_on(self) -> None:
        """Raise HaltedError once nothing more is wanted; for ``work``."""
        if self._halt.is_set():
            raise HaltedError

    @property
    def is_halted(self) -> bool:
        """Tell whether nothing more is wanted; for what ``work`` calls."""
        return self._halt.is_set()

    def _next(self) -> tuple[_T] | _Ended | None:
        with suppress(Empty):
            return self._said.get(timeout=_ASKED_EACH_S)
        return None

    def _run(self) -> None:
        try:
            self._work(self)
            self._said.put(_Ended())
        except BaseException as error:  # noqa: BLE001 - it is raised again where it is waited for.
            self._said.put(_Ended(error))
