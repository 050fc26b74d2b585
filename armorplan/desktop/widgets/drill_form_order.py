"""Putting steps in order: a list whose rows are moved, and a right order beside it when asked."""

from PySide6.QtCore import QSignalBlocker
from PySide6.QtGui import QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from armorplan.desktop.drill_form_words import (
    broken_at,
    choice_of_letter,
    letters,
    moved_words,
    order_notes,
)
from armorplan.desktop.drill_order_model import DrillOrderModel
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.drill_form import DrillForm
from armorplan.desktop.widgets.drill_form_list import OrderList
from armorplan.practice.drill import Answer, Drill, Judged

NEAREST_KEY = "Ctrl+E"
BESIDE_EMS = 96
"""In a form wider than so many letters a right order has room beside the answer."""


class OrderForm(DrillForm):
    """Its answer is all steps in the order in which they lie."""

    def __init__(self, drill: Drill, parent: QWidget | None = None) -> None:
        super().__init__(drill, parent)
        self.setObjectName("drill_order_form")
        self._letters = letters(drill)
        self.steps = DrillOrderModel(drill, self)
        self.list = OrderList(self.steps, self)
        self.list.setObjectName("drill_order")
        self.list.setAccessibleName(self.tr("Your order; Alt with Up and Down moves a step"))
        self.up = QPushButton(self.tr("Earlier"), self)
        self.down = QPushButton(self.tr("Later"), self)
        self.ask_nearest = QPushButton(self.tr("Show a right order"), self)
        self._right = DrillOrderModel(drill, self)
        self._right.is_editable = False
        self._other = QWidget(self)
        self.nearest = OrderList(self._right, self._other)
        self._lay_out()
        self._connect()
        self.show_answer(self.steps.order(), editable=True)

    def _lay_out(self) -> None:
        self.up.setObjectName("drill_order_up")
        self.up.setToolTip(self.tr("Move the step in hand one place up: Alt+Up"))
        self.down.setObjectName("drill_order_down")
        self.down.setToolTip(self.tr("Move the step in hand one place down: Alt+Down"))
        self.ask_nearest.setObjectName("drill_order_ask_nearest")
        self.ask_nearest.setCheckable(True)
        keys = QKeySequence(NEAREST_KEY)
        QShortcut(keys, self.ask_nearest, self.ask_nearest.click)
        native = keys.toString(QKeySequence.SequenceFormat.NativeText)
        self.ask_nearest.setText(f"{self.ask_nearest.text()}  ({native})")
        for button in (self.up, self.down, self.ask_nearest):
            button.setAutoDefault(False)
        self._heading = QLabel(self.tr("A right order, the nearest to yours"), self._other)
        self._heading.setWordWrap(True)
        self.nearest.setObjectName("drill_order_nearest")
        self.nearest.setAccessibleName(self._heading.text())
        moves = QHBoxLayout()
        for button in (self.up, self.down, self.ask_nearest):
            moves.addWidget(button)
        moves.addStretch(1)
        mine, other = QVBoxLayout(), QVBoxLayout(self._other)
        other.setContentsMargins(0, 0, 0, 0)
        mine.addWidget(self.list, 1)
        mine.addLayout(moves)
        other.addWidget(self._heading)
        other.addWidget(self.nearest, 1)
        self._beside = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._beside.setContentsMargins(0, 0, 0, 0)
        # Laid side by side it must let itself be made narrower, or it would never change over.
        self._beside.setSizeConstraint(QBoxLayout.SizeConstraint.SetNoConstraint)
        self._beside.addLayout(mine, 1)
        self._beside.addWidget(self._other, 1)

    def _connect(self) -> None:
        self.list.typed.connect(self._take_letter)
        self.nearest.typed.connect(self._take_letter)
        self.list.selectionModel().currentChanged.connect(self._point)
        self.steps.rowsMoved.connect(self._tell_move)
        self.up.clicked.connect(lambda: self.list.move_by(-1))
        self.down.clicked.connect(lambda: self.list.move_by(1))
        self.ask_nearest.toggled.connect(self._show_nearest)

    # --- the form -----------------------------------------------------------------------------

    def answer(self) -> Answer:
        return self.steps.order()

    def is_whole(self) -> bool:
        return bool(self.steps.rowCount())

    def show_answer(self, answer: Answer, *, editable: bool) -> None:
        self._settle(editable=editable)
        self.steps.take(answer)
        self._hold(0)

    def show_judged(self, drill: Drill, judged: Judged) -> None:
        given = self.answer()
        self._settle(editable=False)
        self.steps.take(given, order_notes(drill, given, judged))
        wanted = (broken_at(drill, given, judged), *judged.moved)
        self._hold(next((given.index(one) for one in wanted if one in given), 0))
        if judged.nearest and not judged.right:
            self._right.take(judged.nearest)
            self.ask_nearest.show()

    def begin(self) -> None:
        self.list.setFocus()
        self._point()

    def choose(self, name: str) -> None:
        """Take a step in hand."""
        at = self.steps.row_of(name)
        if at >= 0:
            self.list.setCurrentIndex(self.steps.index(at))

    # --- what is shown ------------------------------------------------------------------------

    def _settle(self, *, editable: bool) -> None:
        self.steps.is_editable = editable
        self.up.setVisible(editable)
        self.down.setVisible(editable)
        self.ask_nearest.hide()
        self.ask_nearest.setChecked(False)
        self._show_nearest(False)

    def _show_nearest(self, shown: bool) -> None:
        self._other.setVisible(shown)

    def _hold(self, at: int) -> None:
        """Take a row in hand without telling: nobody has chosen it."""
        with QSignalBlocker(self):
            self.list.setCurrentIndex(self.steps.index(at))
        self._mind_ends()

    def _point(self) -> None:
        self._mind_ends()
        at = self.list.currentIndex().row()
        self.pointed.emit(self.steps.row(at).id if at >= 0 else "")

    def _mind_ends(self) -> None:
        """The button that has the keyboard stays: taken away from it, the keys would go astray."""
        at, last = self.list.currentIndex().row(), self.steps.rowCount() - 1
        for button, can in ((self.up, at > 0), (self.down, at < last)):
            button.setEnabled(can or button.hasFocus())

    def _tell_move(self) -> None:
        self.changed.emit()
        self._mind_ends()
        at = self.list.currentIndex().row()
        if at >= 0:
            row = self.steps.row(at)
            announce(self.list, moved_words(row.letter, row.place, self.steps.rowCount()))

    def _take_letter(self, letter: str) -> None:
        named = choice_of_letter(self.drill, letter)
        if named is not None:
            self.choose(named.id)

    # --- events -------------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        is_wide = self.width() > BESIDE_EMS * self.fontMetrics().averageCharWidth()
        way = QBoxLayout.Direction.LeftToRight if is_wide else QBoxLayout.Direction.TopToBottom
        self._beside.setDirection(way)
