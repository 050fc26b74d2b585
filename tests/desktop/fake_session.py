"""A session without pattern, ledger or planner: invented steps, the same on every run."""

from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta

from desktop.fake_absences import FakeAbsences
from desktop.fake_between import FakeBetween
from desktop.fake_cutting import FakeCutting
from desktop.fake_diagram import diagram_of
from desktop.fake_dry_fit import FakeFits
from desktop.fake_drying import FakeDrying
from desktop.fake_dryings import dryings_of
from desktop.fake_graphs import assembly_graph_of, chart_of, problem_of, step_graph_of
from desktop.fake_keepsakes import FakeKeepsakeShelf
from desktop.fake_needs import needs_of
from desktop.fake_practice import FakePractice
from desktop.fake_reach import FakeTrack
from desktop.fake_rows import rows_by_day, rows_by_piece
from desktop.fake_scenario import ORIGIN_AT, FakeStep, StoppedClock, lay_out, scenario
from desktop.fake_timing import FakeTiming
from desktop.fake_way_back import FakeWayBack
from sheets.sheet_scene import sheet

from armorplan.app.bench_card import BenchCard, RowMark
from armorplan.app.closes_off import ClosesOff
from armorplan.app.closing_words import NOTHING
from armorplan.app.drying_choices import Dryings
from armorplan.app.in_hand import WeekPlan
from armorplan.app.keepsakes import Keepsakes
from armorplan.app.needs_rows import NeedsPage
from armorplan.app.plan_face import PlanFace
from armorplan.app.rows import (
    BenchState,
    Chart,
    ChecklistRow,
    Diagram,
    DiagramMark,
    GraphRows,
    Grouping,
    Selection,
    TimerRow,
    Why,
    WhyLine,
)
from armorplan.app.shape_rows import ShapeRow
from armorplan.app.shown_plan import ShownPlan
from armorplan.kernel.findings import Finding
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.problem import Plan, Problem
from armorplan.workshop.air import Room
from armorplan.workshop.shop import Shop, one_maker


@dataclass(frozen=True, slots=True)
class Bench:
    """What was done so far; swapped as a whole, so undo is the former value."""

    done: frozenset[str] = frozenset()
    started: tuple[tuple[str, datetime, float, bool], ...] = ()
    """Step, when it was last started, seconds worked before that, and whether it runs."""


@dataclass
class FakeSession:
    """Fulfils ``BenchSession`` on the invented scenario."""

    steps: tuple[FakeStep, ...]
    clock: StoppedClock = field(default_factory=StoppedClock)
    findings: tuple[Finding, ...] = ()
    title: str = "Lantern watch, first set"
    build_id: str = "watch-1"
    notes: list[tuple[str, str]] = field(default_factory=list)
    waived: list[tuple[tuple[str, ...], str]] = field(default_factory=list)
    made_sheets: list[bool] = field(default_factory=list)
    plans: list[Plan] = field(default_factory=list)
    shape_rows: tuple[ShapeRow, ...] = ()
    marks: tuple[DiagramMark, ...] = ()
    room: Room = field(default_factory=Room)
    week_plan: WeekPlan | None = None
    kept_plan: ShownPlan | None = None
    absences: FakeAbsences = field(default_factory=FakeAbsences)
    cutting: FakeCutting = field(default_factory=FakeCutting)
    practice: FakePractice = field(default_factory=FakePractice)

    def __post_init__(self) -> None:
        self._bench = Bench()
        self._back: list[tuple[Bench, str]] = []
        self._forth: list[tuple[Bench, str]] = []
        self._listeners: list[Callable[[], None]] = []
        self.timing = FakeTiming(lambda: self.clock.now(), self.timers, self._hear)  # noqa: PLW0108 - a test sets another clock
        self.drying = FakeDrying(self._dries, self._hear)
        self.keepsakes = Keepsakes(self.build_id, FakeKeepsakeShelf(), self.clock)
        self.way_back = FakeWayBack(self._hear)
        self._by_id = {s.id: s for s in self.steps}
        self._heirs: dict[str, list[str]] = defaultdict(list)
        for step in self.steps:
            for need in step.needs:
                self._heirs[need].append(step.id)
        self._looked_at = self.clock.now()
        self._start_at = lay_out(self.steps)

    @classmethod
    def of(cls, step_count: int = 92, findings: tuple[Finding, ...] = ()) -> "FakeSession":
        return cls(steps=scenario(step_count), findings=findings)

    def _dries(self, step_id: str) -> bool:
        return any(step == step_id for step, *_ in self._bench.started) and not (
            self._by_id[step_id].attended
        )

    def states(self) -> dict[str, BenchState]:
        """Return how every step stands."""
        going = {step: runs for step, _, _, runs in self._bench.started}
        return {s.id: self._state(s, going) for s in self.steps}

    def _state(self, step: FakeStep, going: dict[str, bool]) -> BenchState:
        done = self._bench.done
        met = all(n in done for n in step.needs)
        if step.id in done:
            return BenchState.DONE if met else BenchState.EARLY
        if step.id in going:
            if not going[step.id]:
                return BenchState.PAUSED
            return BenchState.RUNNING if step.attended else BenchState.DRYING
        return BenchState.READY if met else BenchState.WAITING

    def row(self, step: FakeStep, states: dict[str, BenchState]) -> ChecklistRow:
        """Return the row of one step, without a parent."""
        waits = [self._by_id[n].title for n in step.needs if n not in self._bench.done]
        more = f" and {len(waits) - 1} more" if len(waits) > 1 else ""
        start = self._start_at[step.id]
        return ChecklistRow(
            id=step.id,
            parent=step.tray,
            title=step.title,
            kind=step.kind,
            state=states[step.id],
            steps=(step.id,),
            parts=step.parts,
            joints=step.joints,
            minutes=step.minutes,
            attended=step.attended,
            done_count=int(step.id in self._bench.done),
            start_at=start,
            end_at=start + timedelta(minutes=step.minutes),
            waits_for=(waits[0] + more) if waits else "",
            cautions=step.cautions,
            timer=self._timer(step.id),
        )

    def checklist(self, grouping: Grouping) -> tuple[ChecklistRow, ...]:
        states = self.states()
        rows = [(s, self.row(s, states)) for s in self.steps]
        return rows_by_piece(rows) if grouping is Grouping.PIECE else rows_by_day(rows)

    def _timer(self, step_id: str) -> TimerRow | None:
        for step, since, before_s, runs in self._bench.started:
            if step == step_id:
                return self._timer_row(self._by_id[step], since, before_s, runs=runs)
        return None

    def _timer_row(
        self, step: FakeStep, since: datetime, before_s: float, *, runs: bool
    ) -> TimerRow:
        now = self.clock.now()
        elapsed = before_s + ((now - since).total_seconds() if runs else 0.0)
        due = since + timedelta(minutes=step.minutes, seconds=-before_s) if runs else None
        return TimerRow(
            step=step.id,
            title=step.title,
            elapsed_s=elapsed,
            as_of=now,
            running_since=since if runs else None,
            planned_min=step.minutes,
            due_at=due,
            drying=not step.attended,
        )

    def timers(self) -> tuple[TimerRow, ...]:
        rows = [
            self._timer_row(self._by_id[step], since, before_s, runs=runs)
            for step, since, before_s, runs in self._bench.started
        ]
        never = ORIGIN_AT + timedelta(days=9999)
        return tuple(sorted(rows, key=lambda t: (t.due_at or never, t.step)))

    def diagram(self) -> Diagram:
        return replace(diagram_of(self.steps, self.states()), marks=self.marks)

    def shapes(self) -> tuple[ShapeRow, ...]:
        return self.shape_rows

    def tracing_reach(self) -> Callable[[], FakeTrack]:
        diagram = self.diagram()
        return lambda: FakeTrack.of(diagram, self.steps)

    def asking_between(self) -> FakeBetween:
        return FakeBetween(steps=self.steps)

    def asking_fit(self):
        return FakeFits(self.steps)

    def waive(self, steps: tuple[str, ...], why: str) -> str:
        if not why:
            return "Say why it may be left out: the reason is kept with the fit."
        self.waived.append((steps, why))
        return self._swap(self._bench, f"Waived: {self._named(steps)}")

    def assembly_graph(self) -> GraphRows:
        return assembly_graph_of(self.steps, self.diagram())

    def step_graph(self) -> GraphRows:
        return step_graph_of(self.steps, self.checklist(Grouping.PIECE))

    def chart(self) -> Chart:
        return chart_of(self.steps, self.states(), self._start_at, self.clock.now())

    def making_sheet(self, *, with_parts, pins=None):  # noqa: ARG002 - as the real one
        self.made_sheets.append(with_parts)
        return sheet

    def tabling_week(self):
        return None

    def shop_source(self) -> str:
        return ""

    def shop(self) -> Shop:
        return one_maker("UTC")

    def at_hand(self) -> ShownPlan | None:
        return self.kept_plan

    def week(self) -> WeekPlan | None:
        return self.week_plan

    def keep_promise(self) -> str:
        assert self.week_plan is not None
        self.week_plan = replace(self.week_plan, promised=self.week_plan.shown)
        self._hear()
        return "The plan as it stands is kept as promised."

    def dryings(self) -> Dryings:
        since = {step: at for step, at, _, runs in self._bench.started if runs}
        return dryings_of(self.steps, since, self.room, self.clock.now())

    def plan_face(self) -> PlanFace:
        finish = max(b.end_at for b in self.chart().bars)
        return PlanFace(
            sentence="Ready in good time; a shorter plan might save 2 h.",
            details="finish: 3210 min, bound 3090 min, good (gap 3.7 %)\nplaced by: serial",
            finish_at=finish,
        )

    def effort_told(self) -> str:
        return f"Setting the joints takes {len(self.steps)} minutes in this order."

    def needs(self, tray: str = "") -> NeedsPage:
        return needs_of(tray)

    def needs_csv(self, tray: str = "") -> str:  # noqa: ARG002
        return f"section,item\r\nleather,{self.title}\r\n"

    def why(self, step: str) -> Why:
        at = self._by_id[step]
        return Why(
            step=step,
            title=at.title,
            state=self.states()[step],
            needs=tuple(self._line(n) for n in at.needs),
            holds_up=tuple(self._line(h) for h in self._heirs[step]),
            detail=f"Planned for {at.minutes} min.",
            cautions=at.cautions,
        )

    def _line(self, other: str) -> WhyLine:
        return WhyLine(
            rule="cut-before-use",
            other=other,
            other_title=self._by_id[other].title,
            met=other in self._bench.done,
            text="Leather has to be dry before it is handled.",
            force="would spoil",
            source="common practice, no source",
            numbers=("dry 180 min",),
        )

    def bench_card(self, step: str) -> BenchCard:
        at, states = self._by_id[step], self.states()
        row = self.row(at, states)
        over = {s for s, state in states.items() if state in (BenchState.DONE, BenchState.EARLY)}
        ahead = [s for s in self.steps if s.id not in over | {step} and s.attended]
        return BenchCard(
            step=step,
            title=at.title,
            kind=at.kind,
            state=states[step],
            where=at.piece,
            attended=at.attended,
            minutes=at.minutes,
            tool="rivet setter, anvil and hammer" if at.joints else "",
            fastener="Double-cap rivet, 9 mm cap, post 8 mm" if at.joints else "",
            layers="upper petal on middle petal" if at.joints else "",
            caution=at.cautions[0] if at.cautions else "",
            cautions=at.cautions,
            waits_for=row.waits_for,
            row=tuple(
                RowMark(step=s.id, is_done=s.id in over) for s in self.steps if s.tray == at.tray
            ),
            done_count=len(over),
            all_count=len(self.steps),
            next_step=ahead[0].id if ahead else "",
            next_title=ahead[0].title if ahead else "",
        )

    def asking_commit(self, step: str) -> Callable[[], ClosesOff]:
        at = self._by_id[step]
        if at.kind == "cut":
            return lambda: ClosesOff(text="This cannot be taken back: what is cut stays cut.")
        if step.endswith("lower_3"):
            text = "After this, 1 joint is out of reach of everything but the long stake: boss."
            return lambda: ClosesOff(text=text, joints=(at.joints[0],), is_grave=True)
        return lambda: ClosesOff(text=NOTHING)

    def choose_steps(self, steps: tuple[str, ...]) -> Selection:
        chosen = [self._by_id[s] for s in steps]
        return Selection(
            steps=steps,
            parts=tuple(sorted({p for s in chosen for p in s.parts})),
            joints=tuple(sorted({j for s in chosen for j in s.joints})),
        )

    def choose_joint(self, joint: str) -> Selection:
        found = self.choose_steps(tuple(s.id for s in self.steps if joint in s.joints))
        return Selection(steps=found.steps, parts=found.parts, joints=(joint,))

    def choose_part(self, part: str) -> Selection:
        open_steps = [s for s in self.steps if part in s.parts and s.id not in self._bench.done]
        joints = {j for s in self.steps if part in s.parts for j in s.joints}
        steps = tuple(s.id for s in open_steps)
        return Selection(steps=steps, parts=(part,), joints=tuple(sorted(joints)))

    def choose_spoken_of(self, ids: tuple[str, ...]) -> Selection:
        diagram = self.diagram()
        holes = {hole.id: hole.part for hole in diagram.holes}
        parts = {part.id for part in diagram.parts}
        joints = {joint.id for joint in diagram.joints}
        return Selection(
            parts=tuple(holes.get(i, i) for i in ids if i in parts | holes.keys()),
            joints=tuple(i for i in ids if i in joints),
            steps=tuple(i for i in ids if i in self._by_id),
        )

    def ready_steps(self) -> tuple[str, ...]:
        return tuple(s for s, state in self.states().items() if state is BenchState.READY)

    def _swap(self, bench: Bench, text: str) -> str:
        self._back.append((self._bench, text))
        self._forth.clear()
        return self._show(bench, text)

    def _show(self, bench: Bench, text: str) -> str:
        self._bench = bench
        self._hear()
        return text

    def _hear(self) -> None:
        for listener in self._listeners:
            listener()

    def start(self, steps: tuple[str, ...]) -> str:
        now = self.clock.now()
        going = {entry[0]: entry for entry in self._bench.started}
        for step in steps:
            before_s = going[step][2] if step in going else 0.0
            if step not in going or not going[step][3]:
                going[step] = (step, now, before_s, True)
        return self._swap(
            Bench(self._bench.done, tuple(going.values())), f"Started: {self._named(steps)}"
        )

    def pause(self, steps: tuple[str, ...]) -> str:
        now = self.clock.now()
        started = tuple(
            (step, since, before_s + (now - since).total_seconds(), False)
            if step in steps and runs
            else (step, since, before_s, runs)
            for step, since, before_s, runs in self._bench.started
        )
        return self._swap(Bench(self._bench.done, started), f"Paused: {self._named(steps)}")

    def longer(self, steps: tuple[str, ...]) -> str:
        return self._swap(self._bench, f"Takes longer: {self._named(steps)}")

    def done(self, steps: tuple[str, ...]) -> str:
        steps = tuple(s for s in steps if s not in self._bench.done) or steps
        early = [s for s in steps if not self._bench.done.issuperset(self._by_id[s].needs)]
        started = tuple(e for e in self._bench.started if e[0] not in steps)
        told = f" – {len(early)} done early" if early else ""
        bench = Bench(self._bench.done | set(steps), started)
        return self._swap(bench, f"Done: {self._named(steps)}{told}")

    def _named(self, steps: tuple[str, ...]) -> str:
        return self._by_id[steps[0]].title if len(steps) == 1 else f"{len(steps)} steps"

    def note(self, step: str, text: str) -> str:
        self.notes.append((step, text))
        return self._swap(self._bench, f"Noted at {self._by_id[step].title}")

    def undo(self) -> str:
        if not self._back:
            return "Nothing to take back."
        bench, text = self._back.pop()
        self._forth.append((self._bench, text))
        return self._show(bench, f"Taken back: {text}")

    def redo(self) -> str:
        if not self._forth:
            return "Nothing to restore."
        bench, text = self._forth.pop()
        self._back.append((self._bench, text))
        return self._show(bench, f"Restored: {text}")

    def can_undo(self) -> str:
        return self._back[-1][1] if self._back else ""

    def can_redo(self) -> str:
        return self._forth[-1][1] if self._forth else ""

    def plan_from_now(self) -> None:
        self.planned_from_now = True

    def problem(self) -> Problem:
        return problem_of(tuple(s for s in self.steps if s.id not in self._bench.done))

    def asking(self):
        problem = self.problem()
        return lambda: problem

    def problem_mark(self) -> object:
        return self.problem()

    def take_plan(self, answer: CheckedPlan) -> bool:
        if answer.problem != self.problem():
            return False
        self.plans.append(answer.plan)
        self._show(self._bench, "")
        return True

    def read_along(self) -> bool:
        now, before = self.clock.now(), self._looked_at
        self._looked_at = now
        due = any(t.due_at and before < t.due_at <= now for t in self.timers())
        if due:
            self._show(self._bench, "")
        return due

    def subscribe(self, listener: Callable[[], None]) -> None:
        self._listeners.append(listener)
