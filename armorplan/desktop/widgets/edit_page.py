"""Texts and numbers of a pattern: its entries on the left, the fields of the chosen one right."""

from collections.abc import Mapping

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import (
    QLabel,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.draft import Draft, Refused
from armorplan.app.draft_rows import EntryRow, FieldRow, group_rows, typed_in
from armorplan.desktop.draft_desk import DraftDesk
from armorplan.desktop.draft_model import Place
from armorplan.desktop.widgets.closing_keys import ClosingKeys
from armorplan.desktop.widgets.edit_bar import EditBar, SaidLine
from armorplan.desktop.widgets.edit_form import EditForm
from armorplan.desktop.widgets.edit_list import EditList
from armorplan.desktop.widgets.edit_new import NewEntry
from armorplan.desktop.widgets.edit_saving import DraftSaving

_SHARES_PX = (320, 620)
_SIZE_PX = (960, 660)


class EditPage(QWidget):
    """A window of its own beside the bench; ``left`` says that it was closed."""

    left = Signal()

    def __init__(self, desk: DraftDesk, parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setObjectName("edit_page")
        self._desk = desk
        self._at: Place | None = None
        self._where, self._said = QLabel(self), SaidLine(self)
        self.entries = EditList(self)
        self._right = QStackedWidget(self)
        self.form, self.new = EditForm(self._right), NewEntry(desk, self._right)
        self._bar = EditBar(self)
        self.saving = DraftSaving(desk, self, self._bar, self._said, self.form.commit)
        self._lay_out()
        self._connect()
        ClosingKeys(self, has_ctrl_w=True)

    def _lay_out(self) -> None:
        self._where.setObjectName("edit_where")
        self._where.setWordWrap(True)
        self._right.addWidget(self.form)
        self._right.addWidget(self.new)
        across = QSplitter(Qt.Orientation.Horizontal, self)
        across.setChildrenCollapsible(False)
        across.addWidget(self.entries)
        across.addWidget(self._right)
        across.setStretchFactor(1, 1)
        across.setSizes(list(_SHARES_PX))
        whole = QVBoxLayout(self)
        whole.addWidget(self._where)
        whole.addWidget(across, 1)
        whole.addWidget(self._said)
        whole.addWidget(self._bar)
        self.resize(*_SIZE_PX)

    def _connect(self) -> None:
        desk = self._desk
        self.entries.chosen.connect(self._turn)
        self.entries.entered.connect(self.form.first)
        self.entries.asked_new.connect(lambda table, shape: self.begin_new(table, shape=shape))
        self.entries.dropped.connect(self._drop)
        self.new.added.connect(self._show_added)
        self.new.dropped.connect(self._end_new)
        self.new.dropped.connect(lambda: self._said.say(""))
        self.new.refused.connect(self._said.say)
        self.form.typed.connect(self._take_typed)
        desk.shown.connect(self._show)
        desk.refused.connect(self._tell_refused)

    # --- showing ------------------------------------------------------------------------------

    def _show(self, draft: Draft) -> None:
        self.entries.show_groups(group_rows(draft))
        self.form.show_entry(draft, self._at)
        self.saving.show_state(self._where, self.tr("Texts and numbers – {0}"))
        self._said.follow(draft)

    def go(self, place: Place | None) -> None:
        """Show an entry, and give its first field the keyboard; without one, the list."""
        self._end_new()
        if self.entries.go(place):
            self.form.first()
        else:
            self.entries.list.setFocus()

    def _turn(self, place: Place) -> None:
        self._end_new()
        if place != self._at:
            self.form.commit()
            self._at = place
            self._said.say("")
            self.form.show_entry(self._desk.draft, self._at)

    # --- edits --------------------------------------------------------------------------------

    def _take_typed(self, field: FieldRow, text: str) -> None:
        self._said.say("")
        words = self.tr("{0} of {1}").format(field.key.label, field.path[-2])
        self._desk.edit(lambda draft: typed_in(draft, field, text), words, field.path)

    def begin_new(
        self, table: str, *, shape: tuple[str, ...] = (), held: Mapping[str, str] | None = None
    ) -> None:
        """Show the fields of an entry that is yet to be added; see ``NewEntry.begin``."""
        self.form.commit()
        self._said.say("")
        self._right.setCurrentWidget(self.new)
        self.new.begin(table, shape=shape, held=held)

    def _end_new(self) -> None:
        if self._right.currentWidget() is self.new:
            self._right.setCurrentWidget(self.form)

    def _show_added(self, place: Place) -> None:
        told = self._said.text()  # what to look at in the new entry
        self.go(place)
        self._said.say(told)

    def _drop(self, entry: EntryRow) -> None:
        words = self.tr("take out {0}").format(entry.title)
        self._desk.edit(lambda draft: draft.drop_entry(entry.table, entry.id), words)

    def _tell_refused(self, about: object, refused: Refused) -> None:
        if not (isinstance(about, tuple) and self.form.show_refusal(about, refused.words)):
            self._said.say(refused.words)

    def closeEvent(self, event: QCloseEvent) -> None:
        self.form.commit()
        super().closeEvent(event)
        self.left.emit()
