"""What each measure was when a pattern was drawn: a field in mm for each that some part follows."""

from collections.abc import Callable, Mapping
from functools import partial
from itertools import pairwise

from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QWidget

from armorplan.app.wearer_following import suggested_mm
from armorplan.desktop.wearer_fields import Unit, length_mm, shown
from armorplan.workshop.measures import BodyMeasure, MeasureKind

FIELD_PX = 90


class DrawnFields(QWidget):
    """The fields come and go with what the parts follow; what was typed into one that went is kept."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.fields: dict[str, QLineEdit] = {}
        self._typed: dict[str, str] = {}
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setColumnStretch(2, 1)

    def begin(self) -> None:
        """Forget what was typed."""
        self._typed, self.fields = {}, {}
        self._clear()

    def show_measures(
        self, measures: tuple[BodyMeasure, ...], drawn_mm: Mapping[str, float]
    ) -> None:
        """Show a field for each measure, with what was typed, else what the pattern says."""
        if tuple(self.fields) == tuple(measure.id for measure in measures):
            return
        self._clear()
        self.fields = {}
        for row, measure in enumerate(measures):
            line = self._field(measure, drawn_mm.get(measure.id))
            label = QLabel(measure.name, self)
            label.setBuddy(line)
            unit = QLabel(self._unit(measure), self)
            for column, widget in enumerate((label, line, unit)):
                self._grid.addWidget(widget, row, column)
            self.fields[measure.id] = line

    def _clear(self) -> None:
        while (item := self._grid.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()

    def _unit(self, measure: BodyMeasure) -> str:
        if measure.kind is MeasureKind.GIRTH:
            return self.tr("mm, over the padding")
        return self.tr("mm")

    def _field(self, measure: BodyMeasure, held_mm: float | None) -> QLineEdit:
        line, middle = QLineEdit(self), suggested_mm(measure)
        line.setObjectName(f"wearer_drawn_{measure.id}")
        line.setAccessibleName(
            self.tr("{0} when it was drawn, {1}").format(measure.name, self._unit(measure))
        )
        line.setMaximumWidth(FIELD_PX)
        told = measure.taken
        if middle is not None:
            line.setPlaceholderText(f"{middle:g}")
            told = self.tr("Of adults the middle is {0} mm. {1}").format(f"{middle:g}", told)
        line.setToolTip(told)
        line.setText(self._typed.get(measure.id, shown(held_mm, Unit.MM)))
        line.textChanged.connect(partial(self._typed.__setitem__, measure.id))
        return line

    def chain(self, before: QWidget, after: QWidget, in_turn: Callable[..., None]) -> None:
        """Put the fields between two others in the order of Tab."""
        for one, other in pairwise((before, *self.fields.values(), after)):
            in_turn(one, other)

    def typed_mm(self) -> dict[str, float | None] | str:
        """Return by measure what is typed, or what of it cannot be read."""
        found: dict[str, float | None] = {}
        for measure, line in self.fields.items():
            value = length_mm(line.text(), Unit.MM)
            if isinstance(value, str):
                return self.tr("{0}: {1}").format(line.accessibleName(), value)
            found[measure] = value
        return found
