"""Buttons and keys of the page of texts and numbers, and how its draft stands."""

from PySide6.QtCore import Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLabel, QPushButton, QWidget

from armorplan.app.draft import Draft, new_warnings
from armorplan.desktop.draft_desk import DraftDesk
from armorplan.desktop.widgets.announcing import announce


class SaidLine(QLabel):
    """What was said last; hidden while that is nothing."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("edit_said")
        self.setAccessibleName(self.tr("Last notice"))
        self.setWordWrap(True)
        self.hide()
        self._last: Draft | None = None

    def say(self, words: str) -> None:
        """Show a sentence, and have it spoken where a screen reader listens."""
        self.setText(words)
        self.setVisible(bool(words))
        announce(self, words)

    def follow(self, draft: Draft) -> None:
        """Say what the last edit made worth a look; nothing where it is all well."""
        if draft is self._last or draft.is_hasty:
            return
        is_same = self._last is not None and self._last.slug == draft.slug
        new = new_warnings(self._last, draft) if self._last and is_same else ()
        self._last = draft
        more = self.tr(" (and {0} more)").format(len(new) - 1) if len(new) > 1 else ""
        self.say(f"▲ {new[0].text} {new[0].remedy}{more}" if new else "")


class EditBar(QWidget):
    """Take back, restore, save; ``pressed`` carries what was asked for, by button or key."""

    pressed = Signal(str)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._buttons: dict[str, QPushButton] = {}
        self.as_version = QCheckBox(self)
        self.as_version.setObjectName("edit_as_version")
        self.as_version.setChecked(True)
        self.as_version.hide()
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        for name, text, keys in (
            ("undo", self.tr("Take back"), ("Ctrl+Z",)),
            ("redo", self.tr("Restore"), ("Ctrl+Shift+Z", "Ctrl+Y")),
            ("revert", self.tr("Drop all changes"), ()),
            ("save", self.tr("Save"), ("Ctrl+S",)),
            ("copy", self.tr("Save a copy …"), ("Ctrl+Shift+S",)),
            ("close", self.tr("Close"), ("Ctrl+W",)),
        ):
            if name == "save":
                row.addStretch(1)
                row.addWidget(self.as_version)
            row.addWidget(self._made(name, text, keys))

    def _made(self, name: str, text: str, keys: tuple[str, ...]) -> QPushButton:
        button = self._buttons[name] = QPushButton(text, self)
        button.setObjectName(f"edit_{name}")
        button.setAccessibleName(text)
        button.clicked.connect(lambda: self.pressed.emit(name))
        if keys:
            form = QKeySequence.SequenceFormat.NativeText
            shown = QKeySequence(keys[0]).toString(form)
            button.setText(f"{text}\n{shown}")
            button.setAccessibleDescription(shown)
        for key in keys:
            # Also while the button is grey: what is being typed may be the first change.
            QShortcut(QKeySequence(key), self.window(), lambda: self.pressed.emit(name))
        return button

    def offer_version(self, number: int) -> None:
        """Offer to save as a version of this number; 0 offers none."""
        self.as_version.setVisible(bool(number))
        if number:
            self.as_version.setText(self.tr("as &version {0}").format(number))
            told = self.tr(
                "Shapes are changed: what was cut from version {0} can be told apart from what is "
                "cut from now on."
            )
            self.as_version.setToolTip(told.format(number - 1))
            self.as_version.setAccessibleDescription(told.format(number - 1))

    def show_state(self, desk: DraftDesk) -> None:
        """Offer what can be done now, and say what would be taken back."""
        stack, dirty = desk.stack, desk.is_dirty
        for name, can, what in (
            ("undo", stack.canUndo(), stack.undoText()),
            ("redo", stack.canRedo(), stack.redoText()),
            ("revert", dirty, ""),
        ):
            self._buttons[name].setEnabled(can)
            self._buttons[name].setToolTip(what)
