"""The page of keys, made from the table of actions."""

from collections.abc import Iterable
from pathlib import Path

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QDialogButtonBox,
    QHeaderView,
    QLabel,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.actions import TABLE, Action, said


def keys_text(action: Action) -> str:
    """Say the keys of an action: those of the checklist first."""
    form = QKeySequence.SequenceFormat.NativeText
    keys = [QKeySequence(key).toString(form) for key in action.keys]
    if not action.on_row:
        return ", ".join(keys)
    on_row = QKeySequence(action.on_row).toString(form)
    told = QCoreApplication.translate("KeysPage", "{0} in the checklist").format(on_row)
    return ", ".join([told, *keys])


class KeysPage(QDialog):
    """Lists every action with its keys and what it does. Does not hold up the bench."""

    def __init__(self, log_path: Path, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("keys_page")
        self.setWindowTitle(self.tr("Keys"))
        self.setModal(False)
        table = self._table(TABLE)
        costume = QLabel(
            self.tr(
                "Armour made with this program is costume, not protective equipment. "
                "Labels, local codes and licensed practice rule over every caution shown."
            ),
            self,
        )
        costume.setWordWrap(True)
        faults = QLabel(self.tr("Faults of the program are written to {0}").format(log_path), self)
        faults.setWordWrap(True)
        faults.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        close.rejected.connect(self.close)
        down = QVBoxLayout(self)
        down.addWidget(table, 1)
        down.addWidget(costume)
        down.addWidget(faults)
        down.addWidget(close)
        self.resize(820, 620)

    def _table(self, actions: Iterable[Action]) -> QTableWidget:
        rows = list(actions)
        table = QTableWidget(len(rows), 3, self)
        table.setObjectName("keys_table")
        table.setAccessibleName(self.tr("Keys"))
        table.setHorizontalHeaderLabels(
            [self.tr("What"), self.tr("Keys"), self.tr("What it does")]
        )
        table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setAlternatingRowColors(True)
        table.setWordWrap(True)
        table.verticalHeader().hide()
        table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        for at, action in enumerate(rows):
            for column, text in enumerate(
                (said(action.text), keys_text(action), said(action.does))
            ):
                table.setItem(at, column, QTableWidgetItem(text))
        head = table.horizontalHeader()
        head.setSectionResizeMode(0, QHeaderView.ResizeMode.ResizeToContents)
        head.setSectionResizeMode(1, QHeaderView.ResizeMode.ResizeToContents)
        head.setSectionResizeMode(2, QHeaderView.ResizeMode.Stretch)
        return table
