"""The checklist with its filters."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QToolButton, QVBoxLayout, QWidget

from armorplan.app.rows import BenchState, ChecklistRow, Grouping
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.checklist_rows import shown_rows
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.checklist_view import ChecklistView
from armorplan.desktop.widgets.heading_line import HeadingLine
from armorplan.desktop.widgets.note_line import NoteLine
from armorplan.desktop.widgets.row_acts import RowActs
from armorplan.desktop.widgets.turned_away import is_turned_away

LEAST_WIDE_PX = 320


class FindLine(QLineEdit):
    """Filters by words; Escape empties it."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.clear()
        else:
            super().keyPressEvent(event)


class ChecklistPanel(QWidget):
    """Shows the checklist of the bridge's build; ``acts`` is what one does to the chosen row."""

    def __init__(self, bridge: Bridge, ticker: Ticker, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("checklist_panel")
        self._bridge = bridge
        self._ticker = ticker
        self._grouping = Grouping.PIECE
        self._ready_only = self._is_stale = False
        self._all: tuple[ChecklistRow, ...] = ()
        self._rows: dict[str, ChecklistRow] = {}
        self.view = ChecklistView(bridge, self)
        self.words = FindLine(self)
        self._headings = HeadingLine(self.view, self)
        self._nothing = QLabel(self)
        self._note = NoteLine(bridge, self.view, self)
        self.acts = RowActs(bridge, self.view, self._note, self._state)
        self.acts.hidden.connect(self.words.clear)
        self._lay_out()
        self.words.textChanged.connect(self._filter)
        self.words.returnPressed.connect(self.view.setFocus)
        ticker.ticked.connect(self._repaint_timers)
        bridge.changed.connect(self.refresh)
        self.refresh()

    def _lay_out(self) -> None:
        self.words.setObjectName("find_words")
        self.words.setClearButtonEnabled(True)
        self.words.setPlaceholderText(self.tr("Find words (Ctrl+F)"))
        self.words.setAccessibleName(self.tr("Find words in the checklist"))
        for button in self.words.findChildren(QToolButton):
            button.setAccessibleName(self.tr("Show all steps"))
        self._nothing.setObjectName("nothing_shown")
        self._nothing.setWordWrap(True)
        self._nothing.setAlignment(Qt.AlignmentFlag.AlignCenter)
        QVBoxLayout(self.view.viewport()).addWidget(self._nothing)
        self.setMinimumWidth(LEAST_WIDE_PX)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        above = QHBoxLayout()
        above.setContentsMargins(6, 2, 2, 2)
        above.addWidget(self.words)
        down.addLayout(above)
        down.addWidget(self._headings)
        down.addWidget(self.view, 1)
        down.addWidget(self._note)

    def refresh(self) -> None:
        """Read the rows again; out of sight, once it is in sight again."""
        self._is_stale = is_turned_away(self)
        if self._is_stale:
            return
        rows = self._bridge.session.checklist(self._grouping)
        self._all = rows
        self._rows = {row.id: row for row in rows}
        self._filter()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._is_stale:
            self.refresh()
            self.view.follow(self._bridge.selection)

    def _filter(self) -> None:
        """Show of the rows last read what passes the filters."""
        words = self.words.text()
        shown = shown_rows(self._all, ready_only=self._ready_only, words=words)
        self.view.show_rows(shown, open_all=self._ready_only or bool(words.strip()))
        self._headings.show_rows(shown)
        self._nothing.setVisible(not shown)
        self._nothing.setText(self._why_empty(words))

    def _why_empty(self, words: str) -> str:
        if words.strip():
            return self.tr("No step has all these words: {0}. Escape shows all.").format(words)
        if self._ready_only:
            return self.tr("Nothing can be worked on now. Ctrl+R shows all steps.")
        return self.tr("This build has no steps.")

    def set_grouping(self, grouping: Grouping) -> None:
        """Group by piece or by day."""
        self._grouping = grouping
        self.refresh()

    def set_ready_only(self, ready_only: bool) -> None:
        """Show only what can be worked on now, or everything."""
        self._ready_only = ready_only
        self._filter()

    def _state(self, step: str) -> BenchState:
        return self._rows[step].state

    def _repaint_timers(self) -> None:
        self.view.repaint_timers(self._ticker.rows)
