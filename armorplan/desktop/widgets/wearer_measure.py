"""One measure of a wearer: typed bare or over the padding, with its place among adults beside it."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from armorplan.app.wearer_desk import AskedMeasure
from armorplan.app.wearer_measures import unit_question
from armorplan.desktop.theme import colours_of
from armorplan.desktop.wearer_fields import Unit, shown
from armorplan.workshop.measures import RARE_PCT, MeasureKind, Sex
from armorplan.workshop.wearers import Wearer

BAR_PX, HIGH_PX = 64, 18
FIELD_PX = 70
_ENDS = (5.0, 95.0)
_BAR_COLUMN = 4


class PercentileBar(QWidget):
    """A line from rare to rare, the middle nine tenths thicker, a mark where a value stands, and its number.

    Where nobody has figures, that is said in its place.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._percent: float | None = None
        self._why = ""
        self.setMinimumSize(BAR_PX, HIGH_PX)

    def show_percent(self, percent: float | None, why: str = "") -> None:
        """Show a percentile, or in words why none is known."""
        self._percent, self._why = percent, why
        words = why or self.tr("percentile not known")
        words = words if percent is None else self.words(percent)
        self.setAccessibleName(words)
        self.setToolTip(words)
        self.update()

    def words(self, percent: float) -> str:
        """Say a percentile."""
        return self.tr("{0} of 100 adults of that sex measure less").format(f"{percent:.0f}")

    def sizeHint(self) -> QSize:
        return QSize(2 * BAR_PX, HIGH_PX)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter, colours = QPainter(self), colours_of(self.palette())
        if self._percent is None:
            painter.setPen(QColor(colours.quiet))
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignVCenter, self._why)
            painter.end()
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        number = f"{self._percent:.0f}"
        side = float(self.fontMetrics().horizontalAdvance("100 "))
        painter.setPen(QColor(colours.text))
        right = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight
        painter.drawText(self.rect(), int(right), number)
        wide, middle = self.width() - 12.0 - side, self.height() / 2
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

    def __init__(
        self, asked: AskedMeasure, grid: QGridLayout, rows: tuple[int, int], parent: QWidget
    ) -> None:
        """Make them in one row of a grid, and its question far below, so that no field is pushed away."""
        self.asked = asked
        self._meant: tuple[QLineEdit, str] | None = None
        row, below = rows
        measure = asked.measure
        self.label = QLabel(measure.name, parent)
        self.bare = QLineEdit(parent)
        self.padded = QLineEdit(parent)
        self.bar = PercentileBar(parent)
        self.drawn = QLabel(parent)
        self.question = QLabel(parent)
        self.mend = QPushButton(parent)
        self._name(measure.name, measure.taken)
        grid.addWidget(self.label, row, 0)
        grid.addWidget(self.bare, row, 1)
        grid.addWidget(self.padded, row, 2)
        grid.addWidget(self.drawn, row, 3)
        grid.addWidget(self.bar, row, 4)
        grid.addWidget(self.question, below, 0, 1, 5)
        grid.addWidget(self.mend, below + 1, 0, 1, 5, Qt.AlignmentFlag.AlignLeft)
        self.label.setBuddy(self.bare)
        self.question.setWordWrap(True)
        for told in (self.question, self.mend):
            told.hide()
        self.mend.setAutoDefault(False)
        self.mend.clicked.connect(self._take_meant)
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
        self.mend.setObjectName(f"wearer_mend_{self.asked.measure.id}")

    def show_values(self, bare_mm: float | None, padded_mm: float | None, unit: Unit) -> None:
        """Show what is kept of a wearer."""
        self.bare.setText(shown(bare_mm, unit))
        self.padded.setText(shown(padded_mm, unit))

    def show_place(self, wearer: Wearer | None, sex: Sex | None, unit: Unit) -> None:
        """Show where a value stands among adults, and ask where it is rare."""
        measure = self.asked.measure
        self.drawn.setText(shown(self.asked.drawn_mm, unit))
        bare_mm = wearer.measures.get(measure.id) if wearer else None
        padded_mm = wearer.padded.get(measure.id) if wearer else None
        percent = None if bare_mm is None else measure.percentile(bare_mm, sex)
        self.bar.show_percent(percent, "" if measure.usual(None) else self.bar.tr("no figures"))
        line, value_mm, over_mm = self.bare, bare_mm, 0.0
        if padded_mm is not None:
            line, value_mm, over_mm = self.padded, padded_mm, measure.usual_over_mm
        asked, meant = "", tuple[tuple[float, str], ...]()
        if value_mm is not None:
            asked = unit_question(measure, value_mm, sex, over_mm=over_mm)
            meant = measure.meant(value_mm, sex, over_mm=over_mm)
        self._ask(asked, (line, shown(meant[0][0], unit)) if meant else None, unit)

    def _ask(self, asked: str, meant: tuple[QLineEdit, str] | None, unit: Unit) -> None:
        """Ask below the fields, with a button that takes what is likely meant."""
        self._meant = meant
        words = self.label.tr("{0}: {1}").format(self.asked.measure.name, asked)
        self.question.setText(words if asked else "")
        self.question.setVisible(bool(asked))
        if meant is not None:
            told = self.label.tr("Take {0} as {1} {2}")
            self.mend.setText(told.format(self.asked.measure.name, meant[1], unit.sign))
        self.mend.setVisible(bool(asked) and meant is not None)

    def _take_meant(self) -> None:
        if self._meant is not None:
            line, words = self._meant
            line.setText(words)
            line.setFocus()


class MeasureGrid(QWidget):
    """The fields of all measures, a row for each, and what is asked of them below."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._grid = QGridLayout()
        self._grid.setColumnStretch(_BAR_COLUMN, 1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addLayout(self._grid)
        whole.addStretch(1)

    def filled(self, measures: tuple[AskedMeasure, ...]) -> tuple[MeasureFields, ...]:
        """Return new fields for these measures, in place of what was there."""
        while (item := self._grid.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.deleteLater()
        heads = (
            "",
            self.tr("on the body"),
            self.tr("over padding"),
            self.tr("drawn for"),
            self.tr("among adults"),
        )
        for column, words in enumerate(heads if measures else ()):
            head = QLabel(words, self)
            head.setWordWrap(True)
            self._grid.addWidget(head, 0, column)
        return tuple(
            MeasureFields(asked, self._grid, (1 + at, 1 + len(measures) + 2 * at), self)
            for at, asked in enumerate(measures)
        )


class Described(QLabel):
    """Says where the measure is taken whose field has the keyboard."""

    def show_of(self, fields: tuple[MeasureFields, ...], focused: QWidget | None) -> None:
        """Say it; what was said stays while no field of a measure has the keyboard."""
        for one in fields:
            if focused in (one.bare, one.padded):
                self.setText(f"{one.asked.measure.name}: {one.asked.measure.taken}")
                self.setTextFormat(Qt.TextFormat.PlainText)
