"""What was found in the pattern on the drawing table; choosing a line shows the place."""

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLabel, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from armorplan.desktop.shapes_words import standing_sign, standing_word
from armorplan.desktop.widgets.announcing import announce
from armorplan.kernel.findings import Finding, Severity, gravest_first

LINES = 4
_LIST_KEYS = (Qt.Key.Key_N, Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape)


class TableFindings(QWidget):
    """A line a finding, the gravest first; ``pointed`` carries the one that is gone to.

    ``left`` says that the drawing shall have the keyboard again.
    """

    pointed = Signal(object)
    left = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("table_findings")
        self._shown: tuple[Finding, ...] = ()
        self._hand: Finding | None = None
        """The one that was gone to last."""
        self._is_tight = False
        self._head = QLabel(self)
        self._head.setObjectName("table_findings_head")
        self.list = QListWidget(self)
        self.list.setObjectName("table_findings_list")
        self.list.setAccessibleName(self.tr("Findings"))
        self.list.setWordWrap(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(2)
        down.addWidget(self._head)
        down.addWidget(self.list)
        self.list.currentItemChanged.connect(self._point)
        self.list.itemClicked.connect(self._point)
        self.list.installEventFilter(self)

    def show_findings(self, findings: tuple[Finding, ...], *, is_checking: bool) -> None:
        """Show these, and whether more may come; the chosen line stays chosen."""
        self._head.setText(self._counted(findings, is_checking=is_checking))
        if findings != self._shown:
            kept = self.list.currentRow()
            self._shown = findings
            self.list.blockSignals(True)
            self.list.clear()
            for finding in gravest_first(findings):
                item = QListWidgetItem(_worded(finding), self.list)
                item.setData(Qt.ItemDataRole.UserRole, finding)
            rows = [at for at in range(self.list.count()) if self._at(at) == self._hand]
            self._hand = self._hand if rows else None
            self.list.setCurrentRow(rows[0] if rows else min(kept, self.list.count() - 1))
            self.list.blockSignals(False)
        self._show_list()
        lines = min(max(len(findings), 1) * 2, LINES)
        self.list.setFixedHeight(lines * self.fontMetrics().lineSpacing() + 8)

    def make_room(self, *, is_tight: bool) -> None:
        """Keep only the heading while something else needs the room."""
        self._is_tight = is_tight
        self._show_list()

    def _show_list(self) -> None:
        self.list.setVisible(bool(self._shown) and not self._is_tight)

    def _counted(self, findings: tuple[Finding, ...], *, is_checking: bool) -> str:
        counts = {one: sum(1 for f in findings if f.severity is one) for one in Severity}
        told = [
            f"{standing_sign(one.value)} {standing_word(one.value)}: {counts[one]}"
            for one in Severity
            if counts[one]
        ]
        if is_checking:
            told.append(self.tr("what follows is being reckoned …"))
        return self.tr("Found – {0}").format(", ".join(told) or self.tr("all is well"))

    def go(self) -> None:
        """Go to the next finding, first to the first; the keyboard stays where it is.

        Where the last one is mended by now, the next is the one that took its line.
        """
        count = self.list.count()
        if not count:
            return
        at = self.list.currentRow()
        at = max(at, 0) if self._hand is None else (at + 1) % count
        self.list.blockSignals(True)
        self.list.setCurrentRow(at)
        self.list.blockSignals(False)
        item = self.list.item(at)
        self.list.scrollToItem(item)
        self._point(item)
        announce(self, item.text())

    def _at(self, row: int) -> Finding:
        found: Finding = self.list.item(row).data(Qt.ItemDataRole.UserRole)
        return found

    def _point(self, item: QListWidgetItem | None) -> None:
        finding = item.data(Qt.ItemDataRole.UserRole) if item is not None else None
        if finding is not None:
            self._hand = finding
            self.pointed.emit(finding)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """In the list N goes on as in the drawing, and Enter or Escape goes back to the drawing."""
        if (
            watched is self.list
            and isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.KeyPress
            and event.key() in _LIST_KEYS
        ):
            self._press(event.key())
            return True
        return super().eventFilter(watched, event)

    def _press(self, key: int) -> None:
        if key == Qt.Key.Key_N:
            self.go()
        else:
            self.left.emit()


def _worded(finding: Finding) -> str:
    sign = standing_sign(finding.severity.value)
    return f"{sign} {standing_word(finding.severity.value)}: {finding.text} {finding.remedy}"
