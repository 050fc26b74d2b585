"""The fields of one entry, each under its name, with what was not taken told right below it."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication, QFrame, QGridLayout, QLabel, QScrollArea, QWidget

from armorplan.app.draft import Draft
from armorplan.app.draft_keys import Kind
from armorplan.app.draft_rows import FieldRow, field_rows, heading
from armorplan.desktop.draft_model import Place
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.edit_fields import FieldEditor, FixedField, editor_of
from armorplan.desktop.widgets.why_line import prose

Path = tuple[str, ...]
PAD_PX = 14
# Fusion draws the edges of fields by the window's colour, which hardly shows in the dark.
FIELD_EDGES = """
    QLineEdit, QPlainTextEdit {
        border: 1px solid palette(mid); border-radius: 3px; padding: 3px; background: palette(base);
    }
    QLineEdit:focus, QPlainTextEdit:focus { border: 2px solid palette(link); padding: 2px; }
"""
CROSS = "\N{HEAVY MULTIPLICATION X}"


class EditForm(QScrollArea):
    """Shows fields; ``typed`` carries one with what was typed into it."""

    typed = Signal(object, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("edit_form")
        self.setAccessibleName(self.tr("Fields"))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setStyleSheet(FIELD_EDGES)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._rows: tuple[FieldRow, ...] = ()
        self._heading = ("", "")
        self._editors: dict[Path, FieldEditor] = {}
        self._refusals: dict[Path, QLabel] = {}
        self._title = QLabel(self)
        self._build("", "", ())

    def show_entry(self, draft: Draft, place: Place | None) -> None:
        """Show the fields of an entry as a draft has them; a hint where there is none."""
        rows = field_rows(draft, *place) if place else ()
        if place and rows:
            self.show_fields(*heading(draft, *place), rows)
        else:
            self.show_fields(self.tr("Choose an entry on the left."), "", ())

    def show_fields(
        self, heading: str, help_text: str, rows: tuple[FieldRow, ...], *, anew: bool = False
    ) -> None:
        """Show an entry's fields; those of the entry in sight keep the keyboard and the place."""
        same = [row.path for row in rows] == list(self._editors) and not anew
        if not same or self._words_differ(rows):
            self._build(heading, help_text, rows)
        for row in rows:
            self._editors[row.path].show_row(row)
            self._refusals[row.path].setVisible(False)
        self._rows = rows
        if same and heading != self._heading[0]:
            self._title.setText(heading)
        self._heading = (heading, help_text)

    def _words_differ(self, rows: tuple[FieldRow, ...]) -> bool:
        """Tell whether a choice offers other words than it did; while typing goes on, it waits."""
        return not self.has_keyboard() and any(
            new.words != old.words for new, old in zip(rows, self._rows, strict=True)
        )

    def has_keyboard(self) -> bool:
        """Tell whether a field has the keyboard."""
        focus = QApplication.focusWidget()
        return focus is not None and self.isAncestorOf(focus)

    def show_refusal(self, path: Path, words: str) -> bool:
        """Tell below a field why what was typed there was not taken; ``False`` if it is not here."""
        label = self._refusals.get(path)
        if label is None:
            return False
        text = f"{CROSS} {words}"
        if label.text() != text or not label.isVisible():
            label.setText(text)
            label.setVisible(True)
            announce(self, words)
            self.ensureWidgetVisible(label)
        return True

    def commit(self) -> None:
        """Tell what was typed into the field that has the keyboard."""
        for editor in list(self._editors.values()):
            if editor.isAncestorOf(QApplication.focusWidget() or self):
                editor.commit()

    def told(self) -> dict[str, str]:
        """Return what all fields hold, by their keys: for an entry that is yet to be added."""
        return {path[-1]: editor.text() for path, editor in self._editors.items()}

    def first(self) -> None:
        """Give the keyboard to the first field that can be changed."""
        editors = (e for e in self._editors.values() if not isinstance(e, FixedField))
        editor = next(editors, None)
        if editor is not None:
            editor.setFocus()

    # --- building -----------------------------------------------------------------------------

    def _build(self, heading: str, help_text: str, rows: tuple[FieldRow, ...]) -> None:
        page = QWidget()
        page.setObjectName("edit_fields")
        page.setAutoFillBackground(True)
        page.setBackgroundRole(QPalette.ColorRole.Base)
        grid = QGridLayout(page)
        grid.setContentsMargins(PAD_PX, PAD_PX, PAD_PX, PAD_PX)
        grid.setColumnStretch(1, 1)
        grid.setHorizontalSpacing(PAD_PX)
        grid.setVerticalSpacing(4)
        self._editors, self._refusals = {}, {}
        self._title = _bold(prose(heading, page), 1.2)
        self._title.setObjectName("edit_heading")
        grid.addWidget(self._title, 0, 0, 1, 2)
        if help_text:
            grid.addWidget(prose(help_text, page), 1, 0, 1, 2)
        section = ""
        for row in rows:
            if row.section != section:
                section = row.section
                grid.setRowMinimumHeight(grid.rowCount(), PAD_PX)
                grid.addWidget(_bold(prose(section, page), 1.0), grid.rowCount(), 0, 1, 2)
            self._add(grid, page, row)
        grid.setRowStretch(grid.rowCount(), 1)
        old = self.takeWidget()
        if old is not None:
            old.hide()
            old.deleteLater()
        self.setWidget(page)

    def _add(self, grid: QGridLayout, page: QWidget, row: FieldRow) -> None:
        at = grid.rowCount()
        editor = self._editors[row.path] = editor_of(row, page)
        editor.told.connect(lambda text, told=row: self.typed.emit(self._now(told), text))
        if row.key.kind is not Kind.FLAG:
            name = QLabel(row.key.label, page)
            name.setBuddy(editor.control)
            align = Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft
            name.setMargin(4)
            grid.addWidget(name, at, 0, align)
        grid.addWidget(editor, at, 1)
        if row.key.help:
            grid.addWidget(prose(row.key.help, page, small=True), at + 1, 1)
        refusal = self._refusals[row.path] = _bold(prose("", page), 1.0)
        refusal.setObjectName("refusal_" + ".".join(row.path))
        refusal.setVisible(False)
        grid.addWidget(refusal, at + 2, 1)
        grid.setRowMinimumHeight(at + 3, 4)

    def _now(self, row: FieldRow) -> FieldRow:
        """Return the field as it stands now, not as it stood when it was first shown."""
        return next((known for known in self._rows if known.path == row.path), row)


def _bold(label: QLabel, share: float) -> QLabel:
    font = label.font()
    font.setBold(True)
    font.setPointSizeF(font.pointSizeF() * share)
    label.setFont(font)
    return label
