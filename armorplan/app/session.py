"""The session: one build at the bench, its rows, its actions, its plan. No Qt."""

from collections.abc import Callable
from contextlib import suppress

from armorplan.app.absences import Absences
from armorplan.app.builds_in_sight import BuildsInSight
from armorplan.app.checklist_rows import KeptRows, rows_at
from armorplan.app.derived import Derived
from armorplan.app.drying_desk import DryingDesk
from armorplan.app.entries import NOT_RECORDED, Entries, Ledger
from armorplan.app.graph_rows import Graphs
from armorplan.app.keepsakes import Keepsakes
from armorplan.app.learned_room import LearnedRoom
from armorplan.app.moment import BenchMoment
from armorplan.app.other_air import Settle, in_air, look_ahead
from armorplan.app.plan_face import PlanFace
from armorplan.app.practice_desk import PracticeDesk
from armorplan.app.presses import Presses
from armorplan.app.rows import BenchState, ChecklistRow, Grouping, TimerRow
from armorplan.app.session_week import SessionWeek
from armorplan.app.snapshots import relations_from
from armorplan.app.taking_longer import longer
from armorplan.app.timer_book import TimerBook
from armorplan.app.timing import Timing
from armorplan.app.way_back_desk import WayBackDesk
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.acting import Press
from armorplan.ledger.builds import BuildRecord
from armorplan.ledger.events import Event
from armorplan.ledger.state import Deriver
from armorplan.workshop.air import Room

_IN_HAND = (BenchState.RUNNING, BenchState.PAUSED, BenchState.MISSED, BenchState.READY)


class Session(SessionWeek):
    """One build at the bench; fulfils ``session_protocol.BenchSession``."""

    def __init__(
        self,
        build: BuildRecord,
        derived: Derived,
        ledger: Ledger,
        clock: Clock,
        new_id: Callable[[], str],
        *,
        who: str = "",
    ) -> None:
        super().__init__(build, derived, ledger, clock)
        self._presses = Presses(derived, build.id, clock, new_id, who=who)
        self._entries = Entries(build.id, ledger)
        self._mark: object = None
        self._air_seq: int | None = None
        self.air_is_new = False
        """Whether air was kept that the build was not reckoned in yet: ``asking_air`` answers it."""
        self._listeners: list[Callable[[], None]] = []
        self._checklists: dict[Grouping, tuple[ChecklistRow, ...]] = {}
        self._kept_rows = {grouping: KeptRows() for grouping in Grouping}
        self._learned = LearnedRoom(derived, ledger, self._entries.all)
        self._deriver = Deriver()
        self._moment = self._moment_after(self._entries.all)
        self._take_in(self._moment)
        self.way_back = WayBackDesk(self)
        self.drying = DryingDesk(self, self._learned, clock)
        others = BuildsInSight(build, ledger.timers)
        self._timing = Timing(self, TimerBook(ledger.timers), others, clock, new_id)
        self._timing.settle_in(self._entries.all)
        here = (lambda: self._learned.derived, self._go_on_in, self.change)
        self.absences = Absences(*here, ledger.absences, clock)
        self.practice = PracticeDesk(*here, ledger, clock, who=who)
        self.keepsakes = Keepsakes(build.id, ledger.keepsakes, clock, who=who)

    @property
    def timing(self) -> Timing:
        """The timers, and what is done about them."""
        return self._timing

    def _moment_after(self, events: tuple[Event, ...]) -> BenchMoment:
        derived = self._learned.follow(events)
        return BenchMoment(
            derived, self._deriver.derive(events), self._clock, self._planning.shown
        )

    def press(self) -> Press:
        """Return a press of this moment, by whoever works in this window."""
        return self._presses.press()

    def entries(self) -> tuple[Event, ...]:
        """Return all entries of the build."""
        return self._entries.all

    def change(self) -> None:
        """Show everything anew."""
        room = self._derived.shop.room
        self._show(self._moment_after(self._entries.all))
        if self._derived.shop.room is not room:
            self._timing.settle_in(self._entries.all)

    def asking_air(self, room: Callable[[], tuple[int, Room]]) -> Callable[[], Settle]:
        """Return what reckons the build in the air of now, in any thread; its answer shows it.

        Args:
            room: reads the number of the air kept last, and the room with what was learned of it.
        """
        derived, events, plan = self._learned.derived, self._entries.all, self._planning.shown
        self.air_is_new = False

        def reckon() -> Settle:
            number, here = room()
            anew = in_air(derived, here, relations_from(self._build.relations_json))
            moment = look_ahead(anew, events, self._clock, plan)

            def settle() -> None:
                self._know_air(number)
                self._go_on_in(anew)
                stands = self._entries.all is events and self._planning.shown is plan
                if stands and self._learned.derived is anew:
                    self._show(moment)
                    self._timing.settle_in(events)
                else:
                    self.change()

            return settle

        return reckon

    def _know_air(self, number: int) -> None:
        self.air_is_new = (self._air_seq or 0) > number
        self._air_seq = max(self._air_seq or 0, number)

    def _go_on_in(self, derived: Derived) -> None:
        self._learned.derived = derived
        # What was learned meanwhile counts, too; what cannot be read now is read with the next look.
        with suppress(WorkshopError):
            self._learned.learn_anew(self._entries.all)
        self._planning.forget_problem()

    def show_timers(self) -> None:
        """Show timers anew: nothing of the build has changed."""
        self._show(self._moment)

    def _show(self, moment: BenchMoment) -> None:
        self._take_in(moment)
        self._timing.forget()
        self._checklists.clear()
        for listener in self._listeners:
            listener()

    def _take_in(self, moment: BenchMoment) -> None:
        """Speak of the build as it stands at a moment; a way back may have changed its steps."""
        derived, former = moment.derived, self._derived
        self._moment, self._derived = moment, derived
        self._presses.go_on_in(derived)
        if derived.mending != former.mending:
            self._graphs = Graphs(derived)

    def _now(self) -> BenchMoment:
        """Return how the build stands, with what another window wrote by now."""
        if any(self._read_new()):
            self.change()
        return self._moment

    def subscribe(self, listener: Callable[[], None]) -> None:
        """Call ``listener`` after every change."""
        self._listeners.append(listener)

    def read_along(self) -> bool:
        """Take in what another window wrote and what time alone changed; tell whether any did."""
        new, timers_new = self._read_new()
        turned = self._timing.look()
        now_at, turn_at = self._clock.now(), self._moment.next_turn_at
        behind = self._planning.is_behind(self._moment, now_at)
        if new or behind:
            self._planning.forget_problem()
        elif not (turned or (turn_at is not None and turn_at <= now_at)):
            if timers_new:
                self.show_timers()
            return timers_new
        self.change()
        if turned:
            # A clock set right may have changed what was kept while it was wrong.
            self._timing.settle_in(self._entries.all)
        return True

    def _read_new(self) -> tuple[bool, bool]:
        """Read what another window wrote: of the builds in hand and of dryings, and about timers.

        Where it cannot be read now, a key press tells why.
        """
        try:
            mark = self._ledger.mark()
            if mark == self._mark:
                return False, False
            new = self._entries.read_new()
            new |= self._learned.catch_up(self._entries.all)
            new |= self._others.read_new() | self.absences.read_new() | self.practice.read_new()
            beside = self._timing.read_new() | self._promised.read_new()
            found = new, beside | self.keepsakes.read_new() | self.practice.read_results()
            latest = self._ledger.air.latest()
        except WorkshopError:
            return False, False
        self._mark = mark
        self.air_is_new |= self._air_seq not in (None, latest)
        self._air_seq = latest
        return found

    def checklist(self, grouping: Grouping) -> tuple[ChecklistRow, ...]:
        """Return the checklist, parents before children."""
        rows = self._checklists.get(grouping)
        if rows is None:
            timers = {row.step: row for row in self._timing.rows if not row.build}
            kept = self._kept_rows[grouping]
            rows = self._checklists[grouping] = rows_at(self._moment, timers, grouping, kept)
        return rows

    def timers(self) -> tuple[TimerRow, ...]:
        """Return timers, soonest due first."""
        return self._timing.rows

    def plan_face(self) -> PlanFace:
        """Return the plan in words; of finished work, that it is."""
        if self._moment.is_done:
            total = len(self._derived.work.steps)
            return PlanFace(sentence=f"All {total} steps are done.", details="", finish_at=None)
        return self._planning.face()

    def ready_steps(self) -> tuple[str, ...]:
        """Return what may be done now, in the plan's order."""
        return self._moment.in_order(*_IN_HAND)

    def start(self, steps: tuple[str, ...]) -> str:
        """Start or resume steps."""
        return self.keep(*self._presses.start(self._now(), steps))

    def pause(self, steps: tuple[str, ...]) -> str:
        """Pause steps."""
        return self.keep(*self._presses.pause(self._now(), steps))

    def done(self, steps: tuple[str, ...]) -> str:
        """Tick steps."""
        return self.keep(*self._presses.done(self._now(), steps))

    def longer(self, steps: tuple[str, ...]) -> str:
        """Say that steps under way take a quarter of an hour longer."""
        return self.keep(*longer(self._moment, steps, self.press()))

    def note(self, step: str, text: str) -> str:
        """Write a note to a step."""
        return self.keep(*self._presses.note(step, text))

    def undo(self) -> str:
        """Take back the last key press."""
        return self.keep(*self._presses.undo(self._now()))

    def undo_step(self, step: str) -> str:
        """Take back the last key press that touched a step, whatever was done after it."""
        return self.keep(*self._presses.undo_step(self._now(), step))

    def waive(self, steps: tuple[str, ...], why: str) -> str:
        """Leave fits out for a reason; they count as signed off."""
        return self.keep(*self._presses.waive(self._now(), steps, why))

    def redo(self) -> str:
        """Restore what was last taken back."""
        return self.keep(*self._presses.redo(self._now()))

    def can_undo(self) -> str:
        """Return what undo would take back."""
        return self._presses.words_of(self._moment.ledger.undo_side)

    def can_redo(self) -> str:
        """Return what redo would restore."""
        return self._presses.words_of(self._moment.ledger.redo_side)

    def keep(self, events: tuple[Event, ...], said: str) -> str:
        """Put entries on the disk, then show them; what the disk refuses is told, not shown."""
        if not events:
            return said
        self._now()
        after = (*self._entries.all, *events)
        moment = self._moment_after(after)
        timers = self._timing.text_of(moment.timers)
        try:
            self._entries.append(events, timers)
        except WorkshopError as error:
            return f"{NOT_RECORDED} {error}"
        self._timing.kept(timers)
        self._planning.forget_problem()
        # What another window wrote in between may have changed how things stand.
        if len(self._entries.all) == len(after):
            self._show(moment)
        else:
            self.change()
            self._timing.settle_in(self._entries.all)
        return said
