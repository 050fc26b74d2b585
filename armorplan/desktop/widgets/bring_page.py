"""Bring in a drawing: the drawing at the left, question after question at the right."""

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QFileDialog,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.bring_desk import BringDesk
from armorplan.desktop.bring_kept import Begun
from armorplan.desktop.bring_view import BringView
from armorplan.desktop.widgets.alt_letters import AltLetters
from armorplan.desktop.widgets.bring_busy import BusyLine
from armorplan.desktop.widgets.bring_picture import BringPicture
from armorplan.desktop.widgets.bring_side import BringSide
from armorplan.desktop.widgets.bring_start import BringStart
from armorplan.desktop.widgets.new_folder import NewFolderDialog
from armorplan.desktop.widgets.open_asking import DRAWN, dropped_path
from armorplan.desktop.widgets.page_foot import fit_screen
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
        self.side = BringSide(self)
        self.busy = BusyLine(self)
        self._stack = QStackedWidget(self)
        self._lay_out()
        self._connect()
        AltLetters(self)
        fit_screen(self, *_SIZE_PX)

    # --- laying out ---------------------------------------------------------------------------

    def _lay_out(self) -> None:
        self.setWindowTitle(self.tr("Bring in a drawing"))
        across = QSplitter(Qt.Orientation.Horizontal, self)
        across.setChildrenCollapsible(False)
        across.addWidget(self.picture)
        across.addWidget(self.side)
        across.setStretchFactor(0, 3)
        across.setStretchFactor(1, 2)
        across.setSizes(list(_SHARES_PX))
        self._stack.addWidget(self.start)
        self._stack.addWidget(across)
        whole = QVBoxLayout(self)
        whole.addWidget(self._stack, 1)
        whole.addWidget(self.busy)

    def _connect(self) -> None:
        desk, side, picture = self._desk, self.side, self.picture
        asking, done = side.asking, side.done
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
        side.told.picked.connect(self._show_found)
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
        done.asked_write.connect(self.ask_folder)
        done.asked_bench.connect(self.left_for_bench)
        done.asked_back.connect(self._go_back)
        desk.wrote.connect(self._show_written)
        side.write.clicked.connect(self.ask_folder)
        side.other.clicked.connect(self.ask_file)

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
        self.side.asking.begin()
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
        self.busy.say("")
        self.side.show_view(view)
        if was_start:
            self.side.take_keys()

    def _show_written(self, folder: Path, left_open: tuple[str, ...]) -> None:
        """Say what has come of it, and how to go on."""
        self.busy.say("")
        self.side.show_written(folder, left_open)

    def _light(self) -> None:
        """Light what the question in hand is about; of rows lay one on the other."""
        question = self.side.asking.question
        if question is not None and self._desk.view is not None:
            self.picture.ask(question, self.side.asking.answers.key())

    def _leave(self) -> None:
        """Go out of a field; else close: what was answered is kept."""
        if self.side.asking.foot.typed.hasFocus():
            self.side.asking.answers.setFocus()
        elif not self.picture.leave():
            self.close()

    def _cross(self) -> None:
        """Go from the question to the drawing, or back."""
        if self.picture.canvas.hasFocus():
            self.side.take_keys()
        else:
            self.picture.canvas.setFocus(Qt.FocusReason.TabFocusReason)

    def _show_found(self, finding: Finding) -> None:
        self.picture.light(finding.about, None)

    # --- saying -------------------------------------------------------------------------------

    def _measure(self, one: Point, other: Point, true_mm: float) -> None:
        if self._desk.say_length(one, other, true_mm):
            self.side.take_keys()
        else:
            self.busy.say(
                self.tr("The two points are one and the same. Choose two that lie apart.")
            )

    def _go_back(self) -> None:
        if self._desk.can_go_back:
            self.side.ask(self._desk.go_back())
        else:
            self.busy.say(self.tr("Nothing was answered yet that could be taken back."))

    def _tell_refused(self, findings: tuple[Finding, ...]) -> None:
        first = findings[0]
        place = f" ({first.place})" if first.place else ""
        told = f"{first.text} {first.remedy}{place}"
        self.start.say(told)
        self.busy.say(told if self._desk.is_open else "")
        if len(findings) > 1 and self._desk.is_open:
            self.side.show_refused(findings)
        self.begin()

    # --- writing ------------------------------------------------------------------------------

    def ask_folder(self) -> None:
        """Ask what the pattern is called and where it is to be kept; write it there."""
        title = self._desk.view.title if self._desk.view else ""
        asked = NewFolderDialog(self.tr("Write the pattern"), title, self)
        if asked.exec() and asked.place is not None:
            self._desk.write(asked.place, asked.chosen_name)
