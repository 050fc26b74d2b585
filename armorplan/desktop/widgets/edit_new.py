"""A new entry of the pattern: its fields are typed first, and it is added as a whole."""

from collections.abc import Mapping

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from armorplan.app.draft import Refused
from armorplan.app.draft_keys import editable_tables
from armorplan.app.draft_rows import blank_rows, with_entry
from armorplan.desktop.draft_desk import DraftDesk
from armorplan.desktop.widgets.edit_form import EditForm


class NewEntry(QWidget):
    """Fields and two buttons; ``added`` carries table and entry, ``refused`` why it was not."""

    added = Signal(object)
    refused = Signal(str)
    dropped = Signal()

    def __init__(self, desk: DraftDesk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._table = ""
        self.form = EditForm(self)
        self.form.setObjectName("new_form")
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self.form, 1)
        row = QHBoxLayout()
        row.addStretch(1)
        for name, text, slot in (
            ("keep_new", self.tr("Add &it"), self.keep),
            ("drop_new", self.tr("Never &mind"), self.dropped),
        ):
            button = QPushButton(text, self)
            button.setObjectName(f"edit_{name}")
            button.clicked.connect(slot)
            row.addWidget(button)
        down.addLayout(row)

    def begin(
        self,
        table: str,
        *,
        shape: tuple[str, ...] = (),
        held: Mapping[str, str] | None = None,
    ) -> None:
        """Show the fields of an entry that is yet to be added.

        Args:
            table: one that grows.
            shape: of a reason of one's own, the keys that say what it says.
            held: what fields hold to begin with.
        """
        keys = editable_tables()[table]
        self._table = table
        rows = blank_rows(self._desk.draft, table, shape=shape, held=held)
        self.form.show_fields(self.tr("New: {0}").format(keys.one), keys.help, rows, anew=True)
        self.form.first()

    def keep(self) -> None:
        """Add it, if it is sound."""
        self._desk.settle()
        made, entry = with_entry(self._desk.draft, self._table, self.form.told())
        if isinstance(made, Refused):
            self.refused.emit(made.words)
            return
        words = self.tr("new {0}").format(editable_tables()[self._table].one)
        self._desk.edit(lambda _draft: made, words)
        self._desk.settle()
        self.added.emit((self._table, entry))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.dropped.emit()
        else:
            super().keyPressEvent(event)
