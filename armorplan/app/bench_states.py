"""How every step stands now: from the ledger, the relations and the clock together."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from armorplan.app.derived import Derived
from armorplan.app.rows import BenchState
from armorplan.ledger.records import StepRecord, StepStatus
from armorplan.ledger.state import LedgerState
from armorplan.orders.next_steps import Standing, standing
from armorplan.relations.checking import breaks_of_prefix, breaks_so_far
from armorplan.relations.index import RelationIndex
from armorplan.relations.model import Relation, Together
from armorplan.steps.model import Step

_STATUS = {
    StepStatus.PAUSED: BenchState.PAUSED,
    StepStatus.DONE: BenchState.DONE,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class StartWindow:
    """When a step may begin because of a wait that counts from another one's end.

    ``by_at`` is the latest instant, where there is one.
    """

    opens_at: datetime
    by_at: datetime | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchStates:
    """The state of every step at one moment.

    Attributes:
        early: steps done although something they needed was not, with the relations broken.
        windows: steps whose earliest or latest start counts from something done.
    """

    states: Mapping[str, BenchState]
    standing: Standing
    early: Mapping[str, tuple[Relation, ...]]
    windows: Mapping[str, StartWindow]
    as_of: datetime

    def of(self, step: str) -> BenchState:
        """Return the state of a step."""
        return self.states[step]


def _windows(derived: Derived, ledger: LedgerState) -> Iterator[tuple[str, StartWindow]]:
    for relation in derived.waits:
        done_at = ledger.record(relation.first).done_at
        if done_at is None or ledger.record(relation.then).status is StepStatus.DONE:
            continue
        most = relation.max_lag_min
        yield (
            relation.then,
            StartWindow(
                opens_at=done_at + timedelta(minutes=relation.lag_min),
                by_at=None if most is None else done_at + timedelta(minutes=most),
            ),
        )


def _in_one_go(index: RelationIndex) -> tuple[Together, ...]:
    relations = (index.relations[at] for at in index.others)
    return tuple(r for r in relations if isinstance(r, Together))


def by_hand(derived: Derived, done: Sequence[str]) -> tuple[str, ...]:
    """Return steps done with what time alone does in front, as if it came between nothing.

    A drying that ends while two straps are dipped in one go is no break of it. Only where what
    dries is itself done in one go, it keeps its place.
    """
    named = frozenset[str]().union(*(r.of for r in _in_one_go(derived.index)))
    if not named:
        return tuple(done)
    work = derived.work
    by_itself = {s for s in done if s not in named and work.has(s) and not work.step(s).attended}
    return (*(s for s in done if s in by_itself), *(s for s in done if s not in by_itself))


def _early(derived: Derived, ledger: LedgerState) -> dict[str, tuple[Relation, ...]]:
    """Return the relations each step broke when it was first ticked; rework changes nothing."""
    found: dict[str, tuple[Relation, ...]] = {}
    binding = [together for together in _in_one_go(derived.index) if together.reason.binds]
    told = [
        *(
            b
            for b in breaks_so_far(ledger.first_ticks, derived.index)
            if not isinstance(b.relation, Together)
        ),
        *breaks_of_prefix(by_hand(derived, ledger.first_ticks), binding),
    ]
    for broken in told:
        if broken.relation.reason.binds:
            found[broken.step] = (*found.get(broken.step, ()), broken.relation)
    for step, relation in _on_rework(derived.index, ledger):
        found[step] = (*found.get(step, ()), relation)
    return found


def _on_rework(index: RelationIndex, ledger: LedgerState) -> Iterator[tuple[str, Relation]]:
    """Yield what was broken by steps that did not wait for the rework of what they need."""
    place = {step: at for at, step in enumerate(ledger.first_ticks)}
    for step, others in ledger.during_rework:
        for at in index.by_member[index.number[step]] if step in index.number else ():
            members = (index.steps[member] for member in index.members[at])
            is_last = all(place.get(member, len(place)) <= place[step] for member in members)
            if index.binds[at] and is_last and index.steps[index.firsts[at]] in others:
                yield step, index.relations[at]


def _state(step: Step, record: StepRecord, *, may: bool, early: bool) -> BenchState:
    if record.status is StepStatus.RUNNING:
        return BenchState.RUNNING if step.attended else BenchState.DRYING
    if record.status is StepStatus.DONE and early:
        return BenchState.EARLY
    if record.status in _STATUS:
        return _STATUS[record.status]
    # Nobody starts a drying: it runs from the end of its wet step, so it is never 'ready'.
    return BenchState.READY if may and step.attended else BenchState.WAITING


def states_now(
    derived: Derived, ledger: LedgerState, now_at: datetime, *, dried: tuple[str, ...] = ()
) -> BenchStates:
    """Return how every step stands at ``now_at``.

    Args:
        derived: the build.
        ledger: what was done.
        now_at: the present; a step whose window has not opened yet still waits.
        dried: dryings whose time is up though nobody has ticked them; what waited for them
            may come next.
    """
    stands = standing(by_hand(derived, (*ledger.done_order, *dried)), derived.index)
    may_come = frozenset(stands.may_come_next)
    early = _early(derived, ledger)
    windows = dict(_windows(derived, ledger))
    states = {}
    for step in derived.work.steps:
        window = windows.get(step.id)
        is_open = window is None or window.opens_at <= now_at
        states[step.id] = _state(
            step,
            ledger.record(step.id),
            may=step.id in may_come and is_open,
            early=step.id in early,
        )
    return BenchStates(states=states, standing=stands, early=early, windows=windows, as_of=now_at)
