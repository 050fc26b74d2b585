"""What the drawing table shows, read off the window's thread; moves that wait to be made as one."""

from collections.abc import Callable
from typing import NamedTuple, TypeVar

from PySide6.QtCore import QObject, QTimer, Signal

from armorplan.app.draft import Draft
from armorplan.app.editing.holes import move_holes
from armorplan.app.editing.quick import touched
from armorplan.desktop.draft_desk import DraftDesk
from armorplan.desktop.draft_queue import Edit
from armorplan.desktop.jobs import Runner
from armorplan.desktop.shape_edit_scene import TableScene, scene_of
from armorplan.kernel.findings import Finding
from armorplan.pattern.parts import Point

Found = TypeVar("Found")
SETTLED_MS = 350
"""Presses of arrow keys closer than this to each other are one move."""
CALM_MS = 700
"""What follows is reckoned once nothing was edited for so long: each time takes a while."""


class Read(NamedTuple):
    """A draft, what it looks like (``None``: it cannot be read), and what is known to be found.

    Of a hasty draft that is what its edit touched, quickly looked at, and what was known before.
    """

    draft: Draft
    scene: TableScene | None
    findings: tuple[Finding, ...]


class TableDesk(QObject):
    """Reads each state of the draft; ``shown`` carries it, the newest only.

    That is anew once all that follows from it is reckoned. ``moving`` carries the holes that are
    on their way and how far, in mm, ``failed`` the error in which reading ended.
    """

    shown = Signal(object)
    failed = Signal(object)
    moving = Signal(object)

    def __init__(self, drafts: DraftDesk, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.drafts = drafts
        self.scene: TableScene | None = None
        self._shown: Read | None = None
        self._reader = Runner(self)
        self._reader.answered.connect(self._take)
        self._reader.failed.connect(self.failed)
        self._checker = Runner(self)
        self._checker.answered.connect(self._take_checked)
        self._checker.failed.connect(self.failed)
        self._aside = Runner(self)
        self._aside.answered.connect(lambda found: found[0](found[1]))
        self._aside.failed.connect(self.failed)
        self._calm = QTimer(self)
        self._calm.setSingleShot(True)
        self._calm.setInterval(CALM_MS)
        self._calm.timeout.connect(self._check)
        self._holes: tuple[str, ...] = ()
        self._by: Point = (0.0, 0.0)
        self._settling = QTimer(self)
        self._settling.setSingleShot(True)
        self._settling.setInterval(SETTLED_MS)
        self._settling.timeout.connect(self.commit)

    def read(self, draft: Draft) -> None:
        """Read a state of the draft, unless it is the one that is shown."""
        if self._shown is not None and draft is self._shown.draft:
            self.shown.emit(self._shown)
            return
        former = self._shown
        self._reader.ask(lambda _report, _should_stop: _looked_at(draft, former))

    def _take(self, found: Read) -> None:
        self._shown = found
        self.scene = found.scene or self.scene
        self.shown.emit(found)
        self.moving.emit((self._holes, self._by))
        if found.draft.is_hasty:
            self._calm.start()
        else:
            self._calm.stop()

    def _check(self) -> None:
        """Reckon what follows from the draft that is shown."""
        if self._shown is not None and self._shown.draft.is_hasty:
            hasty = self._shown.draft
            self._checker.ask(lambda _report, _should_stop: (hasty, hasty.checked()))

    def _take_checked(self, found: tuple[Draft, Draft]) -> None:
        hasty, draft = found
        if self._shown is not None and self._shown.draft is hasty:
            self._shown = self._shown._replace(draft=draft, findings=draft.findings)
        self.drafts.check(hasty, draft)

    def aside(self, work: Callable[[], Found], then: Callable[[Found], None]) -> None:
        """Reckon something off the window's thread; ``then`` is told, unless more is asked by then."""
        self._aside.ask(lambda _report, _should_stop: (then, work()))

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
        if holes and by_mm != (0.0, 0.0):
            what = holes[0] if len(holes) == 1 else self.tr("{0} holes").format(len(holes))
            words = self.tr("move {0}").format(what)
            self.drafts.edit(lambda draft: move_holes(draft, holes, by_mm), words, is_hasty=True)

    def close(self) -> bool:
        """Make what waits, and wait for what is being read; tell whether that ended in time."""
        self.commit()
        self._calm.stop()
        ended = [each.close() for each in (self._reader, self._checker, self._aside)]
        return all(ended)


def _looked_at(draft: Draft, former: Read | None) -> Read:
    """Return a draft with its scene, and what is known of it without reckoning all anew."""
    if not draft.is_hasty or former is None:
        return Read(draft, scene_of(draft), draft.findings)
    look = touched(former.draft, draft)
    return Read(draft, scene_of(draft), look.after(former.findings))
