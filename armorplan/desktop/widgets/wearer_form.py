"""The fields of a wearer: who, which sex, how thick the padding, and each measure the pattern follows."""

from itertools import pairwise

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import (
    QApplication,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.wearer_desk import WearerView
from armorplan.desktop.wearer_fields import Typed, Unit, wearer_of
from armorplan.desktop.widgets.wearer_measure import Described, MeasureFields, MeasureGrid
from armorplan.desktop.widgets.wearer_who import WhoFields
from armorplan.workshop.wearers import Wearer


class WearerForm(QWidget):
    """``changed`` says that something else is typed or chosen."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("wearer_form")
        self.who = WhoFields(self)
        self.described = Described(self)
        self.fields: tuple[MeasureFields, ...] = ()
        self._grid = MeasureGrid(self)
        self._view: WearerView | None = None
        self._unit = Unit.MM
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        self.described.setObjectName("wearer_taken")
        self.described.setWordWrap(True)
        scroll = QScrollArea(self)
        scroll.setObjectName("wearer_measures")
        scroll.setWidgetResizable(True)
        scroll.setWidget(self._grid)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self.who)
        whole.addWidget(scroll, 1)
        whole.addWidget(self.described)

    def _connect(self) -> None:
        self.who.wearers.currentIndexChanged.connect(lambda: self._show(self.former))
        self.who.new.clicked.connect(self.begin_new)
        for line in (self.who.name, self.who.padding):
            line.textChanged.connect(self._changed)
        for box in (self.who.sex, self.who.side):
            box.currentIndexChanged.connect(self._changed)
        self.who.unit.currentIndexChanged.connect(self._turn_unit)
        QApplication.instance().focusChanged.connect(self._describe)  # type: ignore[union-attr]

    # --- what is shown ----------------------------------------------------------------------

    def show_view(self, view: WearerView, wearer: str = "") -> None:
        """Show the wearers and measures of a pattern; who is chosen stays, and what is typed of them."""
        before = self.former.id if self.former else ""
        typed = self.wearer() if self._view is not None else None
        is_same = self._view is not None and self._view.measures == view.measures
        self._view = view
        if not is_same:
            self._make_fields(view)
        blocker = QSignalBlocker(self.who.wearers)
        is_new = typed is not None and not before
        self.who.show_wearers(view.read.wearers, wearer or before, stays=is_new)
        blocker.unblock()
        after = self.former.id if self.former else ""
        if typed is None or after != before:
            self._show(self.former)
        elif isinstance(typed, Wearer):
            self._show_typed(typed)

    def _make_fields(self, view: WearerView) -> None:
        self.fields = self._grid.filled(view.measures)
        order: list[QWidget] = [self.who.unit]
        for one in self.fields:
            order += [one.bare, one.padded]
            for line in (one.bare, one.padded):
                line.textChanged.connect(self._changed)
        for before, after in pairwise(order):
            self.setTabOrder(before, after)

    @property
    def former(self) -> Wearer | None:
        """The wearer as kept, that is chosen; ``None`` of a new one."""
        wearer = self.who.wearers.currentData()
        known = self._view.read.wearers if self._view else ()
        return next((one for one in known if one.id == wearer), None)

    def begin_new(self) -> None:
        """Begin a wearer with empty fields."""
        blocker = QSignalBlocker(self.who.wearers)
        self.who.wearers.setCurrentIndex(-1)
        blocker.unblock()
        self._show(None)
        self.who.name.setFocus()

    def choose(self, wearer: str) -> bool:
        """Choose a wearer by id; tell whether there is such a one."""
        at = self.who.wearers.findData(wearer)
        if at >= 0:
            self.who.wearers.setCurrentIndex(at)
        return at >= 0

    def _show(self, wearer: Wearer | None) -> None:
        held: list[QWidget] = [self.who.name, self.who.sex, self.who.padding]
        held += [line for one in self.fields for line in (one.bare, one.padded)]
        blockers = [QSignalBlocker(widget) for widget in held]
        self.who.show_wearer(wearer)
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
        typed, self._unit = self.wearer(), self.who.unit.currentData()
        if isinstance(typed, Wearer):
            self._show_typed(typed)
        else:
            self._changed()

    def _show_typed(self, typed: Wearer) -> None:
        """Show anew what is typed; who has no name yet gets none by it."""
        words = self.who.name.text()
        self._show(typed)
        blocker = QSignalBlocker(self.who.name)
        self.who.name.setText(words)
        blocker.unblock()

    # --- what is typed ----------------------------------------------------------------------

    def wearer(self) -> Wearer | str:
        """Return the wearer that is typed, or what of it cannot be read."""
        former = self.former
        typed = Typed(
            id=former.id if former else "",
            name=self.who.name.text(),
            sex=self.who.chosen_sex,
            padding=self.who.padding.text(),
            unit=self._unit,
            bare={one.asked.measure.id: one.bare.text() for one in self.fields},
            padded={one.asked.measure.id: one.padded.text() for one in self.fields},
        )
        return wearer_of(typed, former)

    def _changed(self) -> None:
        typed = self.wearer()
        known = typed if isinstance(typed, Wearer) else None
        for one in self.fields:
            one.show_place(known, self.who.chosen_sex, self._unit)
        self.changed.emit()

    def _describe(self, _before: QWidget | None, now: QWidget | None) -> None:
        self.described.show_of(self.fields, now)
