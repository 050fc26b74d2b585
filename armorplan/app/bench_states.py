"""How every step stands now: from the ledger, the relations and the clock together."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from armorplan.app.derived import Derived
from armorplan.app.rows import BenchState
from armorplan.app.start_windows import StartWindow, start_windows, to_do_again, too_soon
from armorplan.ledger.records import StepRecord, StepStatus
from armorplan.ledger.state import LedgerState
from armorplan.orders.next_steps import Standing, standing
from armorplan.relations.checking import breaks_of_prefix, breaks_so_far
from armorplan.relations.index import RelationIndex
from armorplan.relations.model import AfterAny, Relation, Together
from armorplan.steps.model import Step

_STATUS = {
    StepStatus.PAUSED: BenchState.PAUSED,
    StepStatus.DONE: BenchState.DONE,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchStates:
    """The state of every step at one moment.

    Attributes:
        early: steps done although something they needed was not, with the relations broken.
        windows: steps whose earliest or latest start counts from something done.
        again: casings to do again, since what they serve was not begun in time, with that step.
        soon_min: by how many minutes steps were begun before their window opened.
        to_open: steps that stand and that a way back opens first, to be done again after.
    """

    states: Mapping[str, BenchState]
    standing: Standing
    early: Mapping[str, tuple[Relation, ...]]
    windows: Mapping[str, StartWindow]
    as_of: datetime
    again: Mapping[str, str] = field(default_factory=dict)
    soon_min: Mapping[str, int] = field(default_factory=dict)
    to_open: frozenset[str] = frozenset()

    def is_to_redo(self, step: str) -> bool:
        """Tell whether a step was done and has to be done again."""
        return step in self.again or step in self.to_open

    def of(self, step: str) -> BenchState:
        """Return the state of a step."""
        return self.states[step]


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


def to_open(derived: Derived, ledger: LedgerState) -> frozenset[str]:
    """Return what stands that a way back opens, and has not opened yet."""
    if derived.mending is None:
        return frozenset()
    return frozenset(
        step
        for mend, cleared in derived.mending.opens.items()
        if ledger.record(mend).status is not StepStatus.DONE
        for step in cleared
        if ledger.record(step).status is not StepStatus.UNTOUCHED
    )


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


def _without(ledger: LedgerState, steps: frozenset[str]) -> LedgerState:
    """Return the state as if these steps had never been ticked, as far as their turn goes."""
    if not steps:
        return ledger
    return replace(
        ledger,
        first_ticks=tuple(step for step in ledger.first_ticks if step not in steps),
        during_rework=tuple(one for one in ledger.during_rework if one[0] not in steps),
    )


def _on_rework(index: RelationIndex, ledger: LedgerState) -> Iterator[tuple[str, Relation]]:
    """Yield what was broken by steps that did not wait for the rework of what they need."""
    place = {step: at for at, step in enumerate(ledger.first_ticks)}
    for step, others in ledger.during_rework:
        for at in index.by_member[index.number[step]] if step in index.number else ():
            members = (index.steps[member] for member in index.members[at])
            is_last = all(place.get(member, len(place)) <= place[step] for member in members)
            if index.binds[at] and is_last and index.steps[index.firsts[at]] in others:
                yield step, index.relations[at]


def _for_nothing(index: RelationIndex, done: Sequence[str], dried: Sequence[str]) -> Iterator[str]:
    """Yield what time alone did, and nothing that is still to be done waits for: it is ticked itself.

    What a way back puts before it comes first.
    """
    stands = frozenset(done)
    for step in dried:
        number = index.number[step]
        later = {index.steps[one] for at in index.by_first[number] for one in index.members[at]}
        needs = (index.firsts[at] for at in index.by_member[number] if index.binds[at])
        others = (index.relations[at] for at in index.others)
        later |= {r.then for r in others if isinstance(r, AfterAny) and step in r.of}
        if later <= stands and all(index.steps[first] in stands for first in needs):
            yield step


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stand:
    """What says how one step stands, beside its record."""

    may: bool
    early: bool
    missed: bool
    again: bool
    over: bool


def _state(step: Step, record: StepRecord, stand: _Stand) -> BenchState:
    if record.status is StepStatus.RUNNING and not stand.over:
        return BenchState.RUNNING if step.attended else BenchState.DRYING
    if stand.again or stand.over:
        return BenchState.READY
    if record.status is StepStatus.DONE and stand.early:
        return BenchState.EARLY
    if record.status in _STATUS:
        return _STATUS[record.status]
    # Nobody starts a drying: it runs from the end of its wet step, so it is never 'ready'.
    if not stand.may or not step.attended:
        return BenchState.WAITING
    return BenchState.MISSED if stand.missed else BenchState.READY


def states_now(
    derived: Derived, ledger: LedgerState, now_at: datetime, *, dried: tuple[str, ...] = ()
) -> BenchStates:
    """Return how every step stands at ``now_at``.

    Args:
        derived: the build.
        ledger: what was done.
        now_at: the present; a step whose window has not opened yet still waits, and one whose
            window has closed was missed: what opens it again is ready to be done again.
        dried: dryings whose time is up though nobody has ticked them; what waited for them
            may come next.
    """
    opening = to_open(derived, ledger)
    done = tuple(step for step in (*ledger.done_order, *dried) if step not in opening)
    stands = standing(by_hand(derived, done), derived.index)
    may_come = frozenset(stands.may_come_next)
    early, soon_min = _early(derived, _without(ledger, opening)), {}
    for then, relation, minutes in too_soon(derived, ledger):
        early[then] = (*early.get(then, ()), relation)
        soon_min[then] = minutes
    windows = start_windows(derived, ledger)
    again = to_do_again(windows, now_at)
    over = frozenset(_for_nothing(derived.index, done, dried))
    states = {}
    for step in derived.work.steps:
        window = windows.get(step.id)
        stand = _Stand(
            may=step.id in may_come and (window is None or window.opens_at <= now_at),
            early=step.id in early,
            missed=window is not None and window.is_missed(now_at),
            again=step.id in again,
            over=step.id in over,
        )
        is_shut = step.id in opening
        record = StepRecord(step=step.id) if is_shut else ledger.record(step.id)
        states[step.id] = _state(step, record, stand)
    return BenchStates(
        states=states,
        standing=stands,
        early=early,
        windows=windows,
        as_of=now_at,
        again=again,
        soon_min=soon_min,
        to_open=opening,
    )
