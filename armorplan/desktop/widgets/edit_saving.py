"""What windows on a draft share: take back, restore, save, and saying where it lies."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QDir, QObject
from PySide6.QtWidgets import QFileDialog, QLabel, QWidget

from armorplan.app.draft import Draft
from armorplan.app.drafting import copy_place
from armorplan.app.drawn_changes import as_next_version, drawn_changes
from armorplan.desktop.draft_desk import DraftDesk
from armorplan.desktop.draft_queue import Edit
from armorplan.desktop.widgets.edit_bar import EditBar, SaidLine


class DraftSaving(QObject):
    """Does what the bar of a page asks for, once what is being typed there is taken in."""

    def __init__(
        self,
        desk: DraftDesk,
        page: QWidget,
        bar: EditBar,
        said: SaidLine,
        commit: Callable[[], None],
    ) -> None:
        super().__init__(page)
        self._desk, self._page = desk, page
        self._bar, self._said, self._commit = bar, said, commit
        self._acts = {
            "undo": desk.undo,
            "redo": desk.redo,
            "revert": desk.back_to_saved,
            "save": self.save,
            "copy": self.ask_copy,
            "close": page.close,
        }
        bar.pressed.connect(self._press)
        desk.unsaved.connect(lambda told: said.say(f"{told.text} {told.remedy}"))

    def _press(self, name: str) -> None:
        self._commit()
        self._acts[name]()

    def show_state(self, where: QLabel, title: str) -> None:
        """Show in title, place line and bar how the draft stands."""
        home, dirty = self._desk.home, self._desk.is_dirty
        self._page.setWindowTitle(title.format(self._desk.draft.name) + "[*]")
        self._page.setWindowModified(dirty)
        place = home.said or self.tr("In {0}").format(home.folder)
        where.setText(f"{place}  {self.tr('Not saved yet.') if dirty else ''}".rstrip())
        self._bar.show_state(self._desk)
        self._bar.offer_version(self._next_version())

    def _next_version(self) -> int:
        """Return the version that a saving makes; 0 where it makes none, or has made it already."""
        old, new = self._desk.saved_last.pattern, self._desk.draft.pattern
        above = _version(self._desk.opened)
        if old is None or new is None or not above or new.version > above:
            return 0
        return above + 1 if drawn_changes(old, new) else 0

    def version_edit(self) -> Edit:
        """Return what makes a draft a version of its own, in any thread, unless that is not wanted.

        Edits may still be under way: only then it is known whether shapes were changed.
        """
        saved, above = self._desk.saved_last, _version(self._desk.opened)
        is_wanted = self._bar.as_version.isChecked() and above > 0
        return lambda draft: (
            as_next_version(draft, saved=saved, above=above) if is_wanted else draft
        )

    def _raise_version(self) -> None:
        words = self.tr("version {0}").format(_version(self._desk.opened) + 1)
        self._desk.edit(self.version_edit(), words, is_hasty=True)

    def save(self) -> None:
        """Write into the pattern's folder, or ask for one where it must not be written."""
        self._said.say("")
        if self._desk.home.said:
            self.ask_copy()
        else:
            self._raise_version()
            self._desk.save()

    def ask_copy(self) -> None:
        """Ask for a folder, and write the whole pattern into a folder of its own there."""
        asks = self.tr("Save a copy: choose the folder to keep it in")
        if folder := QFileDialog.getExistingDirectory(self._page, asks, QDir.homePath()):
            self._said.say("")
            self._raise_version()
            self._desk.save(copy_place(Path(folder), self._desk.draft.slug))


def _version(draft: Draft) -> int:
    """Return the version that is written; 0 where none is."""
    told = draft.entry("pattern", "").get("version")
    return told if isinstance(told, int) else 0
