"""Bring in a drawing: the drawing at the left, question after question at the right."""

from pathlib import Path

from PySide6.QtCore import QDir, Qt
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QInputDialog,
    QLineEdit,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.drafting import copy_place
from armorplan.desktop.bring_desk import BringDesk
from armorplan.desktop.bring_kept import Begun
from armorplan.desktop.bring_view import BringView, ghost_for, lit_by
from armorplan.desktop.widgets.alt_letters import AltLetters
from armorplan.desktop.widgets.bring_asking import BringAsking
from armorplan.desktop.widgets.bring_busy import BusyLine
from armorplan.desktop.widgets.bring_list import QuestionList, ToldList
from armorplan.desktop.widgets.bring_picture import BringPicture
from armorplan.desktop.widgets.bring_start import BringStart
from armorplan.desktop.widgets.open_asking import DRAWN, dropped_path
from armorplan.desktop.widgets.page_foot import fit_screen
from armorplan.desktop.widgets.way_back_lists import TARGET_PX
from armorplan.files.bare_pattern import plain_id
from armorplan.kernel.findings import Finding
from armorplan.pattern.parts import Point

_SIZE_PX = (1240, 800)
_SHARES_PX = (780, 440)


class BringPage(QWidget):
    """A window of its own beside the bench."""

    def __init__(self, desk: BringDesk, parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setObjectName("bring_page")
        self.setAcceptDrops(True)
        self._desk = desk
        self.start = BringStart(self)
        self.picture = BringPicture(self)
        self.asking = BringAsking(self)
        self.list, self.told = QuestionList(self), ToldList(self)
        self.busy = BusyLine(self)
        self._tabs = QTabWidget(self)
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
        for widget, title in (
            (self.asking, self.tr("&Question")),
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
        picture.shape.named.connect(desk.say_name)
        picture.shape.measured.connect(self._measure)
        self.list.picked.connect(self._look_again)
        self.told.picked.connect(self._show_found)
        self.busy.stopped.connect(self._stop)
        self.start.asked.connect(self.ask_file)
        self.start.resumed.connect(self.open)
        self.start.dropped.connect(self._forget)
        QShortcut(QKeySequence("Z"), self).activated.connect(picture.near.toggle)
        QShortcut(QKeySequence("F6"), self).activated.connect(self._cross)
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
        if all(one.answer is not None for one in view.questions):
            self.busy.say(self.tr("All is answered: write the pattern."))
            self.write.setFocus()
        elif was_start:
            self.asking.answers.setFocus()

    def _light(self) -> None:
        """Light what the question in hand is about; of a match show the one that is in hand."""
        question, view = self.asking.question, self._desk.view
        if question is None or view is None:
            return
        key = self.asking.answers.key()
        self.picture.light(lit_by(question, key), ghost_for(question, key, view))

    def _cross(self) -> None:
        """Go from the question to the drawing, or back."""
        self._tabs.setCurrentWidget(self.asking)
        is_there = self.picture.canvas.hasFocus()
        (self.asking.answers if is_there else self.picture.canvas).setFocus(
            Qt.FocusReason.TabFocusReason
        )

    def _look_again(self, question_id: str) -> None:
        self.asking.go(question_id)
        self._tabs.setCurrentWidget(self.asking)
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
        """Ask what the pattern is called and where it is to be kept; write it in a folder of its own."""
        title = self._desk.view.title if self._desk.view else ""
        asks = self.tr("Write the pattern")
        name, is_meant = QInputDialog.getText(
            self, asks, self.tr("What is the pattern called?"), QLineEdit.EchoMode.Normal, title
        )
        if not is_meant:
            return
        asks = self.tr("Choose the folder to keep the pattern in")
        if folder := QFileDialog.getExistingDirectory(self, asks, QDir.homePath()):
            slug = plain_id((name.strip() or title).lower(), (), otherwise="pattern")
            self._desk.write(copy_place(Path(folder), slug), name.strip())
