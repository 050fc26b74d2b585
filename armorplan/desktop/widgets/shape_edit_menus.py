"""Menus and keys of the drawing table, made from its table of acts."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QCoreApplication, QObject, QPoint, Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar, QWidget

from armorplan.desktop.shape_edit_act import TableMenu, told
from armorplan.desktop.shape_edit_acts import ACTS

Can = Callable[[str], bool]
Do = Callable[[], None]


class TableMenus(QObject):
    """The bar of menus; keys work while the drawing has the keyboard, so that one can type."""

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
            needs = told("Choose {0} first.").format(told(row.needs.value)) if row.needs else ""
            action.setToolTip(f"{told(row.does)} {needs}".strip())
            action.setStatusTip(action.toolTip())
            action.triggered.connect(acts[row.id])
            canvas.addAction(action)
        for menu in TableMenu:
            self._add_menu(menu)
        canvas.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        canvas.customContextMenuRequested.connect(self._show_at)
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

    def _show_at(self, spot: QPoint) -> None:
        """Show what can be done now, where the mouse is or by the menu key."""
        menu = QMenu(self._canvas)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.addActions([action for action in self.by_id.values() if action.isEnabled()])
        menu.popup(self._canvas.mapToGlobal(spot))
