"""Follows a build along its order for the picture: reckoned off the window's thread."""

from collections.abc import Mapping
from dataclasses import dataclass

from PySide6.QtCore import QObject, Signal

from armorplan.app.reach_rows import ReachFrame, ReachTrack, WayIn
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop


@dataclass(frozen=True, slots=True, kw_only=True)
class Closing:
    """What is to be shown.

    Attributes:
        way: how a tool gets to the chosen joint; ``None`` where none is chosen.
        lost: by number of stops done, what is out of reach from there on; ``None``: not known yet.
    """

    track: ReachTrack
    frame: ReachFrame
    way: WayIn | None = None
    lost: Mapping[int, tuple[str, ...]] | None = None


class ClosingDesk(QObject):
    """Holds the place in the order; ``shown`` carries a ``Closing``, ``failed`` a sentence.

    Does nothing until it is switched on.
    """

    begun = Signal()
    shown = Signal(object)
    failed = Signal(str)

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._is_on = False
        self._at = 0
        self._joint = ""
        self._track: ReachTrack | None = None
        self._lost: Mapping[int, tuple[str, ...]] | None = None
        self._runner = Runner(self)
        self._runner.better.connect(self._take)
        self._runner.answered.connect(self._take)
        self._runner.failed.connect(self._tell)
        bridge.opened.connect(self._forget)

    @property
    def is_on(self) -> bool:
        """Whether reach is shown."""
        return self._is_on

    @property
    def at(self) -> int:
        """How many stops of the order are done in what is asked for."""
        return self._at

    def switch(self, wanted: bool) -> None:
        """Begin to follow the order, or leave it."""
        self._is_on = wanted
        if wanted:
            self._ask()
        else:
            self._runner.stop()

    def go(self, at: int) -> None:
        """Show the build with so many stops done, as far as there are any."""
        most = len(self._track.stops) if self._track else at
        wanted = min(max(at, 0), most)
        if wanted != self._at:
            self._at = wanted
            self._ask()

    def choose(self, joint: str) -> None:
        """Show the way in to a joint; an empty id shows none."""
        if joint != self._joint:
            self._joint = joint
            self._ask()

    def _forget(self) -> None:
        """Another build is shown: what is still on its way speaks of the former one."""
        self._runner.drop()
        self._track, self._lost, self._at, self._joint = None, None, 0, ""
        self._ask()

    def _ask(self) -> None:
        """Ask for what is to be shown, and once in a build for what is lost where."""
        if not self._is_on:
            return
        at, joint, known, lost = self._at, self._joint, self._track, self._lost
        tracing = self._bridge.session.tracing_reach()

        def work(report: Report, should_stop: ShouldStop) -> object:
            track = known or tracing()
            way = track.way_in(joint, at) if joint else None
            found = Closing(track=track, frame=track.frame(at), way=way, lost=lost)
            if lost is not None:
                return found
            report(found)
            told = track.lost(should_stop)
            whole = None if should_stop() else told
            return Closing(track=track, frame=found.frame, way=way, lost=whole)

        if known is None:
            self.begun.emit()
        self._runner.ask(work)

    def _take(self, closing: Closing) -> None:
        self._track, self._lost = closing.track, closing.lost
        if self._is_on:
            self.shown.emit(closing)

    def _tell(self, error: Exception) -> None:
        why = str(error).rstrip(".") or type(error).__name__
        self.failed.emit(self.tr("Reach could not be reckoned: {0}.").format(why))

    def close(self) -> bool:
        """Stop for good; tell whether the thread ended in time."""
        return self._runner.close()
