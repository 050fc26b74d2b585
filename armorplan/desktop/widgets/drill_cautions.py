"""The cautions of the work an exercise is about: one line before the answer, opened by key or click."""

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QToolButton, QVBoxLayout, QWidget

from armorplan.app.rows import BenchState
from armorplan.desktop.glyphs import paint_state
from armorplan.desktop.practice_words import cautions_words
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.way_back_lists import TARGET_PX
from armorplan.desktop.widgets.why_panel import Caution

GAP_PX = 6


class CautionLine(QToolButton):
    """One line with a warning sign; Space, Enter or a click opens what stands behind it."""

    def __init__(self, count: int, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("drill_cautions")
        self.setCheckable(True)
        self.setAutoRaise(True)
        self.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.setArrowType(Qt.ArrowType.RightArrow)
        self.setText(f"&{cautions_words(count)}")
        self.setAccessibleName(cautions_words(count))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.toggled.connect(self._turn)

    def _turn(self, is_open: bool) -> None:
        self.setArrowType(Qt.ArrowType.DownArrow if is_open else Qt.ArrowType.RightArrow)

    def _sign_px(self) -> int:
        return self.fontMetrics().height()

    def sizeHint(self) -> QSize:
        usual = super().sizeHint()
        return QSize(usual.width() + self._sign_px() + GAP_PX, max(usual.height(), TARGET_PX))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not (
            event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        ):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        side = self._sign_px()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        sign = QRectF(self.width() - side - GAP_PX, (self.height() - side) / 2, side, side)
        paint_state(painter, sign, BenchState.EARLY, colours_of(self.palette()).alarm)
        painter.end()


class CautionFold(QWidget):
    """Folded until it is opened; ``turned`` says that it takes another height."""

    turned = Signal()

    def __init__(self, cautions: tuple[str, ...], parent: QWidget) -> None:
        super().__init__(parent)
        self.line = CautionLine(len(cautions), self)
        self.line.setAccessibleDescription(" ".join(cautions))
        self.box = Caution(cautions, self)
        self.box.hide()
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(2)
        down.addWidget(self.line, 0, Qt.AlignmentFlag.AlignLeft)
        down.addWidget(self.box)
        self.line.toggled.connect(self._turn)

    def _turn(self, is_open: bool) -> None:
        self.box.setVisible(is_open)
        self.turned.emit()
