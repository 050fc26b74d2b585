"""The bar under the parts: runs along the order in which a build is closed, and says what it shows."""

from collections.abc import Iterable, Mapping

from PySide6.QtCore import QEvent, QPointF, QRectF, QSignalBlocker, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QSlider,
    QStyle,
    QStyleOptionSlider,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.closing_desk import Closing
from armorplan.desktop.closing_words import counts, lost_words, place_words, way_words
from armorplan.desktop.standing_glyphs import paint_standing, standing_colour, standing_word
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.geometry.reach.model import Standing

BUTTON_PX = 36
SIGN_PX = 13.0
GAP_PX = 5.0
LOST_PX = 9.0


class OrderSlider(QSlider):
    """Runs along the order; a cross under it where something falls out of reach."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.lost: tuple[int, ...] = ()
        self.setPageStep(5)
        self.setMinimumHeight(BUTTON_PX)

    def show_lost(self, places: Iterable[int]) -> None:
        """Mark these places from now on."""
        self.lost = tuple(places)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        option = QStyleOptionSlider()
        self.initStyleOption(option)
        control, style = QStyle.ComplexControl.CC_Slider, self.style()
        handle = style.subControlRect(control, option, QStyle.SubControl.SC_SliderHandle, self)
        span = self.width() - handle.width()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colour = QColor(standing_colour(colours_of(self.palette()), Standing.CANNOT))
        for place in self.lost:
            along = QStyle.sliderPositionFromValue(0, max(self.maximum(), 1), place, span)
            middle = QPointF(along + handle.width() / 2, self.height() - LOST_PX / 2)
            box = QRectF(0, 0, LOST_PX - 2, LOST_PX - 2)
            box.moveCenter(middle)
            paint_standing(painter, box, Standing.CANNOT, colour)
        painter.end()


class StandingKey(QWidget):
    """What the marks over the parts mean, each with how many joints still to set stand so."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("closing_key")
        self._told: tuple[tuple[Standing, str], ...] = ()
        policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def show_counts(self, found: tuple[tuple[Standing, int], ...]) -> None:
        """Take what is counted."""
        self._told = tuple((one, f"{standing_word(one)} {count}") for one, count in found)
        spoken = ", ".join(words for _, words in self._told)
        self.setAccessibleName(self.tr("Joints still to set: {0}").format(spoken))
        self.updateGeometry()
        self.update()

    def _places(self, width: int) -> tuple[QPointF, ...]:
        """Return the left upper corner of each sign, broken into lines of a width."""
        metrics, x, y = self.fontMetrics(), 0.0, 0.0
        places = []
        for _, words in self._told:
            wide = SIGN_PX + GAP_PX + metrics.horizontalAdvance(words)
            if x and x + wide > width:
                x, y = 0.0, y + metrics.height() + 2
            places.append(QPointF(x, y))
            x += wide + 3 * GAP_PX
        return tuple(places)

    def heightForWidth(self, width: int) -> int:
        last = self._places(width)[-1].y() if self._told else 0.0
        return round(last) + self.fontMetrics().height() + 2

    def sizeHint(self) -> QSize:
        return QSize(0, self.heightForWidth(max(self.width(), 1)))

    def paintEvent(self, event: QPaintEvent) -> None:
        colours = colours_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        high = self.fontMetrics().height()
        for (standing, words), at in zip(self._told, self._places(self.width()), strict=True):
            box = QRectF(at.x(), at.y() + (high - SIGN_PX) / 2, SIGN_PX, SIGN_PX)
            paint_standing(painter, box, standing, QColor(standing_colour(colours, standing)))
            painter.setPen(QColor(colours.text))
            spot = QPointF(box.right() + GAP_PX, at.y() + self.fontMetrics().ascent())
            painter.drawText(spot, words)
        painter.end()


class ClosingBar(QWidget):
    """Slider, step buttons and words; ``moved`` carries how many steps shall be done."""

    moved = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("closing_bar")
        self._said = ""
        self.slider = OrderSlider(self)
        self.slider.setObjectName("closing_slider")
        self.slider.setAccessibleName(self.tr("Steps of the order that are done"))
        self.back = self._button("closing_back", Qt.ArrowType.LeftArrow, self.tr("One step back"))
        self.onward = self._button(
            "closing_onward", Qt.ArrowType.RightArrow, self.tr("One step on")
        )
        self.place = self._line("closing_place", self.tr("Where in the order"))
        self.lost = self._line("closing_lost", self.tr("What falls out of reach here"))
        self.way = self._line("closing_way", self.tr("How the chosen joint is reached"))
        self.key = StandingKey(self)
        self._lay_out()
        self.slider.valueChanged.connect(self.moved)
        self.back.clicked.connect(lambda: self.step(-1))
        self.onward.clicked.connect(lambda: self.step(1))

    def _button(self, name: str, arrow: Qt.ArrowType, spoken: str) -> QToolButton:
        button = QToolButton(self)
        button.setObjectName(name)
        button.setArrowType(arrow)
        button.setAccessibleName(spoken)
        button.setToolTip(spoken)
        button.setMinimumSize(BUTTON_PX, BUTTON_PX)
        button.setAutoRepeat(True)
        return button

    def _line(self, name: str, spoken: str) -> QLabel:
        line = QLabel(self)
        line.setObjectName(name)
        line.setAccessibleName(spoken)
        line.setTextFormat(Qt.TextFormat.PlainText)
        line.setWordWrap(True)
        line.hide()
        return line

    def _lay_out(self) -> None:
        across = QHBoxLayout()
        across.setSpacing(4)
        for widget, share in ((self.back, 0), (self.slider, 1), (self.onward, 0)):
            across.addWidget(widget, share)
        down = QVBoxLayout(self)
        down.setContentsMargins(6, 2, 6, 4)
        down.setSpacing(2)
        down.addLayout(across)
        for line in (self.place, self.lost, self.key, self.way):
            down.addWidget(line)
        self._tint()

    def step(self, by: int) -> None:
        """Go so many steps on, or back."""
        self.slider.setValue(self.slider.value() + by)

    def wait(self) -> None:
        """Say that reach is being reckoned."""
        self._write(self.place, self.tr("Reckoning reach …"))
        self._write(self.lost, "")
        self._write(self.way, "")
        self.key.hide()

    def fail(self, sentence: str) -> None:
        """Say why nothing is shown."""
        self.wait()
        self._write(self.place, sentence)

    def show_closing(self, closing: Closing, titles: Mapping[str, str]) -> None:
        """Show a place in the order; ``titles`` are those of the joints."""
        stops, at = closing.track.stops, closing.frame.at
        with QSignalBlocker(self.slider):
            self.slider.setRange(0, len(stops))
            if not self.slider.isSliderDown():
                self.slider.setValue(at)
        self.slider.show_lost(closing.lost or ())
        self.back.setEnabled(at > 0)
        self.onward.setEnabled(at < len(stops))
        self._write(self.place, place_words(stops, at))
        self._write(self.lost, lost_words(closing.frame, titles))
        self._write(self.way, way_words(closing.way) if closing.way else "")
        self.key.setVisible(bool(stops))
        self.key.show_counts(counts(closing.frame))
        self._speak()

    def _write(self, line: QLabel, words: str) -> None:
        line.setText(words)
        line.setVisible(bool(words))

    def _speak(self) -> None:
        told = " ".join(line.text() for line in (self.place, self.lost, self.way) if line.text())
        self.slider.setAccessibleDescription(told)
        if told != self._said:
            self._said = told
            announce(self.slider, told)

    def _tint(self) -> None:
        palette = self.lost.palette()
        palette.setColor(palette.ColorRole.WindowText, QColor(colours_of(self.palette()).alarm))
        self.lost.setPalette(palette)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._tint()
