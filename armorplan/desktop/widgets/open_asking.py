"""Asks for the file or folder that is to be opened, and takes one that is dropped on the window."""

from pathlib import Path

from PySide6.QtCore import QEvent, QMimeData, QObject, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QFileDialog, QWidget

from armorplan.desktop.opening import Opener

DRAWN = (".svg", ".dxf")
"""Endings of drawings, in lower case."""
SHOP = ".toml"


def dropped_path(carried: QMimeData) -> Path | None:
    """Return the one thing of this machine that is carried, where it is one that can be opened."""
    paths = [Path(url.toLocalFile()) for url in carried.urls() if url.isLocalFile()]
    if len(paths) != 1:
        return None
    is_known = paths[0].is_dir() or paths[0].suffix.lower() in (*DRAWN, SHOP)
    return paths[0] if is_known else None


class OpenAsking(QObject):
    """Opens what was asked for. ``drawn`` carries a drawing that was dropped, to be brought in."""

    drawn = Signal(object)

    def __init__(self, opener: Opener, window: QWidget) -> None:
        super().__init__(window)
        self._opener = opener
        self._window = window
        window.setAcceptDrops(True)
        window.installEventFilter(self)

    def ask_folder(self) -> None:
        """Ask for a pattern folder and open it."""
        title = self.tr("Open a pattern folder")
        if folder := QFileDialog.getExistingDirectory(self._window, title):
            self._opener.open(Path(folder))

    def ask_drawing(self) -> None:
        """Ask for a bare drawing and open it."""
        self._ask_file(self.tr("Open a bare drawing"), self.tr("Drawings (*.svg *.SVG)"))

    def ask_shop(self) -> None:
        """Ask for a shop file and open what it orders."""
        self._ask_file(self.tr("Open a shop"), self.tr("Shop files (*.toml)"))

    def _ask_file(self, title: str, kinds: str) -> None:
        file, _ = QFileDialog.getOpenFileName(self._window, title, "", kinds)
        if file:
            self._opener.open(Path(file))

    def take(self, path: Path) -> None:
        """Open what was dropped: a drawing is brought in, all else is laid on the bench."""
        if path.suffix.lower() in DRAWN and not path.is_dir():
            self.drawn.emit(path)
        else:
            self._opener.open(path)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QDragEnterEvent | QDropEvent):
            path = dropped_path(event.mimeData())
            if path is None:
                return super().eventFilter(watched, event)
            event.acceptProposedAction()
            if event.type() is QEvent.Type.Drop:
                self.take(path)
            return True
        return super().eventFilter(watched, event)
