"""What the drawing table shows, read off the window's thread; moves that wait to be made as one."""

from collections.abc import Callable
from typing import NamedTuple

from PySide6.QtCore import QObject, QTimer, Signal

from armorplan.app.draft import Draft, Refused
from armorplan.desktop.draft_desk import DraftDesk, Edit
from armorplan.desktop.jobs import Runner
from armorplan.desktop.shape_edit_scene import TableScene, scene_of
from armorplan.kernel.findings import Finding
from armorplan.pattern.parts import Point

SETTLED_MS = 350
"""Presses of arrow keys closer than this to each other are one move."""
MoveHoles = Callable[[Draft, tuple[str, ...], Point], Draft | Refused]


class Read(NamedTuple):
    """A draft and what it looks like; no scene where it cannot be read."""

    draft: Draft
    scene: TableScene | None


class TableDesk(QObject):
    """Reads each state of the draft; ``shown`` carries it, the newest only.

    ``checked`` carries the draft once all that follows from it is reckoned, ``moving`` the holes
    that are on their way and how far, in mm.
    """

    shown = Signal(object)
    checked = Signal(object)
    moving = Signal(object)

    def __init__(self, drafts: DraftDesk, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.drafts = drafts
        self.move_holes: MoveHoles | None = None
        self.scene: TableScene | None = None
        self._draft: Draft | None = None
        self._reader = Runner(self)
        self._reader.answered.connect(self._take)
        self._checker = Runner(self)
        self._checker.answered.connect(self._take_checked)
        self._known: tuple[Finding, ...] = ()
        self._holes: tuple[str, ...] = ()
        self._by: Point = (0.0, 0.0)
        self._settling = QTimer(self)
        self._settling.setSingleShot(True)
        self._settling.setInterval(SETTLED_MS)
        self._settling.timeout.connect(self.commit)

    def read(self, draft: Draft) -> None:
        """Read a state of the draft, unless it is the one that is shown."""
        if draft is self._draft and self.scene is not None:
            self.shown.emit(Read(draft, self.scene))
            return
        self._reader.ask(lambda _report, _should_stop: Read(draft, scene_of(draft)))

    def _take(self, found: Read) -> None:
        self._draft = found.draft
        self.scene = found.scene or self.scene
        self.shown.emit(found)
        self.moving.emit((self._holes, self._by))
        hasty = found.draft
        if hasty.is_hasty:
            self._checker.ask(lambda _report, _should_stop: (hasty, hasty.checked()))

    @property
    def is_checking(self) -> bool:
        """Whether something that follows from the draft is not reckoned yet."""
        return self._checker.is_busy

    def findings_of(self, draft: Draft) -> tuple[Finding, ...]:
        """Return what is known of a draft: of one that is hasty, also what was known before it."""
        if not draft.is_hasty:
            self._known = draft.findings
            return draft.findings
        read = {(found.code, found.text) for found in draft.findings}
        former = (f for f in self._known if (f.code, f.text) not in read)
        return (*draft.findings, *former)

    def _take_checked(self, found: tuple[Draft, Draft]) -> None:
        hasty, draft = found
        self.drafts.check(hasty, draft)
        if self._draft is hasty:
            self._draft = draft
            self.checked.emit(draft)

    def edit(self, edit: Edit, text: str, about: object = None) -> None:
        """Make the move that waits, then an edit; what follows from it is reckoned after."""
        self.commit()
        self.drafts.edit(edit, text, about, is_hasty=True)

    # --- moves --------------------------------------------------------------------------------

    def move(self, holes: tuple[str, ...], by_mm: Point) -> None:
        """Move holes, together with what was pressed just before; made once no more is pressed."""
        if holes != self._holes:
            self.commit()
        self._holes = holes
        self._by = (round(self._by[0] + by_mm[0], 3), round(self._by[1] + by_mm[1], 3))
        self.moving.emit((self._holes, self._by))
        self._settling.start()

    def commit(self) -> None:
        """Make the move that is waiting, if one is."""
        self._settling.stop()
        holes, by_mm = self._holes, self._by
        self._holes, self._by = (), (0.0, 0.0)
        move = self.move_holes
        if move is not None and holes and by_mm != (0.0, 0.0):
            what = holes[0] if len(holes) == 1 else self.tr("{0} holes").format(len(holes))
            words = self.tr("move {0}").format(what)
            self.drafts.edit(lambda draft: move(draft, holes, by_mm), words, is_hasty=True)

    def close(self) -> bool:
        """Make what waits, and wait for what is being read; tell whether that ended in time."""
        self.commit()
        return all([self._reader.close(), self._checker.close()])
