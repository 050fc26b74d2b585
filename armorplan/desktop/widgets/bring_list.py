"""All questions about a drawing at one look, what holds of each, and what was told of the file."""

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from armorplan.app.bringing.model import Question
from armorplan.desktop.bring_words import answer_words, state_of
from armorplan.desktop.shapes_words import standing_sign
from armorplan.desktop.widgets.way_back_lists import TARGET_PX, TallRows
from armorplan.kernel.findings import Finding, gravest_first


class _Rows(QListWidget):
    def __init__(self, name: str, spoken: str, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self.setAccessibleName(spoken)
        self.setWordWrap(True)
        self.setAlternatingRowColors(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.setVerticalScrollMode(QListWidget.ScrollMode.ScrollPerPixel)


class QuestionList(_Rows):
    """``picked`` carries the id of a question that is to be looked at again."""

    picked = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("bring_questions", self.tr("All questions"), parent)
        self.setItemDelegate(TallRows(TARGET_PX, self))
        self.itemActivated.connect(self._pick)
        self.itemClicked.connect(self._pick)

    def show_questions(self, questions: tuple[Question, ...]) -> None:
        """Show them in their order, each with its state and what holds."""
        at = self.currentRow()
        with QSignalBlocker(self):
            self.clear()
            for question in questions:
                first = question.text.split("\n")[0]
                text = f"{state_of(question)}: {first}\n    → {answer_words(question)}"
                item = QListWidgetItem(text, self)
                item.setData(Qt.ItemDataRole.UserRole, question.id)
            self.setCurrentRow(min(max(at, 0), self.count() - 1))

    def show_at(self, question_id: str) -> None:
        """Have a question in hand, in view."""
        for row in range(self.count()):
            if self.item(row).data(Qt.ItemDataRole.UserRole) == question_id:
                self.setCurrentRow(row)
                self.scrollToItem(self.item(row), QListWidget.ScrollHint.PositionAtCenter)

    def _pick(self, item: QListWidgetItem) -> None:
        self.picked.emit(str(item.data(Qt.ItemDataRole.UserRole)))


class ToldList(_Rows):
    """What was found in the file: what was left out, is open, or crosses itself.

    ``picked`` carries the finding in hand.
    """

    picked = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("bring_told", self.tr("What was found in the drawing"), parent)
        self.currentItemChanged.connect(self._pick)

    def show_findings(self, findings: tuple[Finding, ...]) -> None:
        """Show findings, the gravest first."""
        with QSignalBlocker(self):
            self.clear()
            for finding in gravest_first(findings):
                sign = standing_sign(finding.severity.value)
                place = f"  ({finding.place})" if finding.place else ""
                text = f"{sign} {finding.severity.value}: {finding.text} {finding.remedy}{place}"
                item = QListWidgetItem(text, self)
                item.setData(Qt.ItemDataRole.UserRole, finding)

    def _pick(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self.picked.emit(item.data(Qt.ItemDataRole.UserRole))
