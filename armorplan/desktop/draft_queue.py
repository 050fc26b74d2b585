"""Edits of a draft that wait their turn: each is made off the window's thread, and none is lost."""

from collections import deque
from collections.abc import Callable
from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from armorplan.app.draft import Draft, Refused, refused
from armorplan.desktop.jobs import Runner

Edit = Callable[[Draft], Draft | Refused]


class Waiting(NamedTuple):
    """An edit that is to be made; ``about`` comes back with its refusal."""

    edit: Edit
    text: str
    about: object
    is_hasty: bool

    def made(self, draft: Draft) -> Draft | Refused:
        """Return what becomes of a draft; what follows from it may be left for later."""
        return self.edit(draft.in_haste() if self.is_hasty else draft.checked())


class _Then(NamedTuple):
    """What is done once the edits before it are made; it is quick."""

    act: Callable[[], None]


class EditQueue(QObject):
    """Makes one edit after the other of the draft that stands then; ``made`` carries what came of it."""

    made = Signal(object, object)

    def __init__(self, draft: Callable[[], Draft], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._draft = draft
        self._waiting: deque[Waiting | _Then] = deque()
        self._in_work: Waiting | None = None
        self._checker = Runner(self)
        self._checker.answered.connect(self._take)
        self._checker.failed.connect(self._fail)

    @property
    def is_busy(self) -> bool:
        """Whether something waits or is under way."""
        return bool(self._waiting or self._in_work)

    def add(self, waiting: Waiting) -> None:
        """Make an edit once those before it are made."""
        self._waiting.append(waiting)
        self._next()

    def then(self, act: Callable[[], None]) -> None:
        """Do something behind the edits that wait by now; at once where none is under way."""
        self._waiting.append(_Then(act))
        self._next()

    def drop(self) -> None:
        """Forget all that waits or is under way."""
        self._checker.drop()
        self._in_work = None
        self._waiting.clear()

    def settle(self) -> None:
        """Make all that waits now, in this thread, which may take long."""
        if self._in_work is not None:
            self._checker.close()
            self._waiting.appendleft(self._in_work)
            self._in_work = None
        while self._waiting:
            waiting = self._waiting.popleft()
            if isinstance(waiting, _Then):
                waiting.act()
            else:
                self.made.emit(waiting, waiting.made(self._draft()))

    def close(self) -> bool:
        """Wait for what runs; tell whether it ended in time."""
        return self._checker.close()

    def _next(self) -> None:
        while self._in_work is None and self._waiting:
            waiting = self._waiting.popleft()
            if isinstance(waiting, _Then):
                waiting.act()
            else:
                self._begin(waiting)

    def _begin(self, waiting: Waiting) -> None:
        self._in_work, draft = waiting, self._draft()
        self._checker.ask(lambda _report, _should_stop: waiting.made(draft))

    def _take(self, result: Draft | Refused) -> None:
        waiting, self._in_work = self._in_work, None
        if waiting is not None:
            self.made.emit(waiting, result)
        self._next()

    def _fail(self, error: Exception) -> None:
        self._take(refused(str(error), self.tr("Nothing was changed."), code="not-checked"))
