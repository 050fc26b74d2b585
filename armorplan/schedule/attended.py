"""Runs a search beside the one who waits for it, so that a stop is answered at once."""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from queue import Empty, SimpleQueue
from threading import Event, Thread
from time import monotonic

from armorplan.schedule.deadline import Deadline
from armorplan.schedule.problem import Plan

_ASKED_EACH_S = 0.01
"""How often the one who waits is asked whether to stop."""
_ORDERLY_S = 0.05
"""A search that was told to stop has so long to end by itself before it is left to do so alone."""


@dataclass(frozen=True, slots=True)
class _Ended:
    plan: Plan | None = None
    error: BaseException | None = None


class Attended:
    """One search on a thread of its own; what it tells is told on the thread that waits.

    Args:
        on_better: told each plan the search tells, until it is stopped.
        should_stop: asked a hundred times a second.
        within_s: the last plan told comes back once so much time has passed; ``None``: the search
            ends by itself.
    """

    def __init__(
        self,
        on_better: Callable[[Plan], None] | None,
        should_stop: Callable[[], bool] | None,
        within_s: float | None = None,
    ) -> None:
        self._on_better = on_better
        self._should_stop = should_stop
        self._timed = None if within_s is None else Deadline(within_s)
        self._told: Plan | None = None
        self._said: SimpleQueue[Plan | _Ended] = SimpleQueue()
        self._stop = Event()
        self._due_s = 0.0

    def tell(self, plan: Plan) -> None:
        """Hand a plan on; for the search."""
        self._told = plan
        self._said.put(plan)

    def is_stopped(self) -> bool:
        """Tell whether to stop; for the search."""
        return self._stop.is_set()

    def wait_for(self, run: Callable[[], Plan], so_far: Callable[[], Plan], start: Plan) -> Plan:
        """Return what ``run`` returns, or after a stop what there is so far.

        A search that was stopped, or has no time left, in the middle of something ends by itself a
        little later. Where it told nothing in the time given, ``start`` comes back.
        """
        if self._on_better is None and self._should_stop is None and self._timed is None:
            return run()
        Thread(target=self._run, args=(run,), daemon=True, name="search").start()
        while True:
            ended = self._next()
            if ended is not None and ended.error is not None:
                raise ended.error
            if ended is not None and ended.plan is not None:
                return ended.plan
            if self._is_overdue():
                return so_far()
            if self._timed is not None and self._timed():
                self._stop.set()
                return self._told or start

    def _run(self, run: Callable[[], Plan]) -> None:
        try:
            self._said.put(_Ended(plan=run()))
        except BaseException as error:  # noqa: BLE001 - it is raised again where it is waited for.
            self._said.put(_Ended(error=error))

    def _next(self) -> _Ended | None:
        with suppress(Empty):
            word = self._said.get(timeout=_ASKED_EACH_S)
            if isinstance(word, _Ended):
                return word
            if self._on_better is not None and not self._stop.is_set():
                self._on_better(word)
        return None

    def _is_overdue(self) -> bool:
        if self._stop.is_set():
            return monotonic() > self._due_s
        if self._should_stop is not None and self._should_stop():
            self._stop.set()
            self._due_s = monotonic() + _ORDERLY_S
        return False
