"""The session: one build at the bench, its rows, its actions, its plan. No Qt."""

from collections.abc import Callable
from functools import cached_property, partial

from armorplan.app.asking_between import AskingBetween
from armorplan.app.build_needs import BuildNeeds
from armorplan.app.build_plan import BuildPlan
from armorplan.app.chart_rows import chart_of
from armorplan.app.checklist_rows import ChecklistFacts, checklist_rows
from armorplan.app.derived import Derived
from armorplan.app.diagram_rows import DiagramRows
from armorplan.app.effort_report import effort_report, effort_words
from armorplan.app.entries import Entries, Ledger
from armorplan.app.graph_rows import Graphs
from armorplan.app.lighting import light_joint, light_part, light_steps
from armorplan.app.moment import BenchMoment
from armorplan.app.needs_rows import NeedsPage
from armorplan.app.presses import Presses
from armorplan.app.reach_rows import ReachTrack
from armorplan.app.reach_track import reach_track
from armorplan.app.reason_rows import Reasons
from armorplan.app.rows import (
    BenchState,
    Chart,
    ChecklistRow,
    Diagram,
    GraphRows,
    Grouping,
    PlanFace,
    Selection,
    TimerRow,
    Why,
)
from armorplan.app.shape_rows import ShapeRow, shape_rows
from armorplan.app.spoken_of import SpokenOf
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.kernel.findings import Finding
from armorplan.ledger.builds import BuildRecord
from armorplan.ledger.events import Event
from armorplan.ledger.state import derive
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.problem import Problem


class Session:
    """One build at the bench; fulfils ``session_protocol.BenchSession``."""

    def __init__(
        self,
        build: BuildRecord,
        derived: Derived,
        ledger: Ledger,
        clock: Clock,
        new_id: Callable[[], str],
    ) -> None:
        self._build = build
        self._derived = derived
        self._clock = clock
        self._presses = Presses(derived, build.id, clock, new_id)
        self._entries = Entries(build.id, ledger)
        self._planning = BuildPlan(derived, build.id, ledger, clock)
        self._graphs = Graphs(derived)
        self._needs = BuildNeeds()
        self._listeners: list[Callable[[], None]] = []
        self._moment = self._fresh_moment()

    @cached_property
    def _diagram(self) -> DiagramRows:
        return DiagramRows(self._derived)

    @cached_property
    def _spoken(self) -> SpokenOf:
        return SpokenOf(self._derived)

    @cached_property
    def _shapes(self) -> tuple[ShapeRow, ...]:
        return shape_rows(self._derived, self._spoken)

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

    @property
    def build_id(self) -> str:
        """The build's id."""
        return self._build.id

    @property
    def build(self) -> BuildRecord:
        """The build at the bench."""
        return self._build

    @property
    def title(self) -> str:
        """The build's name."""
        return self._build.name

    @property
    def derived(self) -> Derived:
        """All that follows from the build's pattern."""
        return self._derived

    @property
    def done_order(self) -> tuple[str, ...]:
        """What is ticked, in the order it was done."""
        return self._moment.ledger.done_order

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What was found in the pattern."""
        return self._derived.findings

    def effort_told(self) -> str:
        """Return in words what setting the joints takes, and the least; empty where none is set."""
        effort, order = self._derived.effort, self._derived.order
        return effort_words(effort_report(effort, order)) if effort and order else ""

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

    def diagram(self) -> Diagram:
        """Return the parts from their real outlines."""
        return self._diagram.at(self._moment.states.of)

    def shapes(self) -> tuple[ShapeRow, ...]:
        """Return what rows, covers, bends, posts and lames tell, by topic."""
        return self._shapes

    def tracing_reach(self) -> Callable[[], ReachTrack]:
        """Return what reckons reach along the order; it may be called in another thread."""
        return partial(reach_track, self._derived)

    def asking_between(self) -> AskingBetween:
        """Return what tells which of two comes first; it may be asked in another thread."""
        return AskingBetween(derived=self._derived)

    def assembly_graph(self) -> GraphRows:
        """Return parts and what holds them together."""
        return self._graphs.assembly(self._moment.states.of)

    def step_graph(self) -> GraphRows:
        """Return steps and what comes before what."""
        return self._graphs.steps(self._moment.states.of)

    def chart(self) -> Chart:
        """Return the coming days."""
        moment = self._moment
        return chart_of(self._derived, moment.states, moment.spans, self._clock.now())

    def plan_face(self) -> PlanFace:
        """Return the plan in words; of finished work, that it is."""
        total = len(self._derived.work.steps)
        if total and len(self._moment.ledger.done_order) == total:
            return PlanFace(sentence=f"All {total} steps are done.", details="", finish_at=None)
        return self._planning.face()

    def needs(self, tray: str = "") -> NeedsPage:
        """Return what the build uses up, baths for one of the shop's trays."""
        return self._needs.page(self._derived, tray)

    def needs_csv(self, tray: str = "") -> str:
        """Return the same as a table of figures."""
        return self._needs.csv(self._derived, tray)

    def why(self, step: str) -> Why:
        """Return why a step stands where it stands; KeyError where there is no such step."""
        if not self._derived.work.has(step):
            message = f"build {self._build.id} has no step {step!r}"
            raise KeyError(message)
        return Reasons(self._derived, self._moment.states, self._moment.ledger).why(step)

    def choose_steps(self, steps: tuple[str, ...]) -> Selection:
        """Light the parts and joints of steps."""
        return light_steps(self._derived, steps)

    def choose_joint(self, joint: str) -> Selection:
        """Light a fastener's step and layers."""
        return light_joint(self._derived, joint)

    def choose_part(self, part: str) -> Selection:
        """Light a part, its joints, its next step."""
        return light_part(self._derived, part, frozenset(self._moment.ledger.done_order))

    def choose_spoken_of(self, ids: tuple[str, ...]) -> Selection:
        """Light what a finding or a measure speaks of, on every side it is made on."""
        return self._spoken.light(ids)

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
