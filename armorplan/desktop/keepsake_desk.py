"""Copies photos and reads them for showing, off the window's thread."""

from dataclasses import dataclass

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QObject, QSize, Qt, Signal
from PySide6.QtGui import QImage, QImageReader, QImageWriter

from armorplan.app.keepsake_shelf import Photo
from armorplan.app.keepsakes import Keepsakes
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.ledger.keepsakes import About, Keepsake, KeptFile

SHOWN_PX = 1200
"""A photo is shown no larger than this; a telephone's has four times as many pixels a side."""
PASTED = "pasted.png"


@dataclass(frozen=True, slots=True)
class _Copied:
    session: object
    keepsakes: Keepsakes
    about: About
    text: str
    file: KeptFile


class KeepsakeDesk(QObject):
    """``kept`` carries what was said when a photo was kept, ``refused`` why it was not.

    ``read`` carries the number of a keepsake and its picture, a null one where it cannot be read.
    """

    kept = Signal(str)
    refused = Signal(str)
    read = Signal(int, QImage)

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._copier = Runner(self)
        self._copier.answered.connect(self._keep)
        self._copier.failed.connect(lambda error: self.refused.emit(str(error)))
        self._reader = Runner(self)
        self._reader.answered.connect(lambda found: self.read.emit(*found))
        bridge.opened.connect(self._reader.drop)

    @property
    def is_copying(self) -> bool:
        """Whether a photo is being copied."""
        return self._copier.is_busy

    def copy(self, about: About, photo: Photo, text: str) -> None:
        """Copy a photo into the workshop, and keep it once that is done."""
        session = self._bridge.session
        keepsakes = session.keepsakes
        copying = keepsakes.copying(photo)

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            return _Copied(session, keepsakes, about, text, copying())

        self._copier.ask(work)

    def _keep(self, copied: _Copied) -> None:
        # It was taken of the build at which it was asked for, whatever is at the bench by now.
        self.kept.emit(copied.keepsakes.photo(copied.about, copied.file, copied.text))

    def show(self, keepsake: Keepsake) -> None:
        """Read the photo of a keepsake; ``read`` brings it."""
        path = self._bridge.session.keepsakes.path(keepsake)
        if path is not None:
            self._reader.ask(lambda _report, _should_stop: (keepsake.seq, _picture(str(path))))

    def close(self) -> None:
        """Wait for what is under way: a photo that is half copied is kept yet."""
        self._reader.close()
        self._copier.close()


def _picture(path: str) -> QImage:
    reader = QImageReader(path)
    reader.setAutoTransform(True)
    size = reader.size()
    if max(size.width(), size.height()) > SHOWN_PX:
        reader.setScaledSize(
            size.scaled(QSize(SHOWN_PX, SHOWN_PX), Qt.AspectRatioMode.KeepAspectRatio)
        )
    return reader.read()


def png_of(image: QImage) -> Photo:
    """Return a pasted picture as a file that can be kept."""
    data = QByteArray()
    buffer = QBuffer(data)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(buffer, b"PNG").write(image)
    return PASTED, bytes(data.data())
