"""Owns the worker process: starts it, asks it, watches it, and starts it again when it dies."""

import threading
import time
from collections.abc import Callable
from dataclasses import replace
from typing import Self

from armorplan.kernel.errors import SolverLostError
from armorplan.solving.model import Answer, Model, ModelError, Outcome
from armorplan.solving.process import Message, WorkerProcess

_POLL_S = 0.01
"""How often a solve asks whether it should stop."""
_LOADING_S = 60.0
"""The worker may take this long to load on a slow disk before it counts as hung."""

_Better = Callable[[Answer], None]


class _LostWorkerError(Exception):
    """The worker died, or did not answer in time."""


class _Solve:
    """One question to the worker: what was heard so far, and when patience ends."""

    def __init__(self, worker: WorkerProcess, number: int, limit_s: float) -> None:
        self.worker = worker
        self.number = number
        self.stopping = False
        self._best = Answer(status=Outcome.STOPPED)
        self._limit_s = limit_s
        self._loading = not worker.ready
        self._due = time.monotonic() + limit_s + (_LOADING_S if self._loading else 0.0)

    def heard(self, message: Message | None, on_better: _Better | None) -> Answer | None:
        """Take in a message; return the final answer once it is there."""
        if message is None or message.number != self.number:  # Late words of a stopped solve.
            return None
        if message.answer is None:
            raise ModelError(message.refusal)
        if message.final:
            return message.answer
        self._best = replace(message.answer, status=Outcome.STOPPED)
        if on_better is not None:
            on_better(message.answer)
        return None

    def stop(self, within_s: float) -> None:
        """Ask the worker to stop, once, and give it so long; none while it is still loading."""
        if not self.stopping:
            self.stopping = True
            self.worker.send_stop(self.number)
            self._due = time.monotonic() + (0.0 if self._loading else within_s)

    def given_up(self) -> Answer | None:
        """Return the best answer so far if a stop got none in time, else ``None``.

        Raises _LostWorkerError for a worker that is gone or silent beyond its limit.
        """
        if self.worker.gone:
            raise _LostWorkerError(self.worker.last_words())
        if self._loading and self.worker.ready:
            self._loading = False
            self._due = min(self._due, time.monotonic() + self._limit_s)
        if time.monotonic() <= self._due:
            return None
        if self.stopping:
            return self._best
        raise _LostWorkerError(f"no answer within {self._limit_s:.1f} s")


class SolverKeeper:
    """The one owner of the solver's process; any thread may call it, one solve runs at a time.

    Args:
        grace_s: how long beyond a model's own limit the worker may take before it is killed.
        stop_grace_s: how long after a stop the worker may take before it is killed: with the
            asking and the killing a tenth of a second, whatever it is in the middle of.
    """

    def __init__(self, *, grace_s: float = 5.0, stop_grace_s: float = 0.04) -> None:
        self._grace_s = grace_s
        self._stop_grace_s = stop_grace_s
        self._turn = threading.Lock()
        self._worker: WorkerProcess | None = None
        self._closed = threading.Event()
        self._number = 0

    def warm_up(self) -> None:
        """Start the worker now; returns at once, the worker loads by itself."""
        if self._turn.acquire(blocking=False):
            try:
                if not self._closed.is_set():
                    self._awake()
            finally:
                self._turn.release()

    def solve(
        self,
        model: Model,
        *,
        on_better: _Better | None = None,
        should_stop: Callable[[], bool] | None = None,
    ) -> Answer:
        """Solve in the worker and wait for it; call this from a background thread.

        A worker that dies or hangs is started again and asked once more; then one with a single
        thread is asked, which has been seen to live where several died.

        ``on_better`` gets better answers on this thread as they come. ``should_stop`` is asked
        some hundred times a second; after a stop the best answer so far comes back as STOPPED.

        Raises SolverLostError when the worker was lost three times or the keeper is closed, and
        ModelError for an ill-formed model.
        """
        why = ""
        with self._turn:
            for tried in (model, model, _with_one_thread(model)):
                try:
                    return self._ask(tried, on_better, should_stop)
                except _LostWorkerError as lost:
                    why = str(lost)
                    self._drop()
        raise SolverLostError(f"The solver stopped working three times ({why}).")

    def close(self) -> None:
        """End the worker and any solve under way, and leave nothing behind. May be repeated."""
        self._closed.set()
        with self._turn:
            self._drop()

    def __enter__(self) -> Self:
        """Return the keeper; leaving the block closes it."""
        return self

    def __exit__(self, *_: object) -> None:
        """Close the keeper."""
        self.close()

    def _awake(self) -> WorkerProcess:
        if self._worker is not None and not self._worker.alive:
            self._drop()
        if self._worker is None:
            self._worker = WorkerProcess()
        return self._worker

    def _drop(self, *, at_once: bool = False) -> None:
        if self._worker is not None:
            self._worker.end(at_once=at_once)
            self._worker = None

    def _ask(
        self, model: Model, on_better: _Better | None, should_stop: Callable[[], bool] | None
    ) -> Answer:
        if self._closed.is_set():
            raise SolverLostError("The solver is closed.")
        self._number += 1
        solve = _Solve(self._awake(), self._number, model.effort.seconds + self._grace_s)
        solve.worker.send_model(self._number, model)
        while True:
            answer = solve.heard(solve.worker.next_message(_POLL_S), on_better)
            if answer is not None:
                return answer
            if self._closed.is_set() or (should_stop is not None and should_stop()):
                solve.stop(0.0 if self._closed.is_set() else self._stop_grace_s)
            answer = solve.given_up()
            if answer is not None:
                if solve.worker.ready:  # It loads no more, and still did not stop.
                    self._drop(at_once=True)
                return answer


def _with_one_thread(model: Model) -> Model:
    return replace(model, effort=replace(model.effort, workers=1))
