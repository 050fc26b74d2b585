"""A drawing on its way to a pattern in the window: read, asked about and written off its thread."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from armorplan.app.bringing.answering import (
    Fact,
    answered,
    answered_all,
    with_fact,
    with_known_length,
    with_shapes,
)
from armorplan.app.bringing.model import Bringing, Question
from armorplan.desktop.bring_kept import Begun, BegunFile
from armorplan.desktop.bring_protocol import BringCore, findings_of
from armorplan.desktop.bring_view import BringView
from armorplan.desktop.bring_writer import BringWriter
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.geometry.brought.model import ShapeKind
from armorplan.pattern.parts import Point


@dataclass(frozen=True, slots=True)
class _Looked:
    """A view with the value it was reckoned from; ``amiss`` says why it is not kept for later."""

    bringing: Bringing
    view: BringView
    amiss: str


class BringDesk(QObject):
    """Holds a drawing with its answers, and those before, to go back to.

    ``shown`` carries a ``BringView``, ``refused`` findings (a tuple, one at least), ``wrote`` the
    folder of a pattern and, as sentences, what it leaves open, ``said`` a sentence, and ``busy`` what is under way; empty: nothing is.
    """

    shown = Signal(object)
    refused = Signal(object)
    wrote = Signal(object, object)
    said = Signal(str)
    busy = Signal(str)

    def __init__(self, core: BringCore, kept: BegunFile, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._core = core
        self._kept = kept
        self._file = Path()
        self._now: Bringing | None = None
        self._view: BringView | None = None
        self._before: list[Bringing] = []
        self._looker = Runner(self)
        self._looker.better.connect(self._show_first)
        self._looker.answered.connect(self._show)
        self._looker.failed.connect(self._refuse)
        self._looker.ended.connect(lambda: self.busy.emit(""))
        self._writer = BringWriter(core, self)
        self._writer.wrote.connect(self._tell_written)
        self._writer.refused.connect(self.refused)
        self._writer.busy.connect(self.busy)

    # --- what is there ------------------------------------------------------------------------

    @property
    def file(self) -> Path:
        """The drawing in hand."""
        return self._file

    @property
    def view(self) -> BringView | None:
        """What was shown last; ``None``: nothing is in hand."""
        return self._view

    @property
    def is_open(self) -> bool:
        """Whether a drawing is in hand."""
        return self._now is not None

    @property
    def is_busy(self) -> bool:
        """Whether a drawing is read, or an answer reckoned."""
        return self._looker.is_busy

    @property
    def can_go_back(self) -> bool:
        """Whether an answer can be taken back."""
        return bool(self._before)

    def begun(self) -> Begun | None:
        """Return what was begun and left, by an earlier window or this one."""
        return self._kept.held()

    def forget(self) -> None:
        """Keep nothing of what was begun."""
        self._kept.forget()

    # --- reading ------------------------------------------------------------------------------

    def open(self, begun: Begun) -> None:
        """Read a drawing, with the answers that were given before."""
        core, kept = self._core, self._kept

        def work(report: Report, should_stop: ShouldStop) -> object:
            bringing = core.read(begun, should_stop)
            report(core.glimpse(bringing, should_stop))
            return _looked(core, kept, (bringing, begun.file), should_stop)

        self._file, self._now, self._view = begun.file, None, None
        self._before.clear()
        self.busy.emit(self.tr("Reading {0} …").format(begun.file.name))
        self._looker.ask(work)

    def stop(self) -> None:
        """End what is under way: a reading is given up, an answer is taken back."""
        if not self._looker.is_busy:
            return
        self._looker.drop()
        if self._now is None:
            self.said.emit(self.tr("Stopped. Nothing was brought in."))
        else:
            self._return_to_shown()
            self.said.emit(self.tr("Stopped. The last answer was not taken."))

    # --- answers ------------------------------------------------------------------------------

    def answer(self, about: str, choice: str) -> None:
        """Give an answer, in the place of a former one to the same question."""
        self._change(lambda now: answered(now, about, choice))

    def take_sure(self) -> None:
        """Take every suggestion that needs no look."""
        view = self._view
        sure = {one.id: one.suggested for one in view.questions if _is_sure(one)} if view else {}
        self._change(lambda now: answered_all(now, sure))

    def say_kind(self, key: str, kind: ShapeKind) -> None:
        """Take a shape for another kind."""
        self._change(lambda now: with_shapes(now, (key,), kind))

    def say_fact(self, key: str, fact: Fact, words: str) -> None:
        """Say something of one part by itself."""
        self._change(lambda now: with_fact(now, key, fact, words))

    def say_length(self, one: Point, other: Point, true_mm: float) -> bool:
        """Say how far apart two points of the drawing are in truth; tell whether that tells anything.

        The points are in mm as it is drawn by now.
        """
        view, now = self._view, self._now
        if view is None or now is None:
            return False
        each = view.mm_each
        known = with_known_length(now, _in_file(one, each), _in_file(other, each), true_mm)
        if known is None:
            return False
        self._change(lambda _now: known)
        return True

    def go_back(self) -> str:
        """Take back the last answer; return what it was an answer to, or an empty text."""
        if not self._before or self._now is None:
            return ""
        after, self._now = self._now, self._before.pop()
        changed = set(after.given) ^ set(self._now.given)
        self._look()
        return min((given.about for given in changed), default="")

    def _change(self, change: Callable[[Bringing], Bringing]) -> None:
        if self._now is None:
            return
        after = change(self._now)
        if after != self._now:
            self._before.append(self._now)
            self._now = after
            self._look()

    def _look(self) -> None:
        core, kept, now, file = self._core, self._kept, self._now, self._file
        if now is None:
            return
        self.busy.emit(self.tr("Reckoning what follows …"))
        self._looker.ask(
            lambda _report, should_stop: _looked(core, kept, (now, file), should_stop)
        )

    def _show_first(self, view: BringView) -> None:
        """Show the lines while it is still sought what they make together."""
        self._now, self._view = view.bringing, view
        self.shown.emit(view)
        self.busy.emit(self.tr("Looking which rows fit …"))

    def _show(self, looked: _Looked) -> None:
        self._now, self._view = looked.bringing, looked.view
        self.shown.emit(looked.view)
        if looked.amiss:
            self.said.emit(looked.amiss)

    def _refuse(self, error: Exception) -> None:
        """An answer with which nothing can be reckoned is taken back."""
        self._return_to_shown()
        self.refused.emit(findings_of(error))

    def _return_to_shown(self) -> None:
        """Forget answers whose view was never reckoned."""
        if self._view is None:
            return
        self._now = self._view.bringing
        at = next((i for i, one in enumerate(self._before) if one is self._now), None)
        self._before = self._before[:at]

    # --- writing ------------------------------------------------------------------------------

    def write(self, folder: Path, name: str = "") -> None:
        """Write the pattern under a name; what is open still is taken as it is suggested."""
        if self._now is not None:
            now = replace(self._now, name=name or self._now.name)
            self._writer.write(now, self._file, folder)

    def _tell_written(self, folder: Path, left_open: tuple[str, ...]) -> None:
        self._kept.forget()
        self.wrote.emit(folder, left_open)

    def put_away(self) -> None:
        """Have no drawing in hand."""
        self._looker.drop()
        self._now, self._view = None, None
        self._before.clear()

    def close(self) -> bool:
        """Wait for what runs; tell whether it ended in time."""
        return all([self._looker.close(), self._writer.close()])


def _looked(
    core: BringCore, kept: BegunFile, what: tuple[Bringing, Path], should_stop: ShouldStop
) -> _Looked:
    """Reckon a view, and keep the answers for another day."""
    bringing, file = what
    view = core.look(bringing, should_stop)
    begun = Begun(file=file, name=bringing.name, answers=bringing.answers)
    return _Looked(bringing, view, kept.keep(begun) if begun.answers else "")


def _is_sure(question: Question) -> bool:
    return question.sure and question.answer is None


def _in_file(point: Point, mm_each: float) -> Point:
    return (point[0] / mm_each, point[1] / mm_each)
