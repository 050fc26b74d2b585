"""The bench at one moment: everything views show, worked out once and kept until it changes."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from functools import cached_property

from armorplan.app.bench_states import BenchStates, states_now
from armorplan.app.derived import Derived
from armorplan.app.mended_build import mended
from armorplan.app.rows import BenchState, TimerRow
from armorplan.app.shown_plan import ShownPlan
from armorplan.app.step_ends import step_end
from armorplan.app.timer_rows import dried_unticked, timer_rows
from armorplan.kernel.clock import Clock
from armorplan.ledger.present import in_present_wall
from armorplan.ledger.records import StepRecord, StepStatus, moment_now
from armorplan.ledger.state import LedgerState
from armorplan.ledger.told import Told
from armorplan.schedule.company import beside_words

_MOMENT = timedelta(microseconds=1)
"""A window is open to its very end, and missed from then on."""
Span = tuple[datetime, datetime, str | None]


class BenchMoment:
    """One build, its ledger and its plan at one instant. Read only."""

    def __init__(
        self, derived: Derived, ledger: LedgerState, clock: Clock, plan: ShownPlan | None
    ) -> None:
        self._base = derived
        self.derived = mended(derived, ledger)
        """The build with the ways back that its ledger tells."""
        now = moment_now(clock)
        self.ledger = in_present_wall(ledger, now)
        self.now_at = now.at
        self._clock = clock
        self._plan = plan

    def with_told(self, told: Told) -> "BenchMoment":
        """Return how the build would stand had this been said as well."""
        ledger = replace(self.ledger, told=(*self.ledger.told, told))
        return BenchMoment(self._base, ledger, self._clock, self._plan)

    @cached_property
    def dried(self) -> tuple[str, ...]:
        """Dryings whose time is up though nobody has ticked them."""
        return dried_unticked(self.derived, self.ledger, self._clock)

    @cached_property
    def states(self) -> BenchStates:
        """How every step stands."""
        return states_now(self.derived, self.ledger, self.now_at, dried=self.dried)

    @cached_property
    def timers(self) -> tuple[TimerRow, ...]:
        """This build's timers with all their bells."""
        return timer_rows(self.derived, self.ledger, self._clock)

    @cached_property
    def spans(self) -> Mapping[str, Span]:
        """Start, end and who of each step: as recorded where it began, else as planned.

        What has to be done again, and what a way back opens first, stands where it is planned.
        """
        planned = self._plan.spans() if self._plan else {}
        spans = {step: span for step, span in planned.items() if self.derived.work.has(step)}
        for record in self.ledger.records:
            if self.derived.work.has(record.step) and not self.states.is_to_redo(record.step):
                real = self._real_span(record, spans.get(record.step))
                if real is not None:
                    spans[record.step] = real
        return spans

    def _real_span(self, record: StepRecord, planned: Span | None) -> Span | None:
        if record.status is StepStatus.UNTOUCHED:
            return None
        step = self.derived.work.step(record.step)
        who = self.hands_of(record) if step.attended else None
        who = who or (planned[2] if planned else None)
        start_at = record.counted[0].start.at if record.counted else record.done_at
        if start_at is None:
            return None
        likely_min = step_end(self.derived, step, record).minutes
        planned_at = start_at + timedelta(minutes=likely_min or step.minutes)
        if record.done_at is not None:
            # What dries is dry when its time is up, however late somebody ticks it.
            end_at = record.done_at if step.attended else min(record.done_at, planned_at)
            return (min(start_at, end_at), end_at, who)
        return (start_at, max(self.now_at, planned_at) if step.attended else planned_at, who)

    @cached_property
    def company(self) -> Mapping[str, str]:
        """Who does a step with whom beside, in words, by step; of those that are not over.

        Of a step under way it is whoever is at it; who is beside them is known where only one can.
        """
        names = {person.id: person.name for person in self.derived.shop.people}
        planned = self._plan.beside() if self._plan else {}
        found = {step: pair for step, pair in planned.items() if self.derived.work.has(step)}
        for record in self.ledger.records:
            if record.status is not StepStatus.UNTOUCHED and self.derived.work.has(record.step):
                pair = self._pair_at(record)
                found.pop(record.step, None)
                found |= {record.step: pair} if pair else {}
        return {
            step: beside_words(names[who], [names[one] for one in beside])
            for step, (who, beside) in found.items()
            if names.keys() >= {who, *beside}
        }

    def _pair_at(self, record: StepRecord) -> tuple[str, tuple[str, ...]] | None:
        who, kind = self.hands_of(record), self.derived.work.step(record.step).kind
        if who is None or record.status is StepStatus.DONE:
            return None
        people = self.derived.shop.people
        learning = any(person.id == who and person.does_beside(kind) for person in people)
        able = tuple(person.id for person in people if person.does(kind))
        return (who, able) if learning and len(able) == 1 else None

    def hands_of(self, record: StepRecord) -> str | None:
        """Return the id of who is at a step, or did it; ``None`` where the ledger names nobody here."""
        person = self.derived.shop.called(record.who) if record.who else None
        return None if person is None else person.id

    @property
    def is_done(self) -> bool:
        """Whether all of the build is done, ways back and what they open as well."""
        states, work = self.states, self.derived.work
        done = (s for s in self.ledger.done_order if work.has(s) and s not in states.to_open)
        return bool(work.steps) and sum(1 for _ in done) == len(work.steps)

    @property
    def next_turn_at(self) -> datetime | None:
        """The next instant at which a state changes by itself: dry, or a window opens or closes."""
        turns = [w.opens_at for w in self.states.windows.values()]
        turns += [w.by_at + _MOMENT for w in self.states.windows.values() if w.by_at is not None]
        turns += [t.due_at for t in self.timers if t.due_at is not None]
        return min((at for at in turns if at > self.now_at), default=None)

    def in_order(self, *wanted: BenchState) -> tuple[str, ...]:
        """Return the steps in these states, in the plan's order."""
        far = max((span[0] for span in self.spans.values()), default=self.now_at)
        place = self.derived.place

        def key(step: str) -> tuple[datetime, int]:
            span = self.spans.get(step)
            return (span[0] if span else far, place[step])

        found = [step for step in self.derived.order if self.states.of(step) in wanted]
        return tuple(sorted(found, key=key))
