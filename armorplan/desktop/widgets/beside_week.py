"""The checklist is narrower beside the week, which is wide; it is as wide as before beside the rest."""

from PySide6.QtCore import QByteArray
from PySide6.QtWidgets import QSplitter

from armorplan.desktop.widgets.deck import Deck

LIST_PCT = 30
"""So much of the width the list keeps beside the week, or as much as its rows need at least."""


class BesideWeek:
    """Moves the bar between list and pictures; where it was drawn by hand meanwhile it stays."""

    def __init__(self, split: QSplitter, deck: Deck) -> None:
        self._split = split
        self._deck = deck
        self._before: QByteArray | None = None
        split.splitterMoved.connect(self._keep)

    def look(self) -> None:
        """Make the list narrow where the week has come into sight, and wide where it has gone."""
        is_week = self._deck.is_week and self._deck.isVisible()
        if is_week and self._before is None:
            self._before = self._split.saveState()
            whole = sum(self._split.sizes())
            narrow = min(self._split.sizes()[0], whole * LIST_PCT // 100)
            self._split.setSizes([narrow, whole - narrow])
        elif not is_week and self._before is not None:
            before, self._before = self._before, None
            if not before.isEmpty():
                self._split.restoreState(before)

    def usual(self) -> QByteArray:
        """Return the shares to be kept: those beside the other pictures."""
        return self._before or self._split.saveState()

    def _keep(self) -> None:
        """Leave the bar where it was drawn by hand."""
        if self._before is not None:
            self._before = QByteArray()
