"""Keeps what is edited and not saved aside while it is edited, and finds what was left before."""

from threading import Lock
from typing import NamedTuple

from PySide6.QtCore import QObject, QTimer, Signal

from armorplan.app.autosave import KeptDrafts, LeftOver
from armorplan.app.draft import Draft, Refused
from armorplan.app.drafting import OpenDraft
from armorplan.desktop.draft_desk import DraftDesk
from armorplan.desktop.jobs import Runner

SETTLED_MS = 400
"""Edits closer to each other than this are kept once."""


class _Entered(NamedTuple):
    """What was found when a pattern was opened."""

    is_elsewhere: bool
    left: tuple[LeftOver, ...]


class DraftKeeping(QObject):
    """Follows a desk.

    ``offered`` carries what another program left of the pattern when it ended, ``told`` a sentence:
    that another window has it open, or that nothing can be kept.
    """

    offered = Signal(object)
    told = Signal(str)

    def __init__(self, desk: DraftDesk, kept: KeptDrafts, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._kept = kept
        self._one_at_a_time = Lock()
        self._asked = self._done = 0
        self._taken: LeftOver | None = None
        self._why = ""
        self._settling = QTimer(self)
        self._settling.setSingleShot(True)
        self._settling.setInterval(SETTLED_MS)
        self._settling.timeout.connect(self.keep)
        self._looker = Runner(self)
        self._looker.answered.connect(self._tell_found)
        self._keeper = Runner(self)
        self._keeper.answered.connect(self._tell_kept)
        desk.entered.connect(self._enter)
        desk.shown.connect(self._follow)

    def _enter(self, opened: OpenDraft) -> None:
        kept, lock = self._kept, self._one_at_a_time

        def look() -> _Entered:
            with lock:
                return _Entered(kept.enter(opened), kept.left_over(opened))

        self._looker.ask(lambda _report, _should_stop: look())

    def _tell_found(self, found: _Entered) -> None:
        if found.is_elsewhere:
            self.told.emit(
                self.tr(
                    "'{0}' is open in another window as well. What is saved there first counts; "
                    "here it can then be saved as a copy."
                ).format(self._desk.draft.name)
            )
        if found.left:
            self.offered.emit(found.left[0])

    def _follow(self, _draft: Draft) -> None:
        self._settling.start()

    def keep(self) -> None:
        """Keep the draft as it stands, off the window's thread; the newest wins."""
        self._settling.stop()
        if not self._desk.is_open:
            return
        draft, home = self._desk.draft, self._desk.home
        self._asked += 1
        number, taken = self._asked, self._taken
        self._taken = None

        def work() -> str:
            with self._one_at_a_time:
                if number < self._done:
                    return ""
                self._done = number
                why = self._kept.keep(draft, home)
                if taken is not None and not why:
                    self._kept.drop(taken)
                return why

        self._keeper.ask(lambda _report, _should_stop: work())

    def _tell_kept(self, why: str) -> None:
        """Say once why nothing can be kept."""
        if why and why != self._why:
            words = self.tr(
                "Your changes cannot be kept aside ({0}): save them from time to time."
            )
            self.told.emit(words.format(why))
        self._why = why

    def take_up(self, left: LeftOver) -> None:
        """Go on with what was left; that can be taken back, and is not saved yet."""
        self._taken = left
        texts = dict(left.texts)

        def bring_back(draft: Draft) -> Draft | Refused:
            return draft.with_files(texts)

        self._desk.edit(bring_back, self.tr("go on with what was not saved"))

    def let_go(self, left: LeftOver) -> None:
        """Drop what was left."""
        self._kept.drop(left)

    def close(self) -> bool:
        """Keep nothing any more: all is saved, or not wanted; tell whether all jobs ended in time."""
        self._settling.stop()
        ended = all([self._looker.close(), self._keeper.close()])
        with self._one_at_a_time:
            if self._taken is not None:
                self._kept.drop(self._taken)
            self._kept.forget()
            self._kept.leave()
        return ended
