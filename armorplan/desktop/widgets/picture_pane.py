"""A picture beside its buttons, with the same things as a list below it when asked for."""

from abc import abstractmethod
from collections.abc import Callable
from typing import Protocol

from PySide6.QtCore import QItemSelection, QItemSelectionModel, QModelIndex, QSize, Qt
from PySide6.QtGui import QAccessible, QShowEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QSizePolicy,
    QSplitter,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.rows import Selection
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.twin_model import TwinModel
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.turned_away import is_turned_away

BUTTON_PX = 48
LEAST_BUTTON_PX = 26
"""Where the picture is low its buttons are too, still above the least target size (WCAG 2.2, 2.5.8)."""
ZOOM = 1.5


class Zoomable(Protocol):
    """A picture that can be drawn larger, smaller, or so that everything is seen."""

    def zoom(self, factor: float) -> None:
        """Zoom by a factor."""
        ...

    def fit(self) -> None:
        """Show everything."""
        ...


class PaneButton(QToolButton):
    """As high as a thumb wants it, lower where there is no room."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setMinimumSize(BUTTON_PX, LEAST_BUTTON_PX)
        self.setSizePolicy(QSizePolicy.Policy.Minimum, QSizePolicy.Policy.Preferred)

    def sizeHint(self) -> QSize:
        return QSize(max(super().sizeHint().width(), BUTTON_PX), BUTTON_PX)

    def minimumSizeHint(self) -> QSize:
        return QSize(self.sizeHint().width(), LEAST_BUTTON_PX)


class PicturePane(QWidget):
    """Holds a picture and its twin list, which share what is chosen.

    ``choose`` is called with a key when a row of the twin list is chosen by mouse or key. A
    picture on a page that is turned away does nothing until its page is turned to.
    """

    def __init__(self, name: str, choose: Callable[[str], None], parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self._choose = choose
        self._following = False
        self._is_stale = False
        self._split = QSplitter(Qt.Orientation.Vertical, self)
        self._split.setChildrenCollapsible(False)
        self._buttons = QVBoxLayout()
        self._buttons.setSpacing(4)
        across = QHBoxLayout(self)
        across.setContentsMargins(0, 0, 0, 0)
        across.setSpacing(4)
        self._down = QVBoxLayout()
        self._down.setSpacing(0)
        self._down.addWidget(self._split, 1)
        across.addLayout(self._down, 1)
        across.addLayout(self._buttons)

    def put_below(self, bar: QWidget) -> None:
        """Have a bar below the picture and its list."""
        self._down.addWidget(bar)

    def hold(self, picture: QWidget, drawing: Zoomable, twin: QAbstractItemView) -> None:
        """Lay out the picture, its buttons, and the twin view over a ``TwinModel``."""
        self._twin = twin
        self.setFocusProxy(picture)
        self._split.addWidget(picture)
        self._split.addWidget(twin)
        self._split.setStretchFactor(0, 3)
        self._split.setStretchFactor(1, 2)
        self._button("larger", "+", self.tr("Draw larger")).clicked.connect(
            lambda: drawing.zoom(ZOOM)
        )
        self._button("smaller", "\N{MINUS SIGN}", self.tr("Draw smaller")).clicked.connect(
            lambda: drawing.zoom(1 / ZOOM)
        )
        self._button("whole", self.tr("All"), self.tr("Show everything")).clicked.connect(
            drawing.fit
        )
        self._buttons.addStretch(1)
        aslist = self._button("as_list", self.tr("List"), self.tr("Show as a list too"))
        aslist.setCheckable(True)
        aslist.toggled.connect(twin.setVisible)
        aslist.setChecked(QAccessible.isActive())
        twin.setVisible(aslist.isChecked())
        twin.selectionModel().currentChanged.connect(self._row_entered)
        twin.clicked.connect(self._row_chosen)
        twin.activated.connect(self._row_chosen)

    def _button(self, name: str, text: str, spoken: str) -> QToolButton:
        button = PaneButton(self)
        button.setObjectName(f"{self.objectName()}_{name}")
        button.setText(text)
        button.setAccessibleName(spoken)
        button.setToolTip(spoken)
        button.setAutoRaise(True)
        self._buttons.addWidget(button)
        return button

    def _model(self) -> TwinModel:
        model = self._twin.model()
        assert isinstance(model, TwinModel)  # noqa: S101 - hold() is given no other
        return model

    def _row_entered(self, current: QModelIndex) -> None:
        if not self._following and current.isValid() and self._twin.hasFocus():
            self._choose(self._model().key_at(current))

    def _row_chosen(self, index: QModelIndex) -> None:
        self._choose(self._model().key_at(index))

    def watch(self, bridge: Bridge) -> None:
        """Hear from now on what changes and what is chosen."""
        bridge.changed.connect(self._hear_change)
        bridge.selected.connect(self._hear_selection)

    @abstractmethod
    def refresh(self) -> None:
        """Ask for the rows anew, draw what has changed, and show what is chosen."""

    @abstractmethod
    def show_selection(self, selection: Selection) -> None:
        """Show what is chosen."""

    def _hear_change(self) -> None:
        if is_turned_away(self):
            self._is_stale = True
        else:
            self.refresh()

    def _hear_selection(self, selection: Selection) -> None:
        if is_turned_away(self):
            self._is_stale = True
        else:
            self.show_selection(selection)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._is_stale:
            self._is_stale = False
            self.refresh()

    def follow(self, keys: tuple[str, ...]) -> None:
        """Select these rows in the twin list, without choosing anything by it."""
        model, chosen = self._model(), QItemSelection()
        indexes = [i for i in map(model.index_of, keys) if i.isValid()]
        last = model.columnCount() - 1
        for index in indexes:
            chosen.select(index, index.siblingAtColumn(last))
        self._following = True
        selection = self._twin.selectionModel()
        selection.select(chosen, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        if indexes and not self._twin.hasFocus():
            selection.setCurrentIndex(indexes[0], QItemSelectionModel.SelectionFlag.NoUpdate)
        self._following = False

    def speak(self, key: str) -> None:
        """Have a thing of the picture spoken."""
        model = self._model()
        index = model.index_of(key)
        if index.isValid():
            self.announce(str(model.data(index, Qt.ItemDataRole.AccessibleTextRole)))

    def announce(self, sentence: str) -> None:
        """Have a sentence spoken."""
        announce(self, sentence)
