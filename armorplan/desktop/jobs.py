"""The one place that starts threads: the newest job wins, stale answers are dropped."""

import logging
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum, auto
from threading import Event

from PySide6.QtCore import QCoreApplication, QEvent, QObject, QThreadPool, Signal

from armorplan.kernel.errors import ArmorplanError

Report = Callable[[object], None]
ShouldStop = Callable[[], bool]
Work = Callable[[Report, ShouldStop], object]
"""Runs off the window's thread: may report frozen values on its way, and looks at the stop flag."""

THREADS = 2
"""One to work and one to start a newer job while the former winds down."""
PATIENCE_MS = 5000
_LOG = logging.getLogger(__name__)


class _Kind(Enum):
    BETTER = auto()
    ANSWER = auto()
    FAILURE = auto()


@dataclass(frozen=True, slots=True)
class _Told:
    job: int
    kind: _Kind
    value: object


class Runner(QObject):
    """Runs one job at a time off the window's thread.

    ``begun`` and ``ended`` frame every job, ``better`` carries what it reports on its way,
    ``answered`` its answer, and ``failed`` the error in which it ended.
    """

    begun = Signal()
    ended = Signal()
    better = Signal(object)
    answered = Signal(object)
    failed = Signal(object)
    _told = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(THREADS)
        self._asked = 0
        self._newest = 0
        self._stop = Event()
        self._told.connect(self._hear)

    @property
    def is_busy(self) -> bool:
        """Tell whether a job runs whose answer is still wanted."""
        return self._newest > 0

    def ask(self, work: Work) -> None:
        """Start a job; the former one is told to stop and is heard no more."""
        self._stop.set()
        self._stop = stop = Event()
        was_busy = self.is_busy
        self._asked += 1
        self._newest = job = self._asked
        self._pool.start(lambda: self._run(job, work, stop))
        if not was_busy:
            self.begun.emit()

    def stop(self) -> None:
        """Ask the job to end with the best it has; its answer is still heard."""
        self._stop.set()

    def finish(self) -> None:
        """Wait for the job without stopping it, and hear its answer now."""
        if self._pool.waitForDone(PATIENCE_MS):
            QCoreApplication.sendPostedEvents(self, QEvent.Type.MetaCall.value)

    def drop(self) -> None:
        """Ask the job to end, and hear no more of it: nobody wants its answer."""
        self._stop.set()
        if self.is_busy:
            self._newest = 0
            self.ended.emit()

    def close(self) -> bool:
        """Stop, and wait for the threads; tell whether they ended in time."""
        self._stop.set()
        self._newest = 0
        return self._pool.waitForDone(PATIENCE_MS)

    def _run(self, job: int, work: Work, stop: Event) -> None:
        def report(value: object) -> None:
            self._told.emit(_Told(job, _Kind.BETTER, value))

        try:
            told = _Told(job, _Kind.ANSWER, work(report, stop.is_set))
        except ArmorplanError as error:
            told = _Told(job, _Kind.FAILURE, error)
        except Exception as error:  # noqa: BLE001 - told to the person, never lost in a thread
            _LOG.exception("A job failed")
            told = _Told(job, _Kind.FAILURE, error)
        self._told.emit(told)

    def _hear(self, told: _Told) -> None:
        if told.job != self._newest:
            return
        if told.kind is _Kind.BETTER:
            self.better.emit(told.value)
            return
        self._newest = 0
        self.ended.emit()
        if told.kind is _Kind.ANSWER:
            self.answered.emit(told.value)
        else:
            self.failed.emit(told.value)
