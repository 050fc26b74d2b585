"""What a pattern was fitted to already: folders by wearer, those that are behind it told."""

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.wearer_desk import WearerView
from armorplan.app.wearer_folder import FittedFolder


class WearerFolders(QWidget):
    """``wanted`` carries a folder to be fitted anew, ``looked`` one to look through."""

    wanted = Signal(object)
    looked = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._view: WearerView | None = None
        self.list = QListWidget(self)
        self.list.setObjectName("wearer_folders")
        self.list.setAccessibleName(self.tr("Fitted already, by wearer"))
        self.again = QPushButton(self.tr("Fit the ch&osen one anew"), self)
        self.elsewhere = QPushButton(self.tr("Look in another fol&der …"), self)
        for button, name in ((self.again, "wearer_again"), (self.elsewhere, "wearer_elsewhere")):
            button.setObjectName(name)
            button.setAutoDefault(False)
        below = QHBoxLayout()
        below.addWidget(self.again)
        below.addWidget(self.elsewhere)
        below.addStretch(1)
        told = QLabel(self)
        told.setWordWrap(True)
        told.setText(
            self.tr(
                "Fitted anew, a pattern is drawn anew as its next version: its corrections and "
                "versions stay, what else was changed there by hand goes."
            )
        )
        whole = QVBoxLayout(self)
        whole.addWidget(self.list, 1)
        whole.addWidget(told)
        whole.addLayout(below)
        self.again.clicked.connect(self._want)
        self.elsewhere.clicked.connect(self._ask)
        self.list.currentRowChanged.connect(self._allow)
        self._allow()

    def show_view(self, view: WearerView) -> None:
        """Show what lies near the pattern, fitted to somebody; stay where the eye was."""
        chosen = self.list.currentRow()
        self._view = view
        self.list.clear()
        for one in view.found:
            item = QListWidgetItem(self._words(one, view.version))
            item.setToolTip(str(one.folder))
            self.list.addItem(item)
        if view.found:
            self.list.setCurrentRow(min(max(chosen, 0), len(view.found) - 1))
        else:
            item = QListWidgetItem(self.tr("Nothing in {0} yet.").format(view.near))
            item.setFlags(Qt.ItemFlag.NoItemFlags)
            self.list.addItem(item)
        self._allow()

    def _words(self, one: FittedFolder, version: int) -> str:
        side = self.tr(", {0}").format(one.side) if one.side else ""
        told = self.tr("{0}{1}: version {2}, fitted from version {3}").format(
            one.wearer_name, side, one.version, one.from_version
        )
        if not one.is_behind(version):
            return told
        return self.tr("{0}. The pattern is at version {1} now.").format(told, version)

    @property
    def chosen(self) -> FittedFolder | None:
        """The folder that is chosen."""
        at = self.list.currentRow()
        found = self._view.found if self._view else ()
        return found[at] if 0 <= at < len(found) else None

    def _allow(self) -> None:
        self.again.setEnabled(self.chosen is not None)

    def _want(self) -> None:
        if self.chosen is not None:
            self.wanted.emit(self.chosen)

    def _ask(self) -> None:
        title = self.tr("Folder whose folders are looked through")
        near = str(self._view.near) if self._view else ""
        found = QFileDialog.getExistingDirectory(self, title, near)
        if found:
            self.looked.emit(Path(found))
