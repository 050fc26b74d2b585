"""Who a pattern is fitted to: chosen or new, called what, which sex and side, how thick the padding."""

from PySide6.QtWidgets import (
    QComboBox,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QWidget,
)

from armorplan.desktop.wearer_fields import Unit, shown
from armorplan.workshop.measures import Sex
from armorplan.workshop.wearers import SIDES, Wearer

_PADDING_PX = 84


class WhoFields(QWidget):
    """The fields above the measures; the form that holds them hears them."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.wearers = QComboBox(self)
        self.new = QPushButton(self.tr("&New wearer"), self)
        self.name = QLineEdit(self)
        self.sex = QComboBox(self)
        self.side = QComboBox(self)
        self.padding = QLineEdit(self)
        self.unit = QComboBox(self)
        self._fill()
        self._name_all()
        self._lay_out()

    def _fill(self) -> None:
        for words, sex in (
            (self.tr("not said"), None),
            (self.tr("female"), Sex.FEMALE),
            (self.tr("male"), Sex.MALE),
        ):
            self.sex.addItem(words, sex)
        for words, side in (
            (self.tr("both alike"), ""),
            (self.tr("the left"), SIDES[0]),
            (self.tr("the right"), SIDES[1]),
        ):
            self.side.addItem(words, side)
        for unit in Unit:
            self.unit.addItem(unit.sign, unit)

    def _name_all(self) -> None:
        for field, name, spoken in (
            (self.wearers, "wearer_chosen", self.tr("Wearer")),
            (self.new, "wearer_new", self.tr("New wearer")),
            (self.name, "wearer_name", self.tr("What the wearer is called")),
            (self.sex, "wearer_sex", self.tr("Sex, for the percentiles only")),
            (self.side, "wearer_side", self.tr("Side to fit to")),
            (self.unit, "wearer_unit", self.tr("Unit in which the measures are typed")),
            (self.padding, "wearer_padding", self.tr("Thickness of the padding in mm")),
        ):
            field.setObjectName(name)
            field.setAccessibleName(spoken)
            field.setToolTip(spoken)
        self.new.setAutoDefault(False)
        self.padding.setMaximumWidth(_PADDING_PX)

    def _lay_out(self) -> None:
        who = QHBoxLayout()
        who.addWidget(self.wearers, 1)
        who.addWidget(self.new)
        form = QFormLayout(self)
        form.setContentsMargins(0, 0, 0, 0)
        label = QLabel(self.tr("&Wearer"), self)
        label.setBuddy(self.wearers)
        form.addRow(label, who)
        form.addRow(self.tr("N&ame"), self.name)
        form.addRow(self.tr("Se&x, for percentiles"), self.sex)
        form.addRow(self.tr("Fi&t to"), self.side)
        form.addRow(self.tr("&Padding, mm"), self.padding)
        form.addRow(self.tr("Measures &in"), self.unit)

    def show_wearer(self, wearer: Wearer | None) -> None:
        """Show one wearer, or empty fields."""
        self.name.setText(wearer.name if wearer else "")
        self.sex.setCurrentIndex(max(self.sex.findData(wearer.sex if wearer else None), 0))
        self.padding.setText(shown(wearer.padding_mm if wearer else None, Unit.MM))

    def show_wearers(self, wearers: tuple[Wearer, ...], chosen: str, *, stays: bool) -> None:
        """Offer these wearers.

        Args:
            wearers: those that are kept.
            chosen: id of the one to choose; the first where there is no such one.
            stays: who is typed is not kept yet, and no reason to choose another.
        """
        self.wearers.clear()
        for one in wearers:
            self.wearers.addItem(one.name, one.id)
        at = self.wearers.findData(chosen)
        self.wearers.setCurrentIndex(at if stays else max(at, 0))
        self.wearers.setEnabled(self.wearers.count() > 0)

    @property
    def chosen_sex(self) -> Sex | None:
        """Whose figures the measures are held against."""
        # Qt gives a plain text back for one of ours.
        word = self.sex.currentData()
        return Sex(word) if word else None

    @property
    def chosen_side(self) -> str:
        """The side to fit to; empty for both."""
        return str(self.side.currentData())
