"""What each kind of line looks like, how many there are, and the key that takes a shape for it."""

from collections.abc import Mapping

from PySide6.QtCore import QEvent, QRectF, QSize, Signal
from PySide6.QtGui import QColor, QIcon, QKeySequence, QPainter
from PySide6.QtWidgets import QPushButton, QWidget

from armorplan.desktop.bring_words import KEY_OF, kind_words
from armorplan.desktop.colours import Colours
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.bring_items import brush_of, pen_of
from armorplan.desktop.widgets.flow import Flow
from armorplan.desktop.widgets.picture_marks import stamp
from armorplan.geometry.brought.model import ShapeKind

SWATCH = QSize(28, 18)


def _icon(kind: ShapeKind, colours: Colours, ratio: float) -> QIcon:
    def draw(painter: QPainter) -> None:
        painter.fillRect(0, 0, SWATCH.width(), SWATCH.height(), QColor(colours.panel))
        painter.setPen(pen_of(kind, colours))
        painter.setBrush(brush_of(kind, colours))
        box = QRectF(2, 2, SWATCH.width() - 4, SWATCH.height() - 4)
        if kind is ShapeKind.HOLE:
            painter.fillRect(0, 0, SWATCH.width(), SWATCH.height(), QColor(colours.leather))
            painter.drawEllipse(box.center(), 6, 6)
        elif kind is ShapeKind.SLOT:
            painter.drawRoundedRect(box.adjusted(0, 3, 0, -3), 4, 4)
        else:
            painter.drawRect(box)

    return QIcon(stamp(SWATCH, ratio, draw))


class KindBar(Flow):
    """The legend of the drawing; pressed, each takes what is chosen for its kind.

    ``pressed`` carries the kind.
    """

    pressed = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_kinds")
        self._buttons = {kind: self._button(kind) for kind in ShapeKind}
        self._restyle()

    def _button(self, kind: ShapeKind) -> QPushButton:
        button = QPushButton(self)
        button.setObjectName(f"bring_kind_{kind.name.lower()}")
        button.setIconSize(SWATCH)
        button.setAutoDefault(False)
        button.clicked.connect(lambda: self.pressed.emit(kind))
        self.add(button)
        return button

    def show_counts(self, counts: Mapping[ShapeKind, int]) -> None:
        """Say how many lines there are of each kind."""
        for kind, button in self._buttons.items():
            words, letter = kind_words(kind), QKeySequence(KEY_OF[kind]).toString()
            count = counts[kind]
            named = words.one if count == 1 else words.many
            button.setText(f"{count} {named} ({letter})")
            tip = self.tr("{0}: {1}. Take what is chosen for this: {2}")
            button.setToolTip(tip.format(words.one.capitalize(), words.drawn, letter))
            button.setAccessibleName(button.text())

    def _restyle(self) -> None:
        colours = colours_of(self.palette())
        for kind, button in self._buttons.items():
            button.setIcon(_icon(kind, colours, self.devicePixelRatioF()))

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._restyle()
