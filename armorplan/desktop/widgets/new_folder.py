"""Asks what something new is called and where it is to be kept; says which folder is made of it."""

from pathlib import Path

from PySide6.QtCore import QDir, QStandardPaths
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QGridLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.drafting import copy_place
from armorplan.files.bare_pattern import plain_id

WIDE_PX = 560


def own_documents() -> Path:
    """Return where a person keeps what they make: the folder of documents, else their home."""
    kind = QStandardPaths.StandardLocation.DocumentsLocation
    place = Path(QStandardPaths.writableLocation(kind) or QDir.homePath())
    return place if place.is_dir() else Path(QDir.homePath())


class NewFolderDialog(QDialog):
    """A name, and a folder that follows it until another one is typed or chosen.

    A folder that is not there yet is made; in one that holds something a new one is made.
    """

    def __init__(self, title: str, name: str, parent: QWidget, near: Path | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("new_folder")
        self.setWindowTitle(title)
        self.setMinimumWidth(WIDE_PX)
        self._usual = name
        self._near: Path | None = near or own_documents()
        self.name, self.folder = QLineEdit(name, self), QLineEdit(self)
        self.choose = QPushButton(self.tr("&Choose …"), self)
        self.said = QLabel(self)
        self.buttons = QDialogButtonBox(self)
        self.write = self.buttons.addButton(
            self.tr("&Write it"), QDialogButtonBox.ButtonRole.AcceptRole
        )
        self.buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        self._lay_out()
        self.name.textEdited.connect(self._follow)
        self.folder.textEdited.connect(self._leave)
        self.choose.clicked.connect(self._ask)
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)
        self._follow()
        self.name.selectAll()

    def _lay_out(self) -> None:
        grid = QGridLayout()
        for row, (text, line, spoken) in enumerate(
            (
                (self.tr("&Name"), self.name, self.tr("What it is called")),
                (self.tr("&Folder"), self.folder, self.tr("Folder it is written into")),
            )
        ):
            label = QLabel(text, self)
            label.setBuddy(line)
            line.setAccessibleName(spoken)
            grid.addWidget(label, row, 0)
            grid.addWidget(line, row, 1)
        grid.addWidget(self.choose, 1, 2)
        self.name.setObjectName("new_folder_name")
        self.folder.setObjectName("new_folder_path")
        self.choose.setObjectName("new_folder_choose")
        self.choose.setAutoDefault(False)
        self.said.setObjectName("new_folder_said")
        self.said.setWordWrap(True)
        self.write.setDefault(True)
        down = QVBoxLayout(self)
        down.addLayout(grid)
        down.addWidget(self.said)
        down.addWidget(self.buttons)

    @property
    def chosen_name(self) -> str:
        """What it is called; left empty, it keeps the name it had."""
        return self.name.text().strip() or self._usual

    @property
    def place(self) -> Path | None:
        """The folder that is made or filled; ``None`` where none is named."""
        typed = self.folder.text().strip()
        if not typed:
            return None
        return copy_place(Path(typed).expanduser().absolute(), self._slug())

    def _slug(self) -> str:
        return plain_id(self.chosen_name.lower(), (), otherwise="pattern")

    def _follow(self) -> None:
        """Name the folder after what it is to hold."""
        if self._near is not None:
            self.folder.setText(str(self._near / self._slug()))
        self._tell()

    def _leave(self) -> None:
        """The folder was typed: the name is not followed any more."""
        self._near = None
        self._tell()

    def _ask(self) -> None:
        """Choose the folder in which a new one is made."""
        near = str(self._near or self.folder.text())
        title = self.tr("The new folder is made in")
        if found := QFileDialog.getExistingDirectory(self, title, near):
            self._near = Path(found)
            self._follow()

    def _tell(self) -> None:
        place = self.place
        self.write.setEnabled(place is not None)
        if place is None:
            self.said.setText(self.tr("Type a folder, or choose one."))
        elif place.exists():
            self.said.setText(self.tr("The empty folder {0} is filled.").format(place))
        else:
            self.said.setText(self.tr("The new folder {0} is made.").format(place))
