"""A pattern under edit in the window: every edit checked off the window's thread, then undoable."""

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

from armorplan.app.draft import Draft, Refused
from armorplan.app.drafting import Home, OpenDraft, save, save_copy
from armorplan.app.session_protocol import BenchSession
from armorplan.desktop.draft_queue import Edit, EditQueue, Waiting
from armorplan.desktop.jobs import Runner
from armorplan.kernel.findings import Finding

DraftReader = Callable[[BenchSession], Callable[[], OpenDraft]]
"""From a session, quickly, to what reads its pattern as a draft, slowly, in any thread."""


class _Kept(NamedTuple):
    """What was to be saved, the opening it came from, and the answer to it."""

    draft: Draft
    opening: int
    answer: Home | Finding


class Swap(QUndoCommand):
    """One edit: the draft before it and the draft after it."""

    def __init__(self, desk: "DraftDesk", after: Draft, text: str) -> None:
        super().__init__(text)
        self._desk = desk
        self._before = desk.draft
        self._after = after

    def undo(self) -> None:
        self._desk.hold(self._before)

    def redo(self) -> None:
        self._desk.hold(self._after)


class DraftDesk(QObject):
    """Holds the draft, its home and its undo stack; edits wait their turn and none is lost.

    ``entered`` carries a draft that was opened, with its home, ``shown`` the draft after every
    change, ``refused`` what an edit was about and why it was not taken, ``saved`` the folder, and
    ``unsaved`` the finding that says why nothing was written.
    """

    entered = Signal(object)
    shown = Signal(object)
    refused = Signal(object, object)
    saved = Signal(object)
    unsaved = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.stack = QUndoStack(self)
        self._open: OpenDraft | None = None
        self._opening = 0
        self._saved: Draft | None = None
        self._opened: Draft | None = None
        self._queue = EditQueue(lambda: self.draft, self)
        self._queue.made.connect(self._apply)
        self._keeper = Runner(self)
        self._keeper.answered.connect(self._keep)

    @property
    def is_open(self) -> bool:
        """Whether there is a draft."""
        return self._open is not None

    @property
    def draft(self) -> Draft:
        """The draft as it stands; only while one is open."""
        return self._here.draft

    @property
    def home(self) -> Home:
        """Where the draft came from; only while one is open."""
        return self._here.home

    @property
    def _here(self) -> OpenDraft:
        if self._open is None:
            message = "no draft is open"
            raise LookupError(message)
        return self._open

    @property
    def opened(self) -> Draft:
        """The draft as it was opened."""
        return self._opened or self.draft

    @property
    def saved_last(self) -> Draft:
        """The draft as it was saved last, or opened."""
        return self._saved or self.draft

    @property
    def is_dirty(self) -> bool:
        """Whether there is something that is not saved."""
        return self.is_open and (self._queue.is_busy or not self.home.is_saved(self.draft))

    def open(self, opened: OpenDraft) -> None:
        """Take a draft that was read; what could be undone is forgotten."""
        self._queue.drop()
        self._open = opened
        self._opening += 1
        self._saved = self._opened = opened.draft
        self.stack.clear()
        self.entered.emit(opened)
        self.tell()

    def hold(self, draft: Draft) -> None:
        """Take a state of the draft; it is shown once the stack has counted it."""
        self._open = OpenDraft(draft=draft, home=self.home)

    def tell(self) -> None:
        """Show the draft as it stands."""
        self.shown.emit(self.draft)

    # --- edits --------------------------------------------------------------------------------

    def edit(self, edit: Edit, text: str, about: object = None, *, is_hasty: bool = False) -> None:
        """Make an edit once those before it are made; ``text`` names it in the undo menu.

        One that ``is_hasty`` is shown before what follows from it is reckoned; see ``check``.
        """
        self._queue.add(Waiting(edit, text, about, is_hasty))

    def check(self, hasty: Draft, checked: Draft) -> None:
        """Put what was reckoned since in the place of a draft, if that is still the one."""
        if self.is_open and self.draft is hasty:
            self.hold(checked)
            self.tell()

    def back_to_saved(self) -> None:
        """Drop all changes since the last saving, once all are made; that can be undone as well."""
        self._queue.then(self._drop_changes)

    def _drop_changes(self) -> None:
        if self._saved is not None and self._saved.texts != self.draft.texts:
            self.stack.push(Swap(self, self._saved, self.tr("back to what is saved")))
            self.tell()

    def undo(self) -> None:
        """Take back the last edit, once all are made."""
        self._queue.then(lambda: self._step(self.stack.undo))

    def redo(self) -> None:
        """Make the edit again that was last taken back, once all are made."""
        self._queue.then(lambda: self._step(self.stack.redo))

    def _step(self, step: Callable[[], None]) -> None:
        step()
        self.tell()

    def settle(self) -> None:
        """Make all that waits now, in this thread, which may take long; for what must not go on else."""
        self._queue.settle()

    def _apply(self, waiting: Waiting, result: Draft | Refused) -> None:
        if isinstance(result, Refused):
            self.refused.emit(waiting.about, result)
            return
        if result.texts != self.draft.texts:
            self.stack.push(Swap(self, result, waiting.text))
        self.tell()

    # --- saving -------------------------------------------------------------------------------

    def save(self, into: Path | None = None) -> None:
        """Write what changed where it came from, or the whole pattern into another folder.

        It is written once all edits are made.
        """
        self._queue.then(lambda: self._save(into))

    def _save(self, into: Path | None) -> None:
        draft, home, opening = self.draft, self.home, self._opening
        self._keeper.ask(
            lambda _report, _should_stop: _Kept(
                draft, opening, save_copy(draft, into) if into else save(draft, home)
            )
        )

    def _keep(self, kept: _Kept) -> None:
        if isinstance(kept.answer, Finding):
            self.unsaved.emit(kept.answer)
            return
        if kept.opening != self._opening:  # written, but another draft is open by now
            return
        self._saved = kept.draft
        self._open = OpenDraft(draft=self.draft, home=kept.answer)
        self.tell()
        self.saved.emit(kept.answer.folder)

    def close(self) -> bool:
        """Wait for what runs; tell whether it ended in time."""
        return all([self._queue.close(), self._keeper.close()])
