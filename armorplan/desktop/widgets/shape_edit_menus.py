"""Menus and keys of the drawing table, made from its table of acts."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QCoreApplication, QEvent, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar, QWidget

from armorplan.desktop.shape_edit_act import TableAct, TableMenu, told
from armorplan.desktop.shape_edit_acts import ACTS


def _lacks(row: TableAct) -> str:
    return told("Choose {0} first.").format(told(row.needs.value)) if row.needs else ""


Can = Callable[[str], bool]
Do = Callable[[], None]


class TableMenus(QObject):
    """The bar of menus; keys work while the drawing has the keyboard, so that one can type.

    ``lacking`` carries what has to be chosen first for a key that was pressed.
    """

    lacking = Signal(str)

    def __init__(self, acts: Mapping[str, Do], can: Can, canvas: QWidget, parent: QWidget) -> None:
        super().__init__(parent)
        self.bar = QMenuBar(parent)
        self.bar.setObjectName("table_menus")
        self._can = can
        self._canvas = canvas
        self.by_id: dict[str, QAction] = {}
        for row in ACTS:
            action = self.by_id[row.id] = QAction(told(row.text), self)
            action.setObjectName(f"table_{row.id}")
            action.setShortcut(QKeySequence(row.key))
            action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
            needs = _lacks(row)
            action.setToolTip(f"{told(row.does)} {needs}".strip())
            action.setStatusTip(action.toolTip())
            action.triggered.connect(acts[row.id])
            canvas.addAction(action)
        for menu in TableMenu:
            self._add_menu(menu)
        canvas.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        canvas.customContextMenuRequested.connect(self._show_at)
        canvas.installEventFilter(self)
        self.offer()

    def _add_menu(self, menu: TableMenu) -> None:
        rows = [row for row in ACTS if row.menu is menu]
        if rows:
            made = self.bar.addMenu(QCoreApplication.translate("TableMenu", menu.value))
            made.setToolTipsVisible(True)
            made.addActions([self.by_id[row.id] for row in rows])

    def offer(self) -> None:
        """Offer what can be done with what is chosen."""
        for name, action in self.by_id.items():
            action.setEnabled(self._can(name))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Tell of a key that can do nothing yet what it needs; one that can never comes here."""
        if (
            watched is self._canvas
            and isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.KeyPress
            and (words := self._lacking(event))
        ):
            self.lacking.emit(words)
            return True
        return super().eventFilter(watched, event)

    def _lacking(self, event: QKeyEvent) -> str:
        """Return what a key would need; empty where it can do something, or is no act's."""
        pressed = QKeySequence(event.keyCombination())
        rows = (row for row in ACTS if pressed == QKeySequence(row.key))
        row = next((row for row in rows if not self.by_id[row.id].isEnabled()), None)
        return f"{told(row.text).rstrip(' …')}: {_lacks(row)}" if row else ""

    def _show_at(self, spot: QPoint) -> None:
        """Show what can be done now, where the mouse is or by the menu key."""
        menu = QMenu(self._canvas)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.addActions([action for action in self.by_id.values() if action.isEnabled()])
        menu.popup(self._canvas.mapToGlobal(spot))
