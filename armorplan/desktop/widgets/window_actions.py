"""Turns the table of actions into menus and buttons of a window."""

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QObject, Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu, QToolBar, QToolButton

from armorplan.desktop.actions import TABLE, Action, Menu, said

TARGET_PX = 48
"""Least height of a button: a target for a finger."""
Slot = Callable[[], object]
Switch = Callable[[bool], None]


class WindowActions(QObject):
    """The window's actions by id, its menus, and its bar of buttons."""

    def __init__(
        self, window: QMainWindow, slots: Mapping[str, Slot], switches: Mapping[str, Switch]
    ) -> None:
        super().__init__(window)
        self._window = window
        self._by_id = {row.id: self._make(row) for row in TABLE}
        for action_id, slot in slots.items():
            self._by_id[action_id].triggered.connect(slot)
        for action_id, switch in switches.items():
            self._by_id[action_id].toggled.connect(switch)
        self._menus = {menu: self._make_menu(menu) for menu in Menu}
        self._make_bar()

    def __getitem__(self, action_id: str) -> QAction:
        """Return an action by its id; KeyError where there is none."""
        return self._by_id[action_id]

    def __iter__(self) -> Iterator[QAction]:
        """Yield all actions of the table."""
        return iter(self._by_id.values())

    def add_samples(self, folders: tuple[Path, ...], open_folder: Callable[[Path], None]) -> None:
        """Offer the shipped patterns, each with a key."""
        menu = self._menus[Menu.PATTERN]
        before = self._by_id["leave"]
        for number, folder in enumerate(folders[:9], start=1):
            name = folder.name.replace("_", " ")
            action = QAction(self.tr("Open the sample: {0}").format(name), self._window)
            action.setObjectName(f"sample_{folder.name}")
            action.setShortcut(QKeySequence(f"Ctrl+Alt+{number}"))
            action.triggered.connect(lambda _checked, at=folder: open_folder(at))
            menu.insertAction(before, action)
        menu.insertSeparator(before)

    def _make(self, row: Action) -> QAction:
        action = QAction(said(row.text), self._window)
        action.setObjectName(row.id)
        action.setShortcuts([QKeySequence(key) for key in row.keys])
        if row.everywhere:
            action.setShortcutContext(Qt.ShortcutContext.ApplicationShortcut)
        action.setStatusTip(said(row.does))
        action.setCheckable(row.checkable)
        if row.button:
            action.setIconText(_button_text(row, is_on=False))
        if row.button and row.checkable:
            action.toggled.connect(lambda on: action.setIconText(_button_text(row, is_on=on)))
        return action

    def _make_menu(self, menu: Menu) -> QMenu:
        made = self._window.menuBar().addMenu(QCoreApplication.translate("Menu", menu.value))
        made.setObjectName(f"menu_{menu.name.lower()}")
        made.addActions([self._by_id[row.id] for row in TABLE if row.menu is menu])
        return made

    def _make_bar(self) -> None:
        bar = QToolBar(self.tr("At the bench"), self._window)
        bar.setObjectName("bench_bar")
        bar.setMovable(False)
        bar.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
        bar.setContextMenuPolicy(Qt.ContextMenuPolicy.PreventContextMenu)
        for row in TABLE:
            if row.button:
                action = self._by_id[row.id]
                bar.addAction(action)
                button = bar.widgetForAction(action)
                if isinstance(button, QToolButton):
                    button.setAutoRaise(False)
                button.setMinimumHeight(TARGET_PX)
                button.setObjectName(f"button_{row.id}")
                button.setAccessibleName(said(row.text))
                button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self._window.addToolBar(bar)


def _button_text(row: Action, *, is_on: bool) -> str:
    """Return a button's label with its key below; a tick says that it is on."""
    key = QKeySequence(row.shown_key).toString(QKeySequence.SequenceFormat.NativeText)
    tick = "\N{CHECK MARK} " if is_on else ""
    return f"{tick}{said(row.button)}\n{key}"
