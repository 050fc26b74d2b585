"""Texts and numbers of a pattern: its entries on the left, the fields of the chosen one right."""

from collections.abc import Mapping
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.draft import Draft, Refused
from armorplan.app.draft_keys import editable_tables
from armorplan.app.draft_rows import (
    EntryRow,
    FieldRow,
    blank_rows,
    field_rows,
    group_rows,
    typed_in,
    with_entry,
)
from armorplan.desktop.draft_desk import DraftDesk
from armorplan.desktop.draft_model import Place
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.edit_bar import EditBar
from armorplan.desktop.widgets.edit_form import EditForm
from armorplan.desktop.widgets.edit_list import EditList
from armorplan.kernel.findings import Finding

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
        self._new = ""
        self._where, self._said = QLabel(self), QLabel(self)
        self.entries = EditList(self)
        self.form = EditForm(self)
        self._new_bar = QWidget(self)
        self._bar = EditBar(self)
        self._lay_out()
        self.entries.chosen.connect(self._turn)
        self.entries.entered.connect(self.form.first)
        self.entries.asked_new.connect(self._begin_asked)
        self.entries.dropped.connect(self._drop)
        self.form.typed.connect(self._take_typed)
        self._bar.pressed.connect(self._press)
        desk.shown.connect(self._show)
        desk.refused.connect(self._tell_refused)
        desk.unsaved.connect(self._tell_unsaved)
        self._do = {
            "undo": desk.undo,
            "redo": desk.redo,
            "revert": desk.back_to_saved,
            "save": self.save,
            "copy": self.ask_copy,
            "close": self.close,
        }

    def _lay_out(self) -> None:
        for label, name in ((self._where, "edit_where"), (self._said, "edit_said")):
            label.setObjectName(name)
            label.setWordWrap(True)
        self._said.setAccessibleName(self.tr("Last notice"))
        self._said.hide()
        main = QWidget(self)
        right = QVBoxLayout(main)
        right.setContentsMargins(0, 0, 0, 0)
        right.addWidget(self.form, 1)
        right.addWidget(self._said)
        right.addWidget(self._new_bar)
        new = QHBoxLayout(self._new_bar)
        new.setContentsMargins(0, 0, 0, 0)
        new.addStretch(1)
        for name, text, slot in (
            ("keep_new", self.tr("Add &it"), self._keep_new),
            ("drop_new", self.tr("Never &mind"), self._end_new),
        ):
            button = QPushButton(text, self._new_bar)
            button.setObjectName(f"edit_{name}")
            button.clicked.connect(slot)
            new.addWidget(button)
        self._new_bar.hide()
        across = QSplitter(Qt.Orientation.Horizontal, self)
        across.setChildrenCollapsible(False)
        across.addWidget(self.entries)
        across.addWidget(main)
        across.setStretchFactor(1, 1)
        across.setSizes(list(_SHARES_PX))
        whole = QVBoxLayout(self)
        whole.addWidget(self._where)
        whole.addWidget(across, 1)
        whole.addWidget(self._bar)
        self.resize(*_SIZE_PX)

    def _press(self, name: str) -> None:
        """Take in what is being typed, then do what was pressed."""
        self.form.commit()
        self._do[name]()

    # --- showing ------------------------------------------------------------------------------

    def _show(self, draft: Draft) -> None:
        self.setWindowTitle(self.tr("Texts and numbers – {0}").format(draft.name) + "[*]")
        self.entries.show_groups(group_rows(draft))
        if not self._new:
            self._show_fields(draft)
        home, dirty = self._desk.home, self._desk.is_dirty
        self.setWindowModified(dirty)
        place = home.said or self.tr("In {0}").format(home.folder)
        self._where.setText(f"{place}  {self.tr('Not saved yet.') if dirty else ''}".rstrip())
        self._bar.show_state(self._desk)

    def _show_fields(self, draft: Draft) -> None:
        rows = field_rows(draft, *self._at) if self._at else ()
        if not rows or self._at is None:
            self.form.show_fields(self.tr("Choose an entry on the left."), "", ())
            return
        keys = editable_tables()[self._at[0]]
        entry = self.entries.entry
        title = entry.title if entry and (entry.table, entry.id) == self._at else self._at[1]
        named = f"{title} – {keys.one}" if title != keys.one else title
        self.form.show_fields(named, keys.help, rows)

    def go(self, place: Place | None) -> None:
        """Show an entry, and give its first field the keyboard; without one, the list."""
        self._end_new()
        if self.entries.go(place):
            self.form.first()
        else:
            self.entries.list.setFocus()

    def _turn(self, place: Place) -> None:
        if place != self._at or self._new:
            self.form.commit()
            self._at = place
            self._end_new()
            self._say("")
            self._show_fields(self._desk.draft)

    def _say(self, words: str) -> None:
        self._said.setText(words)
        self._said.setVisible(bool(words))
        announce(self, words)

    # --- edits --------------------------------------------------------------------------------

    def _take_typed(self, field: FieldRow, text: str) -> None:
        if not self._new:
            self._say("")
            words = self.tr("{0} of {1}").format(field.key.label, field.path[-2])
            self._desk.edit(lambda draft: typed_in(draft, field, text), words, field.path)

    def _begin_asked(self, table: str, shape: tuple[str, ...]) -> None:
        self.begin_new(table, shape=shape)

    def begin_new(
        self,
        table: str,
        *,
        shape: tuple[str, ...] = (),
        held: Mapping[str, str] | None = None,
    ) -> None:
        """Show the fields of an entry that is yet to be added."""
        self.form.commit()
        keys = editable_tables()[table]
        self._new = table
        rows = blank_rows(self._desk.draft, table, shape=shape, held=held)
        self.form.show_fields(self.tr("New: {0}").format(keys.one), keys.help, rows, anew=True)
        self._say("")
        self._new_bar.show()
        self.form.first()

    def _keep_new(self) -> None:
        table, told = self._new, self.form.told()
        self._desk.settle()
        made, entry = with_entry(self._desk.draft, table, told)
        if isinstance(made, Refused):
            self._say(made.words)
            return
        words = self.tr("new {0}").format(editable_tables()[table].one)
        self._desk.edit(lambda _draft: made, words)
        self._desk.settle()
        self.go((table, entry))

    def _end_new(self) -> None:
        if self._new:
            self._new = ""
            self._new_bar.hide()
            self._say("")
            self._show_fields(self._desk.draft)

    def _drop(self, entry: EntryRow) -> None:
        words = self.tr("take out {0}").format(entry.title)
        self._desk.edit(lambda draft: draft.drop_entry(entry.table, entry.id), words)

    def _tell_refused(self, about: object, refused: Refused) -> None:
        if isinstance(about, tuple):
            self.form.show_refusal(about, refused.words)
        else:
            self._say(refused.words)

    # --- saving -------------------------------------------------------------------------------

    def save(self) -> None:
        """Write into the pattern's folder, or ask for one where it must not be written."""
        self._say("")
        if self._desk.home.said:
            self.ask_copy()
        elif self._desk.is_dirty:
            self._desk.save()

    def ask_copy(self) -> None:
        """Ask for an empty folder, and write the whole pattern there."""
        title = self.tr("Save a copy in an empty folder")
        folder = QFileDialog.getExistingDirectory(self, title)
        if folder:
            self._say("")
            self._desk.save_copy(Path(folder))

    def _tell_unsaved(self, finding: Finding) -> None:
        self._say(f"{finding.text} {finding.remedy}")

    def closeEvent(self, event: QCloseEvent) -> None:
        self.form.commit()
        super().closeEvent(event)
        self.left.emit()
