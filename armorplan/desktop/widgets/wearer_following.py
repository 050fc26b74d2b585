"""What a pattern was drawn for: which parts follow which measure, and how large each was."""

from collections.abc import Collection
from dataclasses import replace
from functools import partial

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFormLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.wearer_desk import WearerView
from armorplan.app.wearer_following import Following, FollowingPart
from armorplan.desktop.widgets.wearer_drawn import DrawnFields
from armorplan.workshop.measures import BodyMeasure, MeasureKind

_WAYS = ("along", "around")


class WearerFollowing(QWidget):
    """Parts are chosen in a list, and below it what they follow; ``wanted`` carries all of it."""

    wanted = Signal(object)
    told = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._view: WearerView | None = None
        self._now = Following(parts=(), drawn_mm={})
        self._names: dict[str, str] = {}
        self.intro = QLabel(self)
        self.list = QListWidget(self)
        self.along, self.around = QComboBox(self), QComboBox(self)
        self.drawn_head = QLabel(self.tr("What it was drawn for:"), self)
        self.drawn = DrawnFields(self)
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
        self.list.setWordWrap(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
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
        whole = QVBoxLayout(self)
        whole.addWidget(self.intro)
        whole.addWidget(self.list, 1)
        whole.addLayout(form)
        whole.addWidget(self.drawn_head)
        whole.addWidget(self.drawn)
        whole.addWidget(self.save, 0, Qt.AlignmentFlag.AlignLeft)

    # --- what is shown ----------------------------------------------------------------------

    def show_view(self, view: WearerView) -> None:
        """Show what the parts of a pattern follow; what was chosen here and not written yet stays."""
        is_same = self._view is not None and self._view.following == view.following
        self._view = view
        if is_same:
            return
        self._names = {measure.id: measure.name for measure in view.known}
        self.drawn.begin()
        chosen = {part.id for part in self.chosen}
        self._now = view.following
        _list(self.list, self._now, chosen)
        for box, kind in ((self.along, MeasureKind.LENGTH), (self.around, MeasureKind.GIRTH)):
            _offer(box, self.tr("nothing: it stays"), [m for m in view.known if m.kind is kind])
        if self.list.count() and not self.list.selectedItems():
            self.list.setCurrentRow(0)
        self._show_all()

    def _show_all(self) -> None:
        for at, part in enumerate(self._now.parts):
            self.list.item(at).setText(self._words(part))
        self._show_chosen()
        self._show_measures()

    def _words(self, part: FollowingPart) -> str:
        high, wide = (self._names.get(one, one) for one in (part.along, part.around))
        if part.is_long:
            told = self.tr("length: {0}").format(wide) if wide else ""
        else:
            ways = ((self.tr("height: {0}"), high), (self.tr("width: {0}"), wide))
            told = ", ".join(words.format(name) for words, name in ways if name)
        told = told or self.tr("keeps its size")
        return self.tr("{0} ({1}) – {2}").format(part.name, part.kind, told)

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
        self.along.setEnabled(not all(part.is_long for part in chosen))
        self.around.setEnabled(bool(chosen))

    def _follow(self, way: str, _at: int) -> None:
        box = self.along if way == "along" else self.around
        along, around = (str(box.currentData()) if way == one else None for one in _WAYS)
        parts = (one.id for one in self.chosen)
        self._now = self._now.turned(parts, along=along, around=around)
        self._show_all()

    def _show_measures(self) -> None:
        known = {one.id: one for one in self._view.known} if self._view else {}
        used = tuple(known[one] for one in self._now.used if one in known)
        self.drawn.show_measures(used, self._now.drawn_mm)
        self.drawn_head.setVisible(bool(self.drawn.fields))
        self.drawn.chain(self.around, self.save, self.setTabOrder)

    # --- what is done -----------------------------------------------------------------------

    def following(self) -> Following | str:
        """Return what is chosen and typed, or what of it cannot be read."""
        typed = self.drawn.typed_mm()
        if isinstance(typed, str):
            return typed
        drawn = {k: mm for k, mm in self._now.drawn_mm.items() if k not in typed}
        drawn |= {key: mm for key, mm in typed.items() if mm is not None}
        return replace(self._now, drawn_mm=drawn)

    def _want(self) -> None:
        found = self.following()
        if isinstance(found, str):
            self.told.emit(found)
        else:
            self.wanted.emit(found)


def _list(parts: QListWidget, following: Following, chosen: Collection[str]) -> None:
    """List the parts, these chosen; what each follows is not said yet."""
    parts.clear()
    for part in following.parts:
        item = QListWidgetItem()
        item.setData(Qt.ItemDataRole.UserRole, part.id)
        parts.addItem(item)
        item.setSelected(part.id in chosen)


def _offer(box: QComboBox, nothing: str, measures: list[BodyMeasure]) -> None:
    """Offer measures, and nothing; each says where it is taken."""
    box.clear()
    box.addItem(nothing, "")
    for at, measure in enumerate(measures, start=1):
        box.addItem(measure.name, measure.id)
        box.setItemData(at, measure.taken, Qt.ItemDataRole.ToolTipRole)
