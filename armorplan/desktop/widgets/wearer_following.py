"""What a pattern was drawn for: which parts follow which measure, and how large each was."""

from dataclasses import replace
from functools import partial
from itertools import pairwise

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFormLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.wearer_desk import WearerView
from armorplan.app.wearer_following import Following, FollowingPart, suggested_mm
from armorplan.desktop.wearer_fields import Unit, length_mm, shown
from armorplan.workshop.measures import BodyMeasure, MeasureKind

FIELD_PX = 90
_WAYS = ("along", "around")


class WearerFollowing(QWidget):
    """Parts are chosen in a list, and below it what they follow; ``wanted`` carries all of it."""

    wanted = Signal(object)
    told = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._view: WearerView | None = None
        self._now = Following(parts=(), drawn_mm={})
        self._typed: dict[str, str] = {}
        self.intro = QLabel(self)
        self.list = QListWidget(self)
        self.along, self.around = QComboBox(self), QComboBox(self)
        self.measures = QWidget(self)
        self.fields: dict[str, QLineEdit] = {}
        self.save = QPushButton(self.tr("Write it into t&he pattern"), self)
        self._name_all()
        self._lay_out()
        self.list.itemSelectionChanged.connect(self._show_chosen)
        for box, way in zip((self.along, self.around), _WAYS, strict=True):
            box.activated.connect(partial(self._follow, way))
        self.save.clicked.connect(self._want)

    def _name_all(self) -> None:
        for widget, name, spoken in (
            (self.list, "wearer_follow_parts", self.tr("Parts, and what each follows")),
            (self.along, "wearer_follow_along", self.tr("The height of the chosen parts follows")),
            (
                self.around,
                "wearer_follow_around",
                self.tr("The width of the chosen parts follows"),
            ),
            (self.save, "wearer_follow_save", self.tr("Write it into the pattern")),
        ):
            widget.setObjectName(name)
            widget.setAccessibleName(spoken)
        self.list.setSelectionMode(QListWidget.SelectionMode.ExtendedSelection)
        self.save.setAutoDefault(False)
        self.intro.setWordWrap(True)
        self.intro.setText(
            self.tr(
                "Choose parts (Shift and Ctrl take several), then what they follow. Lengths follow "
                "lengths, girths follow girths; what follows nothing keeps its size."
            )
        )

    def _lay_out(self) -> None:
        form = QFormLayout()
        for words, box in (
            (self.tr("Hei&ght follows"), self.along),
            (self.tr("Width &follows; of a strap its length"), self.around),
        ):
            label = QLabel(words, self)
            label.setBuddy(box)
            label.setWordWrap(True)
            form.addRow(label, box)
        self._grid = QFormLayout(self.measures)
        self._grid.setContentsMargins(0, 0, 0, 0)
        whole = QVBoxLayout(self)
        whole.addWidget(self.intro)
        whole.addWidget(self.list, 1)
        whole.addLayout(form)
        whole.addWidget(self.measures)
        whole.addWidget(self.save, 0, Qt.AlignmentFlag.AlignLeft)

    # --- what is shown ----------------------------------------------------------------------

    def show_view(self, view: WearerView) -> None:
        """Show what the parts of a pattern follow; what was chosen here and not written yet stays."""
        is_same = self._view is not None and self._view.following == view.following
        self._view = view
        if is_same:
            return
        self._now, self._typed = view.following, {}
        self.list.clear()
        for part in view.following.parts:
            item = QListWidgetItem()
            item.setData(Qt.ItemDataRole.UserRole, part.id)
            self.list.addItem(item)
        for box, kind in ((self.along, MeasureKind.LENGTH), (self.around, MeasureKind.GIRTH)):
            box.clear()
            box.addItem(self.tr("nothing: it stays"), "")
            for measure in view.known:
                if measure.kind is kind:
                    box.addItem(measure.name, measure.id)
                    box.setItemData(box.count() - 1, measure.taken, Qt.ItemDataRole.ToolTipRole)
        if self.list.count():
            self.list.setCurrentRow(0)
        self._show_all()

    def _show_all(self) -> None:
        for at, part in enumerate(self._now.parts):
            self.list.item(at).setText(self._words(part))
        self._show_chosen()
        self._show_measures()

    def _words(self, part: FollowingPart) -> str:
        high, wide = (self._measure_name(one) for one in (part.along, part.around))
        if part.is_long:
            told = self.tr("length: {0}").format(wide) if wide else ""
        else:
            ways = ((self.tr("height: {0}"), high), (self.tr("width: {0}"), wide))
            told = ", ".join(words.format(name) for words, name in ways if name)
        return self.tr("{0} ({1}) – {2}").format(
            part.name, part.kind, told or self.tr("keeps its size")
        )

    def _known(self, measure: str) -> BodyMeasure | None:
        known = self._view.known if self._view else ()
        return next((one for one in known if one.id == measure), None)

    def _measure_name(self, measure: str) -> str:
        known = self._known(measure)
        return known.name if known else measure

    @property
    def chosen(self) -> tuple[FollowingPart, ...]:
        """The parts that are chosen."""
        ids = {item.data(Qt.ItemDataRole.UserRole) for item in self.list.selectedItems()}
        return tuple(part for part in self._now.parts if part.id in ids)

    def _show_chosen(self) -> None:
        chosen = self.chosen
        for box, way in ((self.along, "along"), (self.around, "around")):
            held = {getattr(part, way) for part in chosen}
            blocker = QSignalBlocker(box)
            box.setCurrentIndex(box.findData(held.pop()) if len(held) == 1 else -1)
            blocker.unblock()
        self.along.setEnabled(any(not part.is_long for part in chosen))
        self.around.setEnabled(bool(chosen))

    def _follow(self, way: str, _at: int) -> None:
        box = self.along if way == "along" else self.around
        along, around = (str(box.currentData()) if way == one else None for one in _WAYS)
        parts = (one.id for one in self.chosen)
        self._now = self._now.turned(parts, along=along, around=around)
        self._show_all()

    def _show_measures(self) -> None:
        used = self._now.used
        if tuple(self.fields) == used:
            return
        while self._grid.rowCount():
            self._grid.removeRow(0)
        self.fields = {measure: self._field(measure) for measure in used}
        for measure, field in self.fields.items():
            label = QLabel(self._asked(measure), self)
            label.setWordWrap(True)
            label.setBuddy(field)
            self._grid.addRow(label, field)
        order = [self.around, *self.fields.values(), self.save]
        for before, after in pairwise(order):
            self.setTabOrder(before, after)

    def _asked(self, measure: str) -> str:
        known = self._known(measure)
        name = self._measure_name(measure)
        if known and known.kind is MeasureKind.GIRTH:
            return self.tr("{0} it was drawn for, over the padding, mm").format(name)
        return self.tr("{0} it was drawn for, mm").format(name)

    def _field(self, measure: str) -> QLineEdit:
        known, held = self._known(measure), self._now.drawn_mm.get(measure)
        line = QLineEdit(self.measures)
        line.setObjectName(f"wearer_drawn_{measure}")
        line.setAccessibleName(self._asked(measure))
        line.setMaximumWidth(FIELD_PX)
        middle = suggested_mm(known) if known else None
        if middle is not None:
            line.setPlaceholderText(f"{middle:g}")
        usual = self.tr("Of adults the middle is {0} mm. ").format(f"{middle:g}") if middle else ""
        line.setToolTip(usual + (known.taken if known else ""))
        line.setText(self._typed.get(measure, shown(held, Unit.MM)))
        line.textChanged.connect(partial(self._typed.__setitem__, measure))
        return line

    # --- what is done -----------------------------------------------------------------------

    def following(self) -> Following | str:
        """Return what is chosen and typed, or what of it cannot be read."""
        drawn = dict(self._now.drawn_mm)
        for measure, line in self.fields.items():
            value = length_mm(line.text(), Unit.MM)
            if isinstance(value, str):
                return self.tr("{0}: {1}").format(self._measure_name(measure), value)
            drawn.pop(measure, None)
            if value is not None:
                drawn[measure] = value
        return replace(self._now, drawn_mm=drawn)

    def _want(self) -> None:
        found = self.following()
        if isinstance(found, str):
            self.told.emit(found)
        else:
            self.wanted.emit(found)
