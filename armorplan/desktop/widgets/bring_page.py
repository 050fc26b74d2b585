"""Bring in a drawing: the drawing at the left, question after question at the right."""

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.bring_desk import BringDesk
from armorplan.desktop.bring_kept import Begun
from armorplan.desktop.bring_view import BringView
from armorplan.desktop.widgets.alt_letters import AltLetters
from armorplan.desktop.widgets.bring_asking import BringAsking
from armorplan.desktop.widgets.bring_busy import BusyLine
from armorplan.desktop.widgets.bring_done import BringDone
from armorplan.desktop.widgets.bring_list import QuestionList, ToldList
from armorplan.desktop.widgets.bring_picture import BringPicture
from armorplan.desktop.widgets.bring_start import BringStart
from armorplan.desktop.widgets.new_folder import NewFolderDialog
from armorplan.desktop.widgets.open_asking import DRAWN, dropped_path
from armorplan.desktop.widgets.page_foot import fit_screen
from armorplan.desktop.widgets.way_back_lists import TARGET_PX
from armorplan.kernel.findings import Finding
from armorplan.pattern.parts import Point

_SIZE_PX = (1240, 800)
_SHARES_PX = (780, 440)


class BringPage(QWidget):
    """A window of its own beside the bench. ``left_for_bench``: the pattern is written, and done with."""

    left_for_bench = Signal()

    def __init__(self, desk: BringDesk, parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setObjectName("bring_page")
        self.setAcceptDrops(True)
        self._desk = desk
        self.start = BringStart(self)
        self.picture = BringPicture(self)
        self.asking, self.done = BringAsking(self), BringDone(self)
        self.list, self.told = QuestionList(self), ToldList(self)
        self.busy = BusyLine(self)
        self._tabs, self._turn = QTabWidget(self), QStackedWidget(self)
        self.write = QPushButton(self.tr("&Write the pattern …"), self)
        self.other = QPushButton(self.tr("An&other drawing …"), self)
        self._stack = QStackedWidget(self)
        self._lay_out()
        self._connect()
        AltLetters(self)
        fit_screen(self, *_SIZE_PX)

    # --- laying out ---------------------------------------------------------------------------

    def _lay_out(self) -> None:
        self.setWindowTitle(self.tr("Bring in a drawing"))
        self._tabs.setObjectName("bring_tabs")
        self._turn.addWidget(self.asking)
        self._turn.addWidget(self.done)
        for widget, title in (
            (self._turn, self.tr("&Question")),
            (self.list, self.tr("&All questions")),
            (self.told, self.tr("&Found")),
        ):
            self._tabs.addTab(widget, title)
        for button, name in ((self.write, "bring_write"), (self.other, "bring_other")):
            button.setObjectName(name)
            button.setMinimumHeight(TARGET_PX)
            button.setAutoDefault(False)
        across = QSplitter(Qt.Orientation.Horizontal, self)
        across.setChildrenCollapsible(False)
        across.addWidget(self.picture)
        across.addWidget(self._right())
        across.setStretchFactor(0, 3)
        across.setStretchFactor(1, 2)
        across.setSizes(list(_SHARES_PX))
        self._stack.addWidget(self.start)
        self._stack.addWidget(across)
        whole = QVBoxLayout(self)
        whole.addWidget(self._stack, 1)
        whole.addWidget(self.busy)

    def _right(self) -> QWidget:
        right = QWidget(self)
        down = QVBoxLayout(right)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self._tabs, 1)
        foot = QHBoxLayout()
        self.write.setToolTip(
            self.tr(
                "Write it into a folder, with what is suggested where nothing was answered, and "
                "lay it on the bench."
            )
        )
        foot.addWidget(self.write, 1)
        foot.addWidget(self.other)
        down.addLayout(foot)
        return right

    def _connect(self) -> None:
        desk, asking, picture = self._desk, self.asking, self.picture
        desk.shown.connect(self._show)
        desk.refused.connect(self._tell_refused)
        desk.said.connect(self.busy.say)
        desk.busy.connect(self.busy.show_busy)
        asking.answered.connect(desk.answer)
        asking.asked_back.connect(self._go_back)
        asking.asked_sure.connect(desk.take_sure)
        asking.turned.connect(self._light)
        picture.kind_said.connect(desk.say_kind)
        picture.said.connect(self.busy.say)
        picture.fact_said.connect(desk.say_fact)
        picture.shape.measured.connect(self._measure)
        self.list.picked.connect(self._look_again)
        self.told.picked.connect(self._show_found)
        self.busy.stopped.connect(self._stop)
        self.start.asked.connect(self.ask_file)
        self.start.resumed.connect(self.open)
        self.start.dropped.connect(self._forget)
        for key, do in (
            ("Z", picture.near.toggle),
            ("F6", self._cross),
            ("Esc", self._leave),
            ("Ctrl+W", self.close),
        ):
            QShortcut(QKeySequence(key), self).activated.connect(do)
        self._tabs.currentChanged.connect(self._open_list)
        self.done.asked_write.connect(self.ask_folder)
        self.done.asked_bench.connect(self.left_for_bench)
        self.done.asked_back.connect(self._go_back)
        self.done.asked_list.connect(lambda: self._tabs.setCurrentWidget(self.list))
        desk.wrote.connect(self._show_written)
        self.write.clicked.connect(self.ask_folder)
        self.other.clicked.connect(self.ask_file)

    # --- opening ------------------------------------------------------------------------------

    def begin(self) -> None:
        """Show what is in hand, else where to begin."""
        if not self._desk.is_open and not self._desk.is_busy:
            self.start.show_begun(self._desk.begun())
            self._stack.setCurrentWidget(self.start)

    def ask_file(self) -> None:
        """Ask for a drawing, and read it."""
        kinds = self.tr("Drawings (*.svg *.SVG *.dxf *.DXF);;All files (*)")
        file, _ = QFileDialog.getOpenFileName(self, self.tr("Bring in a drawing"), "", kinds)
        if file:
            self.open(Begun(file=Path(file)))

    def open(self, begun: Begun) -> None:
        """Read a drawing, with the answers that were given before."""
        self.start.say("")
        self.busy.say("")
        self.asking.begin()
        self._desk.open(begun)

    def _forget(self) -> None:
        self._desk.forget()
        self.begin()

    def _stop(self) -> None:
        self._desk.stop()
        self.begin()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        path = dropped_path(event.mimeData())
        if path is not None and path.suffix.lower() in DRAWN:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        path = dropped_path(event.mimeData())
        if path is not None:
            event.acceptProposedAction()
            self.open(Begun(file=path))

    # --- showing ------------------------------------------------------------------------------

    def _show(self, view: BringView) -> None:
        was_start = self._stack.currentWidget() is self.start
        self._stack.setCurrentIndex(1)
        self.setWindowTitle(self.tr("Bring in {0}").format(self._desk.file.name))
        self.picture.show_view(self._desk.file.name, view)
        self.list.show_questions(view.questions)
        findings = (*view.bringing.drawing.findings, *view.found.findings)
        self.told.show_findings(findings)
        self._tabs.setTabText(2, self.tr("&Found ({0})").format(len(findings)))
        self.busy.say("")
        self.asking.show_questions(view.questions)
        is_done = view.is_whole and self.asking.is_done
        if is_done:
            self.done.show_ready(len(view.questions))
        self._show_turn(self.done if is_done else self.asking)
        if was_start:
            self._take_keys()

    def _show_turn(self, wanted: QWidget) -> None:
        """Show the question, or what comes after all of them; keys that were here stay here."""
        had_keys = self._turn.isAncestorOf(self.focusWidget() or self.picture)
        self._turn.setCurrentWidget(wanted)
        if had_keys:
            self._take_keys()

    def _take_keys(self) -> None:
        """Give the keys to what is asked now."""
        is_asked = self._turn.currentWidget() is self.asking
        (self.asking.answers if is_asked else self.done.main).setFocus()

    def _show_written(self, folder: Path, left_open: tuple[str, ...]) -> None:
        """Say what has come of it, and how to go on."""
        self.busy.say("")
        self.done.show_written(folder, left_open)
        self._tabs.setCurrentWidget(self._turn)
        self._turn.setCurrentWidget(self.done)
        self._take_keys()

    def _open_list(self, at: int) -> None:
        """The list of all questions opens at the one in hand."""
        if self._tabs.widget(at) is self.list and self.asking.question is not None:
            self.list.show_at(self.asking.question.id)
            self.list.setFocus()

    def _light(self) -> None:
        """Light what the question in hand is about; of rows lay one on the other."""
        question = self.asking.question
        if question is not None and self._desk.view is not None:
            self.picture.ask(question, self.asking.answers.key())

    def _leave(self) -> None:
        """Go out of a field; else close: what was answered is kept."""
        if self.asking.foot.typed.hasFocus():
            self.asking.answers.setFocus()
        elif not self.picture.leave():
            self.close()

    def _cross(self) -> None:
        """Go from the question to the drawing, or back."""
        self._tabs.setCurrentWidget(self._turn)
        if self.picture.canvas.hasFocus():
            self._take_keys()
        else:
            self.picture.canvas.setFocus(Qt.FocusReason.TabFocusReason)

    def _look_again(self, question_id: str) -> None:
        self._turn.setCurrentWidget(self.asking)
        self.asking.go(question_id)
        self._tabs.setCurrentWidget(self._turn)
        self.asking.answers.setFocus()

    def _show_found(self, finding: Finding) -> None:
        self.picture.light(finding.about, None)

    # --- saying -------------------------------------------------------------------------------

    def _measure(self, one: Point, other: Point, true_mm: float) -> None:
        if self._desk.say_length(one, other, true_mm):
            self.asking.answers.setFocus()
        else:
            self.busy.say(
                self.tr("The two points are one and the same. Choose two that lie apart.")
            )

    def _go_back(self) -> None:
        if self._desk.can_go_back:
            self._show_turn(self.asking)
            self.asking.go(self._desk.go_back())
        else:
            self.busy.say(self.tr("Nothing was answered yet that could be taken back."))

    def _tell_refused(self, findings: tuple[Finding, ...]) -> None:
        first = findings[0]
        place = f" ({first.place})" if first.place else ""
        told = f"{first.text} {first.remedy}{place}"
        self.start.say(told)
        self.busy.say(told if self._desk.is_open else "")
        if len(findings) > 1 and self._desk.is_open:
            self.told.show_findings(findings)
            self._tabs.setCurrentWidget(self.told)
        self.begin()

    # --- writing ------------------------------------------------------------------------------

    def ask_folder(self) -> None:
        """Ask what the pattern is called and where it is to be kept; write it there."""
        title = self._desk.view.title if self._desk.view else ""
        asked = NewFolderDialog(self.tr("Write the pattern"), title, self)
        if asked.exec() and asked.place is not None:
            self._desk.write(asked.place, asked.chosen_name)
