"""The line of fields that says what cuts, on which bed, with which margin and kerf."""

from itertools import pairwise

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QLineEdit, QWidget

from armorplan.desktop.cut_fields import asked_of, cutter_words
from armorplan.desktop.settings import CUTTING
from armorplan.desktop.widgets.flow import Flow, named_field
from armorplan.needs.cutting.model import CutAsked, Cutter

FRAME_PX = 12
"""Of a field, beside its letters."""


class CutAsking(Flow):
    """``changed`` says that something else is asked, or that it cannot be read."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.cutters = QComboBox(self)
        self.bed = QLineEdit(self)
        self.margin = QLineEdit(self)
        self.kerf = QLineEdit(self)
        for cutter in Cutter:
            self.cutters.addItem(cutter_words(cutter), cutter.value)
        self._put_fields()
        self.take(CUTTING.default)
        self.cutters.currentIndexChanged.connect(self.changed)
        for field in self.fields:
            field.textChanged.connect(self.changed)
        self.setFocusProxy(self.cutters)

    @property
    def fields(self) -> tuple[QLineEdit, ...]:
        """The fields one types in."""
        return self.bed, self.margin, self.kerf

    def _put_fields(self) -> None:
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
            field.setObjectName(name)
            field.setAccessibleName(said)
            field.setToolTip(said)
            self.add(named_field(words, field, self))
        for field, letters in ((self.bed, 12), (self.margin, 5), (self.kerf, 5)):
            room_px = self.fontMetrics().horizontalAdvance("0" * letters) + FRAME_PX
            field.setFixedWidth(room_px)
        for one, other in pairwise((self.cutters, *self.fields)):
            self.setTabOrder(one, other)

    def typed(self) -> str:
        """Return what stands in the fields, as ``take`` takes it."""
        words = (field.text().replace(";", " ").strip() for field in self.fields)
        return "; ".join((str(self.cutters.currentData()), *words))

    def take(self, typed: str) -> None:
        """Put into the fields what stood in them before."""
        cutter, *words = (word.strip() for word in typed.split(";"))
        self.cutters.setCurrentIndex(max(self.cutters.findData(cutter), 0))
        for field, word in zip(self.fields, words, strict=False):
            field.setText(word)

    def asked(self) -> CutAsked | str:
        """Return what is asked, or what of it cannot be read."""
        cutter = Cutter(self.cutters.currentData())
        return asked_of(cutter, self.bed.text(), self.margin.text(), self.kerf.text())
