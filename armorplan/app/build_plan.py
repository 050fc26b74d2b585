"""The plan of one build: the problem as things stand, the plan shown, its words."""

from collections.abc import Callable, Iterator
from contextlib import suppress
from datetime import datetime, timedelta
from typing import Protocol

from armorplan.app.chart_notes import nights_words
from armorplan.app.derived import Derived
from armorplan.app.moment import BenchMoment
from armorplan.app.rows import BenchState, PlanFace
from armorplan.app.shown_plan import ShownPlan, plan_from, shown
from armorplan.app.solvent_hours import solvent_words
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.records import StepStatus
from armorplan.schedule.bench_history import History
from armorplan.schedule.building import problem_from
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.facing import plan_words
from armorplan.schedule.problem import Problem
from armorplan.schedule.workplace import Workplace

_PATIENCE = timedelta(minutes=10)
"""A step may begin so much later than planned before the days are planned anew."""


class PlanShelf(Protocol):
    """Where the plan last shown is kept."""

    def save_plan(self, build_id: str, plan_json: str) -> None:
        """Keep the plan last shown."""
        ...

    def last_plan(self, build_id: str) -> str | None:
        """Return the plan last kept, or ``None``."""
        ...


class BuildPlan:
    """Holds the plan shown, and the problem that the next plan has to answer."""

    def __init__(self, derived: Derived, build: str, shelf: PlanShelf, clock: Clock) -> None:
        self._derived = derived
        self._build = build
        self._shelf = shelf
        self._clock = clock
        self._problem: Problem | None = None
        self._asked_at: datetime | None = None
        self._notes_of: tuple[ShownPlan | None, tuple[str, ...]] = (None, ())
        self.mark: object = object()
        """Another one as soon as the next problem has to be made anew."""
        kept = shelf.last_plan(build)
        self.shown: ShownPlan | None = plan_from(kept) if kept else None

    def forget_problem(self) -> None:
        """Let the next problem be made anew: something happened at the bench."""
        self._problem = None
        self._asked_at = self._clock.now()
        self.mark = object()

    def is_behind(self, moment: BenchMoment, now_at: datetime) -> bool:
        """Tell whether something planned should have begun a while ago and has not.

        Not while a new plan was asked for lately: it is being made, or says the same again.
        """
        late_at = now_at - _PATIENCE
        asked_lately = self._asked_at is not None and self._asked_at >= late_at
        if self.shown is None or asked_lately:
            return False
        waiting = (BenchState.READY, BenchState.WAITING, BenchState.MISSED)
        return any(
            moment.states.states.get(placed.id) in waiting
            and placed.who is not None
            and self.shown.span(placed)[0] < late_at
            for placed in self.shown.plan.placed
        )

    def asking(self, moment: BenchMoment) -> Callable[[], Problem]:
        """Return what makes the problem as things stand; it may be called in another thread.

        It gives the same problem until something happens; one that something has overtaken
        meanwhile is not kept, and no plan that answers it is taken.
        """
        mark, known = self.mark, self._problem
        self._derived = moment.derived
        self._asked_at = self._clock.now()

        def make() -> Problem:
            problem = known or self._made(moment)
            if self.mark is mark:
                self._problem = problem
            return problem

        return make

    def _made(self, moment: BenchMoment) -> Problem:
        origin_at, derived = _next_minute(self._clock.now()), moment.derived
        return problem_from(
            derived.work,
            derived.relations,
            Workplace(shop=derived.shop, shelf=derived.shelf),
            origin_at=origin_at,
            order=derived.order,
            history=History(
                done=dict(_done(moment, origin_at)),
                running=dict(_running(moment)),
                worked_min=dict(_worked(moment)),
                ready=dict(_ready(moment)),
            ),
        )

    def take(self, answer: CheckedPlan) -> bool:
        """Show a plan if it answers the present problem and the checker finds no fault in it."""
        if answer.problem is not self._problem or not answer.holds:
            return False
        self.shown = shown(answer.plan, answer.problem)
        # A plan can be made again at any time; only entries of the ledger are worth a warning.
        with suppress(WorkshopError):
            self._shelf.save_plan(self._build, self.shown.as_text())
        return True

    def face(self) -> PlanFace:
        """Return the plan shown in words."""
        if self.shown is None:
            return PlanFace(sentence="", details="", finish_at=None)
        sentence, details = plan_words(self.shown.plan)
        finish_at = self.shown.finish_at if self.shown.plan.placed else None
        details = "\n".join(text for text in (*self._notes(self.shown), details) if text)
        return PlanFace(sentence=sentence, details=details, finish_at=finish_at)

    def _notes(self, plan: ShownPlan) -> tuple[str, ...]:
        """Return what nights cost a plan's dryings, and when its solvents add up.

        Reckoned once for each plan shown.
        """
        if self._notes_of[0] is not plan:
            asked = (nights_words, solvent_words)
            told = (words(self._derived, plan.spans()) for words in asked)
            self._notes_of = plan, tuple(text for text in told if text)
        return self._notes_of[1]


def _done(
    moment: BenchMoment, now_at: datetime
) -> Iterator[tuple[str, tuple[datetime, datetime]]]:
    """Yield what is done, and dryings whose time is up, with their real spans.

    What has to be done again, since its window was missed, is planned anew.
    """
    for record in moment.ledger.records:
        over = record.status is StepStatus.DONE or record.step in moment.dried
        over = over and record.step not in moment.states.again
        if over and record.step in moment.spans:
            start_at, end_at, _ = moment.spans[record.step]
            yield record.step, (start_at, min(end_at, now_at))


def _running(moment: BenchMoment) -> Iterator[tuple[str, datetime]]:
    for record in moment.ledger.records:
        runs = record.status is StepStatus.RUNNING and record.step not in moment.dried
        if runs and record.step in moment.spans:
            yield record.step, moment.spans[record.step][0]


def _ready(moment: BenchMoment) -> Iterator[tuple[str, datetime]]:
    """Yield when what dries by now will be dry: by the room, by what was learned, by looks."""
    for record in moment.ledger.records:
        work = moment.derived.work
        runs = record.status is StepStatus.RUNNING and record.step not in moment.dried
        if runs and record.step in moment.spans and not work.step(record.step).attended:
            yield record.step, moment.spans[record.step][1]


def _worked(moment: BenchMoment) -> Iterator[tuple[str, int]]:
    """Yield the minutes already spent on what is paused: the rest is planned anew."""
    for timer in moment.timers:
        if timer.running_since is None:
            yield timer.step, int(timer.elapsed_s // 60)


def _next_minute(at: datetime) -> datetime:
    return at.replace(second=0, microsecond=0) + timedelta(minutes=1)
