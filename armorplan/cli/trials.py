"""What the window needs to learn from tools tried at the bench: sheets, and where it is kept."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from armorplan.app.kept_reach import keep_reach, kept_words
from armorplan.app.learned_reach import LearnedReach
from armorplan.app.opening import Opened
from armorplan.app.session import Session
from armorplan.app.session_protocol import BenchSession
from armorplan.app.todays_tools import GoingOn, going_on_with, gone_on
from armorplan.app.trial_sheet import TrialSheet, trial_at
from armorplan.desktop.opening import Ready
from armorplan.kernel.clock import Clock
from armorplan.ledger.builds import BuildRecord
from armorplan.store.gate import OPEN, Gate
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Trials:
    """Fulfils ``trial_desk.TrialBench`` for the builds of a workshop.

    Attributes:
        workshop_path: the workshop file, opened anew in the thread that writes to it.
        own_catalogues_dir: where the maker's own tools are kept.
        shelf: reads the shelf as it is now.
        shop: reads where it is worked, as it is now.
        seat: makes a session of a build, in the window's thread.
        clock: tells instants.
        gate: says whether this window writes.
    """

    workshop_path: Path
    own_catalogues_dir: Path
    shelf: Callable[[], Shelf]
    shop: Callable[[], Shop]
    seat: Callable[[Opened], Session]
    clock: Clock
    gate: Gate = OPEN

    def sheet(self, session: BenchSession, step: str) -> Callable[[], TrialSheet]:
        """Return what makes the sheet of a step, in any thread."""
        here = _workshop_session(session)
        derived, done = here.derived, here.done_order
        return lambda: trial_at(derived, step, done, self.shelf(), self.own_catalogues_dir)

    def keep(self, learned: LearnedReach) -> Callable[[], str]:
        """Return what keeps a trial in the maker's own tools and says so, in any thread."""
        return partial(self._keep, learned)

    def _keep(self, learned: LearnedReach) -> str:
        kept = keep_reach(self.own_catalogues_dir, learned, self.clock.now().date())
        return " ".join(kept_words(kept, learned.tool))

    def go_on(self, session: BenchSession) -> Callable[[], Ready]:
        """Return what makes the same build ready with today's tools, in any thread."""
        return partial(self._go_on, _workshop_session(session).build)

    def _go_on(self, build: BuildRecord) -> Ready:
        own = WorkshopFile.open(self.workshop_path, self.clock, self.gate)
        try:
            ready = going_on_with(build, self.shelf(), own, self.shop(), clock=self.clock)
        finally:
            own.close()
        return partial(self._start, ready)

    def _start(self, ready: GoingOn) -> Session:
        """Start a build that was made ready, in the window's thread."""
        own = WorkshopFile.open(self.workshop_path, self.clock, self.gate)
        try:
            opened = gone_on(ready, own)
        finally:
            own.close()
        return self.seat(opened)


def _workshop_session(session: BenchSession) -> Session:
    if not isinstance(session, Session):
        message = "only a build of the workshop has tools"
        raise TypeError(message)
    return session
