"""The right of the bring-in window: the question in hand, all of them, what was found, and the way out."""

from pathlib import Path

from PySide6.QtWidgets import (
    QHBoxLayout,
    QPushButton,
    QStackedWidget,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.bring_view import BringView
from armorplan.desktop.widgets.bring_asking import BringAsking
from armorplan.desktop.widgets.bring_done import BringDone
from armorplan.desktop.widgets.bring_list import QuestionList, ToldList
from armorplan.desktop.widgets.way_back_lists import TARGET_PX
from armorplan.kernel.findings import Finding


class BringSide(QWidget):
    """Its widgets say what is asked for. Once all is answered ``done`` stands in place of ``asking``."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_side")
        self.asking, self.done = BringAsking(self), BringDone(self)
        self.list, self.told = QuestionList(self), ToldList(self)
        self.tabs, self._turn = QTabWidget(self), QStackedWidget(self)
        self.write = QPushButton(self.tr("&Write the pattern …"), self)
        self.other = QPushButton(self.tr("An&other drawing …"), self)
        self._lay_out()
        self.list.picked.connect(self._look_again)
        self.done.asked_list.connect(lambda: self.tabs.setCurrentWidget(self.list))
        self.tabs.currentChanged.connect(self._open_list)

    def _lay_out(self) -> None:
        self.tabs.setObjectName("bring_tabs")
        self._turn.addWidget(self.asking)
        self._turn.addWidget(self.done)
        for widget, title in (
            (self._turn, self.tr("&Question")),
            (self.list, self.tr("&All questions")),
            (self.told, self.tr("&Found")),
        ):
            self.tabs.addTab(widget, title)
        for button, name in ((self.write, "bring_write"), (self.other, "bring_other")):
            button.setObjectName(name)
            button.setMinimumHeight(TARGET_PX)
            button.setAutoDefault(False)
        self.write.setToolTip(
            self.tr(
                "Write it into a folder, with what is suggested where nothing was answered, and "
                "lay it on the bench."
            )
        )
        foot = QHBoxLayout()
        foot.addWidget(self.write, 1)
        foot.addWidget(self.other)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self.tabs, 1)
        down.addLayout(foot)

    # --- what is shown ------------------------------------------------------------------------

    def show_view(self, view: BringView) -> None:
        """Show what is asked now; where all is answered, that it can be written."""
        self.list.show_questions(view.questions)
        findings = (*view.bringing.drawing.findings, *view.found.findings)
        self.told.show_findings(findings)
        self.tabs.setTabText(2, self.tr("&Found ({0})").format(len(findings)))
        self.asking.show_questions(view.questions)
        is_done = view.is_whole and self.asking.is_done
        if is_done:
            self.done.show_ready(len(view.questions))
        self._show_turn(self.done if is_done else self.asking)

    def show_written(self, folder: Path, left_open: tuple[str, ...]) -> None:
        """Say what has come of it, and how to go on."""
        self.done.show_written(folder, left_open)
        self._turn.setCurrentWidget(self.done)
        self.take_keys()

    def show_refused(self, findings: tuple[Finding, ...]) -> None:
        """Show why something was refused."""
        self.told.show_findings(findings)
        self.tabs.setCurrentWidget(self.told)

    def _show_turn(self, wanted: QWidget) -> None:
        """Show the question, or what comes after all of them; keys that were here stay here."""
        held = self.window().focusWidget()
        had_keys = self._turn.isAncestorOf(held)
        self._turn.setCurrentWidget(wanted)
        if had_keys:
            self.take_keys()

    def take_keys(self) -> None:
        """Bring what is asked now to the front, and give it the keys."""
        self.tabs.setCurrentWidget(self._turn)
        is_asked = self._turn.currentWidget() is self.asking
        (self.asking.answers if is_asked else self.done.main).setFocus()

    def ask(self, question_id: str) -> None:
        """Show a question, answered or not."""
        self._show_turn(self.asking)
        self.asking.go(question_id)

    def _look_again(self, question_id: str) -> None:
        self.ask(question_id)
        self.take_keys()

    def _open_list(self, at: int) -> None:
        """The list of all questions opens at the one in hand."""
        if self.tabs.widget(at) is self.list and self.asking.question is not None:
            self.list.show_at(self.asking.question.id)
            self.list.setFocus()
