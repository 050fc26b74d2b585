"""Owns the worker process: starts it, asks it, watches it, and starts it again when it dies."""

import threading
import time
from collections.abc import Callable
from dataclasses import replace
from typing import Self

from armorplan.kernel.errors import SolverLostError
from armorplan.solving.model import Answer, Model, ModelError, Outcome
from armorplan.solving.process import Message, WorkerProcess
from armorplan.solving.pulse import Pulse

_POLL_S = 0.01
"""How often a solve asks whether it should stop."""
_LOADING_S = 60.0
"""The worker may take this long to load on a slow disk before it counts as hung."""
_LEAST_S = 0.02
"""With less left of its time a question is not asked again."""

_Better = Callable[[Answer], None]


class _LostWorkerError(Exception):
    """The worker died, or did not answer in time; after so many seconds, its loading left out."""

    def __init__(self, why: str, spent_s: float) -> None:
        super().__init__(why)
        self.spent_s = spent_s


class _Solve:
    """One question to the worker: what was heard so far, and when patience ends."""

    def __init__(self, worker: WorkerProcess, number: int, limit_s: float, pulse: Pulse) -> None:
        self.worker = worker
        self.number = number
        self.stopping = False
        self._best = Answer(status=Outcome.STOPPED)
        self._limit_s = limit_s
        self._pulse = pulse
        self._loading = not worker.ready
        self._began = time.monotonic()
        self._due = self._began + limit_s + (_LOADING_S if self._loading else 0.0)

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
        now = time.monotonic()
        if self._loading and self.worker.ready:
            self._loading = False
            self._began = now
            self._due = min(self._due, now + self._limit_s)
        if self.worker.gone:
            raise _LostWorkerError(self.worker.last_words(), now - self._began)
        if self._is_silent(now):
            raise _LostWorkerError("it did not say any more that it lives", now - self._began)
        if now <= self._due:
            return None
        if self.stopping:
            return self._best
        raise _LostWorkerError(f"no answer within {self._limit_s:.1f} s", now - self._began)

    def _is_silent(self, now: float) -> bool:
        if self._loading or self.stopping:
            return False
        return self._pulse.is_lost(self.worker.words, now)


class SolverKeeper:
    """The one owner of the solver's process; any thread may call it, one solve runs at a time.

    Args:
        grace_s: how long beyond a model's own limit the worker may take before it is killed.
        stop_grace_s: how long after a stop the worker may take before it is killed: with the
            asking and the killing a tenth of a second, whatever it is in the middle of.
        silence_s: a worker that says so long not even that it lives hangs.
    """

    def __init__(
        self, *, grace_s: float = 5.0, stop_grace_s: float = 0.04, silence_s: float = 3.0
    ) -> None:
        self._grace_s = grace_s
        self._silence_s = silence_s
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
        thread is asked, which has been seen to live where several died. All of them together have
        the time of the model: each gets what the ones before left.

        ``on_better`` gets better answers on this thread as they come. ``should_stop`` is asked
        some hundred times a second; after a stop the best answer so far comes back as STOPPED.

        Raises SolverLostError when the worker was lost three times, or once its time was over, or
        when the keeper is closed, and ModelError for an ill-formed model.
        """
        why, left_s = "", model.effort.seconds
        with self._turn:
            for tried in (model, model, _with_one_thread(model)):
                try:
                    return self._ask(_within(tried, left_s), on_better, should_stop)
                except _LostWorkerError as lost:
                    why = str(lost)
                    left_s -= lost.spent_s
                    self._drop(at_once=True)
                if left_s < _LEAST_S:
                    message = f"The solver stopped working, and no time is left ({why})."
                    raise SolverLostError(message)
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
        worker = self._awake()
        worker.send_model(self._number, model)
        limit_s = model.effort.seconds + self._grace_s
        solve = _Solve(worker, self._number, limit_s, Pulse(self._silence_s))
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


def _within(model: Model, seconds: float) -> Model:
    return replace(model, effort=replace(model.effort, seconds=seconds))


def _with_one_thread(model: Model) -> Model:
    return replace(model, effort=replace(model.effort, workers=1))
