"""A photo that is kept, as large as there is room for it, or why it is not shown."""

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QImage, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

LEAST_PX = 160


class PhotoPane(QWidget):
    """Paints a picture within its bounds; shows words where there is none."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("keepsake_photo")
        self._image = QImage()
        self._words = ""
        self.setMinimumHeight(LEAST_PX)
        self.hide()

    def say(self, words: str) -> None:
        """Show words in place of a picture."""
        self._image, self._words = QImage(), words
        self.setAccessibleName(words)
        self.update()

    def show_image(self, image: QImage, words: str) -> None:
        """Show a picture, and tell who cannot see it what it shows."""
        if image.isNull():
            self.say(
                self.tr("This program cannot show a photo of this form; it is kept as it is.")
            )
            return
        self._image, self._words = image, ""
        self.setAccessibleName(self.tr("Photo: {0}").format(words) if words else self.tr("Photo"))
        self.update()

    def place(self) -> QRect:
        """Return where the picture stands: in the middle, its sides in their proportion."""
        size = self._image.size().scaled(self.size(), Qt.AspectRatioMode.KeepAspectRatio)
        found = QRect(0, 0, size.width(), size.height())
        found.moveCenter(self.rect().center())
        return found

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        if self._image.isNull():
            flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
            painter.drawText(self.rect(), flags, self._words)
        else:
            painter.drawImage(self.place(), self._image)
        painter.end()

    def sizeHint(self) -> QSize:
        return QSize(LEAST_PX * 2, LEAST_PX * 2)
