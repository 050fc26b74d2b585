"""The session: one build at the bench, its rows, its actions, its plan. No Qt."""

from collections.abc import Callable

from armorplan.app.build_plan import BuildPlan
from armorplan.app.checklist_rows import ChecklistFacts, checklist_rows
from armorplan.app.derived import Derived
from armorplan.app.entries import Entries, Ledger
from armorplan.app.moment import BenchMoment
from armorplan.app.presses import Presses
from armorplan.app.rows import (
    BenchState,
    ChecklistRow,
    Grouping,
    PlanFace,
    TimerRow,
)
from armorplan.app.session_pages import SessionPages
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.builds import BuildRecord
from armorplan.ledger.events import Event
from armorplan.ledger.state import derive
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.problem import Problem


class Session(SessionPages):
    """One build at the bench; fulfils ``session_protocol.BenchSession``."""

    def __init__(
        self,
        build: BuildRecord,
        derived: Derived,
        ledger: Ledger,
        clock: Clock,
        new_id: Callable[[], str],
    ) -> None:
        super().__init__(build, derived, clock)
        self._presses = Presses(derived, build.id, clock, new_id)
        self._entries = Entries(build.id, ledger)
        self._planning = BuildPlan(derived, build.id, ledger, clock)
        self._listeners: list[Callable[[], None]] = []
        self._moment = self._fresh_moment()

    def _fresh_moment(self) -> BenchMoment:
        return BenchMoment(
            self._derived, derive(self._entries.all), self._clock, self._planning.shown
        )

    def _change(self) -> None:
        self._moment = self._fresh_moment()
        for listener in self._listeners:
            listener()

    def subscribe(self, listener: Callable[[], None]) -> None:
        """Call ``listener`` after every change."""
        self._listeners.append(listener)

    def read_along(self) -> bool:
        """Take in what another window wrote and what time alone changed; tell whether any did."""
        new = self._read_new()
        now_at, turn_at = self._clock.now(), self._moment.next_turn_at
        behind = self._planning.is_behind(self._moment, now_at)
        if new or behind:
            self._planning.forget_problem()
        elif turn_at is None or now_at < turn_at:
            return False
        self._change()
        return True

    def _read_new(self) -> bool:
        """Read what another window wrote; a key press tells why where it cannot be read now."""
        try:
            return self._entries.read_new()
        except WorkshopError:
            return False

    def checklist(self, grouping: Grouping) -> tuple[ChecklistRow, ...]:
        """Return the checklist, parents before children."""
        moment = self._moment
        facts = ChecklistFacts(
            derived=self._derived,
            states=moment.states,
            timers={row.step: row for row in moment.timers},
            spans={step: (start, end) for step, (start, end, _) in moment.spans.items()},
        )
        return checklist_rows(facts, grouping)

    def timers(self) -> tuple[TimerRow, ...]:
        """Return timers, soonest due first."""
        return self._moment.timers

    def plan_face(self) -> PlanFace:
        """Return the plan in words; of finished work, that it is."""
        total = len(self._derived.work.steps)
        if total and len(self._moment.ledger.done_order) == total:
            return PlanFace(sentence=f"All {total} steps are done.", details="", finish_at=None)
        return self._planning.face()

    def ready_steps(self) -> tuple[str, ...]:
        """Return what may be done now, in the plan's order."""
        return self._moment.in_order(BenchState.RUNNING, BenchState.PAUSED, BenchState.READY)

    def start(self, steps: tuple[str, ...]) -> str:
        """Start or resume steps."""
        return self._keep(*self._presses.start(self._moment, steps))

    def pause(self, steps: tuple[str, ...]) -> str:
        """Pause steps."""
        return self._keep(*self._presses.pause(self._moment, steps))

    def done(self, steps: tuple[str, ...]) -> str:
        """Tick steps."""
        return self._keep(*self._presses.done(self._moment, steps))

    def note(self, step: str, text: str) -> str:
        """Write a note to a step."""
        return self._keep(*self._presses.note(step, text))

    def undo(self) -> str:
        """Take back the last key press."""
        return self._keep(*self._presses.undo(self._moment))

    def redo(self) -> str:
        """Restore what was last taken back."""
        return self._keep(*self._presses.redo(self._moment))

    def can_undo(self) -> str:
        """Return what undo would take back."""
        return self._presses.words_of(self._moment.ledger.undo_side)

    def can_redo(self) -> str:
        """Return what redo would restore."""
        return self._presses.words_of(self._moment.ledger.redo_side)

    def _keep(self, events: tuple[Event, ...], said: str) -> str:
        """Put entries on the disk, then show them; what the disk refuses is told, not shown."""
        if not events:
            return said
        try:
            self._entries.append(events)
        except WorkshopError as error:
            return f"Not recorded. {error}"
        self._planning.forget_problem()
        self._change()
        return said

    def plan_from_now(self) -> None:
        """Let the next problem count from this moment."""
        self._planning.forget_problem()

    def problem(self) -> Problem:
        """Return the planning problem as things stand; the same one until something changes."""
        return self.asking()()

    def asking(self) -> Callable[[], Problem]:
        """Return what makes that problem; it may be called in another thread."""
        return self._planning.asking(self._moment)

    def problem_mark(self) -> object:
        """Return a value that is another as soon as the problem has to be made anew."""
        return self._planning.mark

    def take_plan(self, answer: CheckedPlan) -> bool:
        """Show a plan if it answers the present problem and the checker finds no fault in it."""
        taken = self._planning.take(answer)
        if taken:
            self._change()
        return taken
