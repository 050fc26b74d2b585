"""The fields of a wearer: who, which sex, how thick the padding, and each measure the pattern follows."""

from itertools import pairwise

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import (
    QApplication,
    QComboBox,
    QFormLayout,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.wearer_desk import WearerView
from armorplan.desktop.wearer_fields import Typed, Unit, shown, wearer_of
from armorplan.desktop.widgets.wearer_measure import Described, MeasureFields
from armorplan.workshop.measures import Sex
from armorplan.workshop.wearers import SIDES, Wearer

_PADDING_PX = 84
_BAR_COLUMN = 4


class WearerForm(QWidget):
    """``changed`` says that something else is typed or chosen."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("wearer_form")
        self.wearers = QComboBox(self)
        self.new = QPushButton(self.tr("&New wearer"), self)
        self.name = QLineEdit(self)
        self.sex = QComboBox(self)
        self.side = QComboBox(self)
        self.unit = QComboBox(self)
        self.padding = QLineEdit(self)
        self.described = Described(self)
        self.fields: tuple[MeasureFields, ...] = ()
        self._grid = QGridLayout()
        self._grid.setColumnStretch(_BAR_COLUMN, 1)
        self._view: WearerView | None = None
        self._unit = Unit.MM
        self._fill()
        self._name_all()
        self._lay_out()
        self._connect()

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
        self.described.setObjectName("wearer_taken")
        self.described.setWordWrap(True)

    def _lay_out(self) -> None:
        who = QHBoxLayout()
        who.addWidget(self.wearers, 1)
        who.addWidget(self.new)
        form = QFormLayout()
        label = QLabel(self.tr("&Wearer"), self)
        label.setBuddy(self.wearers)
        form.addRow(label, who)
        form.addRow(self.tr("N&ame"), self.name)
        form.addRow(self.tr("Se&x, for percentiles"), self.sex)
        form.addRow(self.tr("Fi&t to"), self.side)
        form.addRow(self.tr("&Padding, mm"), self.padding)
        form.addRow(self.tr("Measures &in"), self.unit)
        inside = QWidget(self)
        held = QVBoxLayout(inside)
        held.setContentsMargins(0, 0, 0, 0)
        held.addLayout(self._grid)
        held.addStretch(1)
        scroll = QScrollArea(self)
        scroll.setObjectName("wearer_measures")
        scroll.setWidgetResizable(True)
        scroll.setWidget(inside)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addLayout(form)
        whole.addWidget(scroll, 1)
        whole.addWidget(self.described)

    def _connect(self) -> None:
        self.wearers.currentIndexChanged.connect(self._show_chosen)
        self.new.clicked.connect(self.begin_new)
        for line in (self.name, self.padding):
            line.textChanged.connect(self._changed)
        for box in (self.sex, self.side):
            box.currentIndexChanged.connect(self._changed)
        self.unit.currentIndexChanged.connect(self._turn_unit)
        QApplication.instance().focusChanged.connect(self._describe)  # type: ignore[union-attr]

    # --- what is shown ----------------------------------------------------------------------

    def show_view(self, view: WearerView, wearer: str = "") -> None:
        """Show the wearers and measures of a pattern; stay with the one that is chosen."""
        chosen = wearer or (self.former.id if self.former else "")
        typed = self.wearer() if self._view is not None and self.former is None else None
        is_same = self._view is not None and self._view.measures == view.measures
        self._view = view
        if not is_same:
            self._make_fields(view)
        blocker = QSignalBlocker(self.wearers)
        self.wearers.clear()
        for one in view.read.wearers:
            self.wearers.addItem(one.name, one.id)
        at = self.wearers.findData(chosen)
        stays = at < 0 and typed is not None
        self.wearers.setCurrentIndex(at if stays else max(at, 0))
        self.wearers.setEnabled(self.wearers.count() > 0)
        blocker.unblock()
        # Who is typed and not kept yet stays as typed.
        if not stays:
            self._show_chosen()
        elif isinstance(typed, Wearer):
            self._show(typed)

    def _make_fields(self, view: WearerView) -> None:
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
        for column, words in enumerate(heads):
            head = QLabel(words, self)
            head.setWordWrap(True)
            self._grid.addWidget(head, 0, column)
        self.fields = tuple(
            MeasureFields(asked, self._grid, (1 + at, 1 + len(view.measures) + 2 * at), self)
            for at, asked in enumerate(view.measures)
        )
        order: list[QWidget] = [self.unit]
        for one in self.fields:
            order += [one.bare, one.padded]
            for line in (one.bare, one.padded):
                line.textChanged.connect(self._changed)
        for before, after in pairwise(order):
            self.setTabOrder(before, after)

    @property
    def former(self) -> Wearer | None:
        """The wearer as kept, that is chosen; ``None`` of a new one."""
        wearer = self.wearers.currentData()
        known = self._view.read.wearers if self._view else ()
        return next((one for one in known if one.id == wearer), None)

    def _show_chosen(self) -> None:
        self._show(self.former)

    def begin_new(self) -> None:
        """Begin a wearer with empty fields."""
        blocker = QSignalBlocker(self.wearers)
        self.wearers.setCurrentIndex(-1)
        blocker.unblock()
        self._show(None)
        self.name.setFocus()

    def choose(self, wearer: str) -> bool:
        """Choose a wearer by id; tell whether there is such a one."""
        at = self.wearers.findData(wearer)
        if at >= 0:
            self.wearers.setCurrentIndex(at)
        return at >= 0

    def _show(self, wearer: Wearer | None) -> None:
        held: list[QWidget] = [self.name, self.sex, self.padding]
        held += [line for one in self.fields for line in (one.bare, one.padded)]
        blockers = [QSignalBlocker(widget) for widget in held]
        self.name.setText(wearer.name if wearer else "")
        self.sex.setCurrentIndex(max(self.sex.findData(wearer.sex if wearer else None), 0))
        self.padding.setText(shown(wearer.padding_mm if wearer else None, Unit.MM))
        for one in self.fields:
            key = one.asked.measure.id
            bare = wearer.measures.get(key) if wearer else None
            padded = wearer.padded.get(key) if wearer else None
            one.show_values(bare, padded, self._unit)
        for blocker in blockers:
            blocker.unblock()
        self._changed()

    def _turn_unit(self) -> None:
        """Show what is typed in another unit; what cannot be read stays as it is."""
        typed, self._unit = self.wearer(), self.unit.currentData()
        if isinstance(typed, Wearer):
            self._show(typed)
        else:
            self._changed()

    # --- what is typed ----------------------------------------------------------------------

    def wearer(self) -> Wearer | str:
        """Return the wearer that is typed, or what of it cannot be read."""
        former = self.former
        typed = Typed(
            id=former.id if former else "",
            name=self.name.text(),
            sex=self.chosen_sex,
            padding=self.padding.text(),
            unit=self._unit,
            bare={one.asked.measure.id: one.bare.text() for one in self.fields},
            padded={one.asked.measure.id: one.padded.text() for one in self.fields},
        )
        return wearer_of(typed, former)

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

    def _changed(self) -> None:
        typed = self.wearer()
        known = typed if isinstance(typed, Wearer) else None
        for one in self.fields:
            one.show_place(known, self.chosen_sex, self._unit)
        self.changed.emit()

    def _describe(self, _before: QWidget | None, now: QWidget | None) -> None:
        self.described.show_of(self.fields, now)
