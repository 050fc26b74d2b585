"""The bar under the parts: runs along the order in which a build is closed, and says what it shows."""

from collections.abc import Iterable

from PySide6.QtCore import QEvent, QPointF, QRectF, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QShowEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QSlider,
    QStyle,
    QStyleOptionSlider,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.closing_desk import Closing
from armorplan.desktop.closing_key_words import counts, marks_shown, shades_shown
from armorplan.desktop.closing_lost_words import Tone, late_places, lost_words
from armorplan.desktop.closing_words import place_words, way_words
from armorplan.desktop.standing_glyphs import paint_standing, standing_colour
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.closing_key import (
    SignsKey,
    count_signs,
    mark_signs,
    shade_signs,
)
from armorplan.geometry.reach.model import Standing

BUTTON_PX = 36
LOST_PX = 9.0
KEY_FROM_PX = 860
"""In a window lower than this the key stays folded until it is asked for: the picture has the room."""


class OrderSlider(QSlider):
    """Runs along the order; a cross under it where something not set yet falls out of reach."""

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


class ClosingBar(QWidget):
    """Slider, step buttons and words; ``moved`` carries how many steps shall be done."""

    moved = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("closing_bar")
        self._said = ""
        self._tone = Tone.PLAIN
        self._closing: Closing | None = None
        self._is_new = True
        self._is_tight = self._was_open = False
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
        self.key = SignsKey(self)
        self.key.setObjectName("closing_key")
        self.marks = SignsKey(self)
        self.marks.setObjectName("closing_marks")
        self.fold = self._folding()
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

    def _folding(self) -> QToolButton:
        fold = QToolButton(self)
        fold.setObjectName("closing_fold")
        fold.setText(self.tr("Key"))
        fold.setToolTip(
            self.tr("What the lines, rings and numbers over the parts mean, and what is lost next")
        )
        fold.setAccessibleName(fold.toolTip())
        fold.setMinimumSize(BUTTON_PX, BUTTON_PX)
        fold.setCheckable(True)
        fold.toggled.connect(self._unfold)
        return fold

    def _unfold(self) -> None:
        if self._closing is not None:
            self.show_closing(self._closing)

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
        for widget, share in ((self.back, 0), (self.slider, 1), (self.onward, 0), (self.fold, 0)):
            across.addWidget(widget, share)
        down = QVBoxLayout(self)
        down.setContentsMargins(6, 2, 6, 4)
        down.setSpacing(2)
        down.addLayout(across)
        for line in (self.place, self.lost, self.way, self.key, self.marks):
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
        self._closing = None
        self.key.hide()
        self.marks.hide()

    def fail(self, sentence: str) -> None:
        """Say why nothing is shown."""
        self.wait()
        self._write(self.place, sentence)

    def show_closing(self, closing: Closing) -> None:
        """Show a place in the order."""
        stops, at = closing.track.stops, closing.frame.at
        with QSignalBlocker(self.slider):
            self.slider.setRange(0, len(stops))
            if not self.slider.isSliderDown():
                self.slider.setValue(at)
        late = late_places(closing.lost, stops)
        self.slider.show_lost(late)
        self.back.setEnabled(at > 0)
        self.onward.setEnabled(at < len(stops))
        self._write(self.place, place_words(stops, at))
        self._closing, is_open = closing, self.fold.isChecked()
        told, self._tone = lost_words(closing.lost, closing.frame, stops, asked=is_open)
        has_room = is_open or not self._is_tight
        self._write(self.lost, told, shows=has_room or self._tone is Tone.ALARM)
        self._tint()
        self._write(self.way, way_words(closing.way) if closing.way else "", shows=has_room)
        self.key.setVisible(bool(stops) and (is_open or (has_room and closing.way is None)))
        self.key.show_signs(count_signs(counts(closing.frame)), self.tr("Joints: {0}"))
        shown = marks_shown(closing.frame, closing.way, late)
        signs = (*shade_signs(shades_shown(closing.frame)), *mark_signs(shown))
        self.marks.show_signs(signs, self.tr("Marks: {0}"))
        self.marks.setVisible(is_open and bool(signs))
        self._speak()

    def make_room(self, *, is_tight: bool) -> None:
        """Fold to the slider and the place in the order where there is little room."""
        if is_tight == self._is_tight:
            return
        self._is_tight = is_tight
        if is_tight:
            self._was_open = self.fold.isChecked()
        self.fold.setChecked(self._was_open and not is_tight)
        self._unfold()

    def high_px(self) -> int:
        """Return how high it is at its width."""
        layout = self.layout()
        return layout.totalHeightForWidth(self.width()) if layout else self.height()

    def _write(self, line: QLabel, words: str, *, shows: bool = True) -> None:
        line.setText(words)
        line.setVisible(bool(words) and shows)

    def _speak(self) -> None:
        told = " ".join(line.text() for line in (self.place, self.lost, self.way) if line.text())
        self.slider.setAccessibleDescription(told)
        if told != self._said:
            self._said = told
            announce(self.slider, told)

    def _tint(self) -> None:
        colours, palette = colours_of(self.palette()), self.lost.palette()
        tones = {Tone.ALARM: colours.alarm, Tone.PLAIN: colours.text, Tone.QUIET: colours.quiet}
        tone = QColor(tones[self._tone])
        if tone != palette.color(palette.ColorRole.WindowText):
            palette.setColor(palette.ColorRole.WindowText, tone)
            self.lost.setPalette(palette)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._is_new:
            self._is_new = False
            self._was_open = self.window().height() >= KEY_FROM_PX
            self.fold.setChecked(self._was_open and not self._is_tight)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._tint()
