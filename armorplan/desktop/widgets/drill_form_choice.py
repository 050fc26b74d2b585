"""A check box and a radio button as wide as the form: a letter, wrapped words, a mark when judged."""

from PySide6.QtCore import QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QAbstractButton,
    QCheckBox,
    QRadioButton,
    QSizePolicy,
    QStyle,
    QStyleOptionButton,
    QWidget,
)

from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.drill_form_face import Face, face_height, paint_face

GAP_PX = 8
LEAST_WIDE_PX = 200


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
        paint_choice(self, self.face, QStyle.PrimitiveElement.PE_IndicatorCheckBox)

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
        paint_choice(self, self.face, QStyle.PrimitiveElement.PE_IndicatorRadioButton)

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


def paint_choice(button: QAbstractButton, face: Face, indicator: QStyle.PrimitiveElement) -> None:
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
    option = QStyleOptionButton()
    option.initFrom(button)
    option.rect = QRect(GAP_PX, round((button.height() - side) / 2), side, side)
    on = QStyle.StateFlag.State_On if button.isChecked() else QStyle.StateFlag.State_Off
    option.state = option.state | on
    button.style().drawPrimitive(indicator, option, painter, button)
    words = QRectF(button.rect()).adjusted(side + GAP_PX, 0, 0, 0)
    paint_face(painter, words, face, font=button.font(), colours=colours)
    painter.end()
