"""The line of fields that says what cuts, on which bed, with which margin and kerf."""

from itertools import pairwise

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QLineEdit, QWidget

from armorplan.desktop.cut_fields import asked_of, cutter_words
from armorplan.needs.cutting.model import USUAL_MARGIN_MM, CutAsked, Cutter

BED, MARGIN = "600 x 400", f"{USUAL_MARGIN_MM:g}"
FIELD_PX = 100


class CutAsking(QWidget):
    """``changed`` says that something else is asked, or that it cannot be read."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.cutters = QComboBox(self)
        self.bed = QLineEdit(BED, self)
        self.margin = QLineEdit(MARGIN, self)
        self.kerf = QLineEdit("0", self)
        for cutter in Cutter:
            self.cutters.addItem(cutter_words(cutter), cutter)
        self._lay_out()
        self.cutters.currentIndexChanged.connect(self.changed)
        for field in self.fields:
            field.textChanged.connect(self.changed)
        self.setFocusProxy(self.cutters)

    @property
    def fields(self) -> tuple[QLineEdit, ...]:
        """The fields one types in."""
        return self.bed, self.margin, self.kerf

    def _lay_out(self) -> None:
        across = QHBoxLayout(self)
        across.setContentsMargins(0, 0, 0, 0)
        for field, name, words, said in (
            (self.cutters, "cut_by", self.tr("Cut &with"), self.tr("Cut with")),
            (
                self.bed,
                "cut_bed",
                self.tr("Be&d, mm"),
                self.tr("Bed in mm, the hide's backbone along the first side"),
            ),
            (
                self.margin,
                "cut_margin",
                self.tr("&Free between, mm"),
                self.tr("Free between blanks and at the edges, in mm"),
            ),
            (
                self.kerf,
                "cut_kerf",
                self.tr("&Kerf, mm"),
                self.tr("How wide the cut takes leather away, in mm"),
            ),
        ):
            label = QLabel(words, self)
            label.setBuddy(field)
            field.setObjectName(name)
            field.setAccessibleName(said)
            field.setToolTip(said)
            across.addWidget(label)
            across.addWidget(field)
        for field in self.fields:
            field.setMaximumWidth(FIELD_PX)
        across.addStretch(1)
        for one, other in pairwise((self.cutters, *self.fields)):
            self.setTabOrder(one, other)

    def asked(self) -> CutAsked | str:
        """Return what is asked, or what of it cannot be read."""
        cutter = Cutter(self.cutters.currentData())
        return asked_of(cutter, self.bed.text(), self.margin.text(), self.kerf.text())
