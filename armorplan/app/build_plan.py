"""The plan of the builds in hand: the problem as things stand, the plan shown, its words."""

from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from datetime import datetime, timedelta
from typing import Protocol

from armorplan.app.chart_notes import nights_words
from armorplan.app.derived import Derived
from armorplan.app.in_hand import WeekPlan
from armorplan.app.kin_builds import KinBuilds
from armorplan.app.moment import BenchMoment
from armorplan.app.other_builds import Beside, OtherBuilds
from armorplan.app.plan_face import PlanFace
from armorplan.app.plan_history import in_hand_of
from armorplan.app.plan_naming import naming_of
from armorplan.app.promised import Promised
from armorplan.app.rows import BenchState
from armorplan.app.shop_told import told_of_shop
from armorplan.app.shown_plan import ShownPlan, plan_from, shown
from armorplan.app.solvent_hours import solvent_words, vapours_of
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.kernel.findings import Finding
from armorplan.ledger.build_orders import BuildOrder
from armorplan.ledger.builds import BuildRecord
from armorplan.ledger.records import StepStatus
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.facing import plan_words
from armorplan.schedule.problem import Problem
from armorplan.schedule.sittings import step_of

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

    def latest_plan(self) -> str | None:
        """Return the plan kept last, whichever build stood at the bench."""
        ...


class BuildPlan:
    """Holds the plan shown, and the problem that the next plan has to answer.

    The plan is of the open build together with the others in hand; rows of the open build use its
    part only.
    """

    def __init__(
        self,
        derived: Derived,
        shelf: PlanShelf,
        clock: Clock,
        others: OtherBuilds,
    ) -> None:
        self._derived = derived
        self._build = derived.assembly.build
        self._shelf = shelf
        self._clock = clock
        self._others = others
        self.kin = KinBuilds()
        self._problem: Problem | None = None
        self._answered: Problem | None = None
        self._asked_at: datetime | None = None
        self._notes_of: tuple[ShownPlan | None, tuple[str, ...]] = (None, ())
        self._words_of: tuple[ShownPlan | None, tuple[str, str]] = (None, ("", ""))
        self.told: tuple[Finding, ...] = ()
        """What of the shop keeps builds from being planned, or will surprise: as last looked at."""
        self.mark: object = object()
        """Another one as soon as the next problem has to be made anew."""
        self.shown: ShownPlan | None = self._kept()

    def _kept(self) -> ShownPlan | None:
        """Return the plan that was shown last in any window; else this build's own last one."""
        texts = (self._shelf.latest_plan(), self._shelf.last_plan(self._build))
        plans = [plan for text in texts if text and (plan := plan_from(text)) is not None]
        steps = self._derived.work
        mine = (p for p in plans if any(steps.has(step_of(one.id)) for one in p.plan.placed))
        return next(mine, None)

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
        beside = {each.build: each for each in self._others.beside}
        return any(
            (moment.states.states.get(placed.id) in waiting or _is_untouched(placed.id, beside))
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
        order, beside = self._others.order, self._others.beside
        records, unread = self._records(beside)
        self._derived = moment.derived
        self._asked_at = self._clock.now()

        def make() -> Problem:
            if unread is not None:
                raise unread
            problem, told = (
                (known, self.told) if known else self._made(moment, order, beside, records)
            )
            if self.mark is mark:
                self._problem, self.told = problem, told
            return problem

        return make

    def _records(
        self, beside: tuple[Beside, ...]
    ) -> tuple[Mapping[str, BuildRecord], WorkshopError | None]:
        """Return the snapshots of builds that have to be derived yet, or why they cannot be read.

        The file is read in the window's thread alone, and what is large in it once.
        """
        new = [each.build for each in beside if self.kin.is_new(each.build)]
        try:
            return {build: self._others.record(build) for build in new}, None
        except WorkshopError as error:
            return {}, error

    def _made(
        self,
        moment: BenchMoment,
        order: BuildOrder | None,
        beside: tuple[Beside, ...],
        records: Mapping[str, BuildRecord],
    ) -> tuple[Problem, tuple[Finding, ...]]:
        origin_at = _next_minute(self._clock.now())
        names = self._others.names
        agreed = order or BuildOrder(build=self._build)
        mine = in_hand_of(moment, agreed, names.get(self._build, ""), origin_at)
        others = (
            in_hand_of(stands, each.order, each.name, origin_at)
            for each, stands in self._moments(moment, beside, records)
        )
        # The window's thread asks for it with each plan shown.
        vapours_of(moment.derived)
        builds = (mine, *others)
        problem = self.kin.joiner.problem(builds, origin_at=origin_at)
        return problem, told_of_shop(builds, problem, agreed.source)

    def _moments(
        self, moment: BenchMoment, beside: tuple[Beside, ...], records: Mapping[str, BuildRecord]
    ) -> Iterator[tuple[Beside, BenchMoment]]:
        """Yield how each other build stands, where it can be read and is not done."""
        for each in beside:
            record = records.get(each.build)
            derived = self.kin.derived(each.build, record, moment.derived.shop)
            if derived is None:
                continue
            stands = BenchMoment(derived, each.ledger, self._clock, self.shown)
            if not stands.is_done:
                vapours_of(stands.derived)
                yield each, stands

    def take(self, answer: CheckedPlan) -> bool:
        """Show a plan if it answers the present problem and the checker finds no fault in it."""
        if answer.problem is not self._problem or not answer.holds:
            return False
        self.shown = shown(answer.plan, answer.problem)
        self._answered = answer.problem
        # A plan can be made again at any time; only entries of the ledger are worth a warning.
        with suppress(WorkshopError):
            self._shelf.save_plan(self._build, self.shown.as_text())
        return True

    def week(self, promised: Promised) -> WeekPlan | None:
        """Return the plan shown of all builds in hand; ``None`` until the first one is there."""
        if self.shown is None or self._answered is None:
            return None
        return WeekPlan(problem=self._answered, shown=self.shown, promised=promised.plan)

    def face(self) -> PlanFace:
        """Return the plan shown in words."""
        troubles = self._troubles()
        if self.shown is None:
            return PlanFace(sentence="", details="\n".join(troubles), finish_at=None)
        sentence, details = self._words(self.shown)
        finish_at = self.shown.finish_of(self._derived.work.has)
        notes = (*troubles, *self._notes(self.shown), details)
        details = "\n".join(text for text in notes if text)
        is_alone = not self._others.beside
        return PlanFace(
            sentence=sentence,
            details=details,
            finish_at=finish_at,
            finish_of="" if is_alone else self._title(),
            all_finish_at=None if is_alone else self.shown.finish_at,
        )

    def _title(self) -> str:
        """Return what the open build is called among the others."""
        jobs = self._answered.jobs if self._answered else ()
        return (
            next((job.title for job in jobs if job.id == self._build), "")
            or self._derived.pattern.name
        )

    def _words(self, plan: ShownPlan) -> tuple[str, str]:
        """Return the plan's words, put together once for each plan shown."""
        if self._words_of[0] is not plan:
            naming = naming_of(self._derived.shop, self._answered)
            self._words_of = plan, plan_words(plan.plan, self._answered, naming)
        return self._words_of[1]

    def _troubles(self) -> tuple[str, ...]:
        found = ((each.name, self.kin.trouble(each.build)) for each in self._others.beside)
        return tuple(f"{name}: {why}" for name, why in found if why)

    def _notes(self, plan: ShownPlan) -> tuple[str, ...]:
        """Return what nights cost a plan's dryings, and when its solvents add up.

        Reckoned once for each plan shown.
        """
        if self._notes_of[0] is not plan:
            every, work = plan.spans(), self._derived.work
            mine = {step: span for step, span in every.items() if work.has(step)}
            others = [self.kin.known(each.build) for each in self._others.beside]
            # Solvents of all builds add up in the one room they are worked in.
            beside = [(derived, every) for derived in others if derived is not None]
            told = nights_words(self._derived, mine), solvent_words(self._derived, mine, beside)
            self._notes_of = plan, tuple(text for text in told if text)
        return self._notes_of[1]


def _is_untouched(activity: str, beside: dict[str, Beside]) -> bool:
    """Tell whether this is a step of another build in hand at which nothing has happened yet."""
    step = step_of(activity)
    other = beside.get(step.partition("/")[0])
    return other is not None and other.ledger.record(step).status is StepStatus.UNTOUCHED


def _next_minute(at: datetime) -> datetime:
    return at.replace(second=0, microsecond=0) + timedelta(minutes=1)
