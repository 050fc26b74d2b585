"""What was found in the pattern on the drawing table; choosing a line shows the place."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from armorplan.desktop.shapes_words import standing_sign, standing_word
from armorplan.kernel.findings import Finding, Severity, gravest_first

LINES = 4


class TableFindings(QWidget):
    """A line a finding, the gravest first; ``pointed`` carries the one that has the keyboard."""

    pointed = Signal(object)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("table_findings")
        self._shown: tuple[Finding, ...] = ()
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
            self.list.setCurrentRow(min(kept, self.list.count() - 1))
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
        """Go to the next finding, and give the list the keyboard."""
        count = self.list.count()
        if count:
            self.list.setFocus()
            self.list.setCurrentRow((self.list.currentRow() + 1) % count)

    def _point(self, item: QListWidgetItem | None) -> None:
        finding = item.data(Qt.ItemDataRole.UserRole) if item is not None else None
        if finding is not None:
            self.pointed.emit(finding)


def _worded(finding: Finding) -> str:
    sign = standing_sign(finding.severity.value)
    return f"{sign} {standing_word(finding.severity.value)}: {finding.text} {finding.remedy}"
