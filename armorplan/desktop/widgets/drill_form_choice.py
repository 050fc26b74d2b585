"""A check box and a radio button as wide as the form: a letter, wrapped words, a mark when judged."""

from collections.abc import Callable

from PySide6.QtCore import QPoint, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QAbstractButton,
    QCheckBox,
    QRadioButton,
    QSizePolicy,
    QWidget,
)

from armorplan.app.rows import BenchState
from armorplan.desktop.glyphs import paint_state
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.drill_form_face import Face, face_height, paint_face

GAP_PX = 8
LEAST_WIDE_PX = 200
TICK_IN = 0.18
DOT_SHARE = 0.26
Indicator = Callable[[QPainter, QRectF, str], None]


class CheckChoice(QCheckBox):
    """One of the choices of which any number may be right."""

    def __init__(self, face: Face, parent: QWidget) -> None:
        super().__init__(parent)
        self.face = face
        self.is_fixed = False
        dress(self)

    def nextCheckState(self) -> None:
        """What is only looked at keeps the keyboard, but changes no more."""
        if not self.is_fixed:
            super().nextCheckState()

    def paintEvent(self, event: QPaintEvent) -> None:
        paint_choice(self, self.face, paint_check)

    def hitButton(self, spot: QPoint) -> bool:
        return self.rect().contains(spot)

    def sizeHint(self) -> QSize:
        return QSize(LEAST_WIDE_PX, self.heightForWidth(max(self.width(), LEAST_WIDE_PX)))

    def minimumSizeHint(self) -> QSize:
        return QSize(LEAST_WIDE_PX // 2, 0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return choice_height(self, self.face, width)


class RadioChoice(QRadioButton):
    """One of the choices of which one is right."""

    def __init__(self, face: Face, parent: QWidget) -> None:
        super().__init__(parent)
        self.face = face
        self.is_fixed = False
        dress(self)

    def nextCheckState(self) -> None:
        """What is only looked at keeps the keyboard, but changes no more."""
        if not self.is_fixed:
            super().nextCheckState()

    def paintEvent(self, event: QPaintEvent) -> None:
        paint_choice(self, self.face, paint_radio)

    def hitButton(self, spot: QPoint) -> bool:
        return self.rect().contains(spot)

    def sizeHint(self) -> QSize:
        return QSize(LEAST_WIDE_PX, self.heightForWidth(max(self.width(), LEAST_WIDE_PX)))

    def minimumSizeHint(self) -> QSize:
        return QSize(LEAST_WIDE_PX // 2, 0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return choice_height(self, self.face, width)


ChoiceButton = CheckChoice | RadioChoice


def dress(button: ChoiceButton) -> None:
    """Make a button as high as its words need in the width it gets."""
    policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
    policy.setHeightForWidth(True)
    button.setSizePolicy(policy)
    button.setAttribute(Qt.WidgetAttribute.WA_Hover)


def show_face(button: ChoiceButton, face: Face) -> None:
    """Have a button drawn otherwise, in the height that takes."""
    button.face = face
    button.updateGeometry()
    button.update()


def _indicator_px(button: QAbstractButton) -> int:
    return max(round(QFontMetrics(button.font()).height() * 0.95), 14)


def choice_height(button: QAbstractButton, face: Face, width: int) -> int:
    """Return the height of a choice in a width, both in device-independent pixels."""
    return face_height(face, button.font(), width - _indicator_px(button) - GAP_PX)


def paint_check(painter: QPainter, box: QRectF, colour: str) -> None:
    """Paint a box in the painter's pen and brush, with a tick of a colour; empty: with none."""
    painter.drawRoundedRect(box, 3, 3)
    if colour:
        inset = box.width() * TICK_IN
        tick = box.adjusted(inset, inset, -inset, -inset)
        paint_state(painter, tick, BenchState.DONE, colour)


def paint_radio(painter: QPainter, box: QRectF, colour: str) -> None:
    """Paint a ring in the painter's pen and brush, with a dot of a colour; empty: with none."""
    painter.drawEllipse(box)
    if colour:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colour))
        painter.drawEllipse(box.center(), box.width() * DOT_SHARE, box.width() * DOT_SHARE)


def paint_choice(button: QAbstractButton, face: Face, indicator: Indicator) -> None:
    """Paint ground, indicator and words of a choice, with a ring where it has the keyboard."""
    colours = colours_of(button.palette())
    painter = QPainter(button)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    box = QRectF(button.rect()).adjusted(1.5, 1.5, -1.5, -1.5)
    ground = colours.chosen if button.isChecked() else colours.panel
    if button.underMouse() and not button.isChecked():
        ground = colours.stripe
    edge = QPen(QColor(colours.focus), 2.5) if button.hasFocus() else QPen(QColor(colours.bar), 1)
    painter.setPen(edge)
    painter.setBrush(QColor(ground))
    painter.drawRoundedRect(box, 5, 5)
    side = _indicator_px(button)
    sign = QRectF(GAP_PX, (button.height() - side) / 2, side, side)
    painter.setPen(QPen(QColor(colours.line), 1.6))
    painter.setBrush(QColor(colours.panel))
    indicator(painter, sign, colours.text if button.isChecked() else "")
    words = QRectF(button.rect()).adjusted(side + GAP_PX, 0, 0, 0)
    paint_face(painter, words, face, font=button.font(), colours=colours)
    painter.end()
