"""Work done a piece a turn of the event loop, so that no turn is long."""

from collections.abc import Callable, Iterable

from PySide6.QtCore import QObject, QTimer

SETTLE_MS = 60
"""What comes thick and fast, such as turns of the wheel, is waited out so long."""


class Turns(QObject):
    """Does pieces of work one after the other, a turn each; new ones take the place of old."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._left: list[Callable[[], None]] = []
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._next)

    def do(self, works: Iterable[Callable[[], None]], *, after_ms: int = SETTLE_MS) -> None:
        """Do these once nothing new has come for a while."""
        self._left = list(works)
        self._timer.start(after_ms)

    def stop(self) -> None:
        """Leave undone what is left."""
        self._left = []
        self._timer.stop()

    @property
    def is_busy(self) -> bool:
        """Tell whether something is left to do."""
        return bool(self._left)

    def _next(self) -> None:
        if not self._left:
            return
        work = self._left.pop(0)
        work()
        if self._left:
            self._timer.start(0)
