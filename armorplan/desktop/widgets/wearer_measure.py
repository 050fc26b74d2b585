"""One measure of a wearer: typed bare or over the padding, with its place among adults beside it."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QWidget

from armorplan.app.wearer_desk import AskedMeasure
from armorplan.app.wearer_measures import unit_question
from armorplan.desktop.theme import colours_of
from armorplan.desktop.wearer_fields import Unit, shown
from armorplan.workshop.measures import RARE_PCT, MeasureKind, Sex

BAR_PX, HIGH_PX = 64, 18
FIELD_PX = 70
_ENDS = (5.0, 95.0)


class PercentileBar(QWidget):
    """A line from rare to rare, the middle nine tenths thicker, with a mark where a value stands."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._percent: float | None = None
        self.setMinimumSize(BAR_PX, HIGH_PX)

    def show_percent(self, percent: float | None) -> None:
        """Show a percentile, or nothing where none is known."""
        self._percent = percent
        words = self.tr("percentile not known") if percent is None else self.words(percent)
        self.setAccessibleName(words)
        self.setToolTip(words)
        self.update()

    def words(self, percent: float) -> str:
        """Say a percentile."""
        return self.tr("{0} of 100 adults of that sex measure less").format(f"{percent:.0f}")

    def sizeHint(self) -> QSize:
        return QSize(2 * BAR_PX, HIGH_PX)

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._percent is None:
            return
        painter, colours = QPainter(self), colours_of(self.palette())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        wide, middle = self.width() - 12.0, self.height() / 2
        painter.setPen(QPen(QColor(colours.line), 1.5))
        painter.drawLine(6, int(middle), int(6 + wide), int(middle))
        low, high = (6 + wide * end / 100 for end in _ENDS)
        painter.setPen(QPen(QColor(colours.line), 5))
        painter.drawLine(int(low), int(middle), int(high), int(middle))
        rare = not RARE_PCT[0] <= self._percent <= RARE_PCT[1]
        at = 6 + wide * min(100.0, max(0.0, self._percent)) / 100
        painter.setPen(QPen(QColor(colours.panel), 1.5))
        painter.setBrush(QColor(colours.alarm if rare else colours.focus))
        mark = QRectF(at - 5, middle - 7, 10, 14)
        # A rare value has another shape too, not only another colour.
        if rare:
            painter.drawRect(mark)
        else:
            painter.drawEllipse(mark)
        painter.end()


class MeasureFields:
    """The fields of one measure in a grid; ``changed`` of the form hears them."""

    def __init__(self, asked: AskedMeasure, grid: QGridLayout, row: int, parent: QWidget) -> None:
        self.asked = asked
        measure = asked.measure
        self.label = QLabel(measure.name, parent)
        self.bare = QLineEdit(parent)
        self.padded = QLineEdit(parent)
        self.bar = PercentileBar(parent)
        self.drawn = QLabel(parent)
        self.question = QLabel(parent)
        self._name(measure.name, measure.taken)
        grid.addWidget(self.label, row, 0)
        grid.addWidget(self.bare, row, 1)
        grid.addWidget(self.padded, row, 2)
        grid.addWidget(self.drawn, row, 3)
        grid.addWidget(self.bar, row, 4)
        grid.addWidget(self.question, row + 1, 0, 1, 5)
        self.label.setBuddy(self.bare)
        self.question.setWordWrap(True)
        self.question.hide()
        self.padded.setVisible(measure.kind is MeasureKind.GIRTH)

    def _name(self, name: str, taken: str) -> None:
        tr = self.label.tr
        for field, spoken, kind in (
            (self.bare, tr("{0}, on the body").format(name), "bare"),
            (self.padded, tr("{0}, over the padding").format(name), "padded"),
        ):
            field.setObjectName(f"wearer_{kind}_{self.asked.measure.id}")
            field.setAccessibleName(spoken)
            field.setAccessibleDescription(taken)
            field.setToolTip(taken)
            field.setMaximumWidth(FIELD_PX)
        self.label.setToolTip(taken)
        self.question.setObjectName(f"wearer_question_{self.asked.measure.id}")

    def show_values(self, bare_mm: float | None, padded_mm: float | None, unit: Unit) -> None:
        """Show what is kept of a wearer."""
        self.bare.setText(shown(bare_mm, unit))
        self.padded.setText(shown(padded_mm, unit))

    def show_place(self, bare_mm: float | None, sex: Sex | None, unit: Unit) -> None:
        """Show where a value stands among adults, and ask where it is rare."""
        measure = self.asked.measure
        self.drawn.setText(shown(self.asked.drawn_mm, unit))
        percent = None if bare_mm is None else measure.percentile(bare_mm, sex)
        self.bar.show_percent(percent)
        asked = "" if bare_mm is None else unit_question(measure, bare_mm, sex)
        self.question.setText(asked)
        self.question.setVisible(bool(asked))


class Described(QLabel):
    """Says where the measure is taken whose field has the keyboard."""

    def show_of(self, fields: tuple[MeasureFields, ...], focused: QWidget | None) -> None:
        """Say it; what was said stays while no field of a measure has the keyboard."""
        for one in fields:
            if focused in (one.bare, one.padded):
                self.setText(f"{one.asked.measure.name}: {one.asked.measure.taken}")
                self.setTextFormat(Qt.TextFormat.PlainText)
