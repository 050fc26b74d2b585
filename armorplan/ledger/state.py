"""The state of a build, derived from its entries and from nothing else."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from itertools import takewhile
from types import MappingProxyType

from armorplan.ledger.batches import Batch, StandingPresses, standing_presses
from armorplan.ledger.events import ANEW, Event, EventKind
from armorplan.ledger.looks import look_from
from armorplan.ledger.records import Moment, Note, StepRecord, StepStatus, StillDamp, Stretch
from armorplan.ledger.told import TELLING, Told, told_by


@dataclass(frozen=True, slots=True, kw_only=True)
class LedgerState:
    """How a build stands.

    Attributes:
        records: the steps with an entry that stands, by id.
        done_order: the steps that are done, in the order they were ticked.
        first_ticks: the steps ever ticked, in the order of their first tick that stands: rework
            changes nothing about what came before what. What was taken out is ticked anew.
        during_rework: steps first ticked while others, ticked before, were being done again; with
            those others.
        undo_side: presses that stand; undo takes back the last one.
        redo_side: presses taken back; redo restores the last one.
        told: what was said of the build, in the order it was said.
        latest: the moment of the newest entry, for doubts about the clock.
        last_seq: the number of the newest stored entry, 0 where there is none.
    """

    records: tuple[StepRecord, ...] = ()
    done_order: tuple[str, ...] = ()
    first_ticks: tuple[str, ...] = ()
    during_rework: tuple[tuple[str, frozenset[str]], ...] = ()
    undo_side: tuple[Batch, ...] = ()
    redo_side: tuple[Batch, ...] = ()
    told: tuple[Told, ...] = ()
    latest: Moment | None = None
    last_seq: int = 0
    _by_step: dict[str, StepRecord] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Index the records once."""
        object.__setattr__(self, "_by_step", {r.step: r for r in self.records})

    def record(self, step: str) -> StepRecord:
        """Return how a step stands; untouched where nothing was recorded of it."""
        return self._by_step.get(step) or StepRecord(step=step)

    def said(self, kind: EventKind) -> tuple[Told, ...]:
        """Return what was said of one kind, in the order it was said."""
        return tuple(one for one in self.told if one.kind is kind)


def derive(events: Iterable[Event]) -> LedgerState:
    """Derive the state from one build's entries, in the ledger's order."""
    return Deriver().derive(events)


class Deriver:
    """Derives the state of one build again and again: of entries that were added, only these.

    Once something was taken back it begins anew.
    """

    def __init__(self) -> None:
        self._taken: tuple[Event, ...] = ()
        self._found = _Deriving()

    def derive(self, events: Iterable[Event]) -> LedgerState:
        """Do what ``derive`` does."""
        entries = tuple(events)
        stands = standing_presses(entries)
        # An entry has its number only once it is stored, and is another one then.
        stored = tuple(takewhile(lambda event: event.seq > 0, stands.events))
        taken = len(self._taken)
        if not taken or stored[:taken] != self._taken:
            self._found, taken = _Deriving(), 0
        # Nothing counts as taken in before all of it is: what fails is derived anew.
        self._taken = ()
        self._found.take_all(stored[taken:])
        self._taken = stored
        found = self._found.copy()
        found.take_all(stands.events[len(stored) :])
        return _state(found, stands, entries)


def _state(found: "_Deriving", stands: StandingPresses, entries: tuple[Event, ...]) -> LedgerState:
    return LedgerState(
        records=tuple(found.records[step] for step in sorted(found.records)),
        done_order=tuple(found.done_order),
        first_ticks=tuple(found.first_ticks),
        during_rework=tuple(found.during_rework.items()),
        undo_side=stands.undo_side,
        redo_side=stands.redo_side,
        told=tuple(found.told),
        latest=_moment(entries[-1]) if entries else None,
        last_seq=max((event.seq for event in entries), default=0),
    )


@dataclass(slots=True)
class _Deriving:
    """The state while it grows entry by entry; dicts serve as ordered sets."""

    records: dict[str, StepRecord] = field(default_factory=dict)
    done_order: dict[str, None] = field(default_factory=dict)
    first_ticks: dict[str, None] = field(default_factory=dict)
    during_rework: dict[str, frozenset[str]] = field(default_factory=dict)
    told: list[Told] = field(default_factory=list)

    def copy(self) -> "_Deriving":
        """Return one that grows by itself."""
        return _Deriving(
            records=dict(self.records),
            done_order=dict(self.done_order),
            first_ticks=dict(self.first_ticks),
            during_rework=dict(self.during_rework),
            told=list(self.told),
        )

    def take_all(self, events: Iterable[Event]) -> None:
        """Take in entries that stand, in the ledger's order."""
        for event in events:
            self.take(event)

    def take(self, event: Event) -> None:
        """Take in an entry that stands."""
        if event.kind in TELLING:
            self.told.append(told_by(event))
            return
        step = event.step
        before = self.records.get(step) or StepRecord(step=step)
        after = self.records[step] = _TAKE[event.kind](before, event)
        if event.kind is EventKind.TAKEN_OUT:
            self._take_out(step)
        elif after.status is not StepStatus.DONE:
            self.done_order.pop(step, None)
        elif before.status is not StepStatus.DONE:
            self._tick(step)

    def _tick(self, step: str) -> None:
        if step not in self.first_ticks and len(self.done_order) < len(self.first_ticks):
            self.during_rework[step] = frozenset(self.first_ticks.keys() - self.done_order)
        self.first_ticks.setdefault(step)
        self.done_order[step] = None

    def _take_out(self, step: str) -> None:
        self.done_order.pop(step, None)
        self.first_ticks.pop(step, None)
        self.during_rework.pop(step, None)
        self.told = [
            replace(one, given_up=True) if one.kind is EventKind.MEND and one.step == step else one
            for one in self.told
        ]


def _moment(event: Event) -> Moment:
    return Moment(at=event.at, boot_id=event.boot_id, boot_s=event.boot_s)


def _start(record: StepRecord, event: Event) -> StepRecord:
    """Begin a stretch: after a pause it counts on, after a tick or where it says so anew.

    A plain start of a step that runs changes nothing: a second window was as quick.
    """
    anew = event.text == ANEW
    if record.status is StepStatus.RUNNING and not anew:
        return record
    stretches = _closed(record, event)
    goes_on = record.status is StepStatus.PAUSED and not anew
    reworked = record.status is StepStatus.DONE
    return replace(
        record,
        status=StepStatus.RUNNING,
        stretches=(*stretches, Stretch(start=_moment(event))),
        counts_from=record.counts_from if goes_on else len(stretches),
        done_moment=None,
        signed_off=record.signed_off and not reworked,
        signed_off_by="" if reworked else record.signed_off_by,
        waived="" if reworked else record.waived,
        damp=record.damp if goes_on else None,
        told_min=record.told_min if goes_on else None,
        who=event.who or (record.who if goes_on else ""),
    )


def _closed(record: StepRecord, event: Event) -> tuple[Stretch, ...]:
    if record.status is not StepStatus.RUNNING:
        return record.stretches
    return (*record.stretches[:-1], replace(record.stretches[-1], end=_moment(event)))


def _pause(record: StepRecord, event: Event) -> StepRecord:
    if record.status is not StepStatus.RUNNING:
        return record
    return replace(record, status=StepStatus.PAUSED, stretches=_closed(record, event))


def _finish(record: StepRecord, event: Event) -> StepRecord:
    if record.status is StepStatus.DONE:
        return record
    stretches = _closed(record, event)
    return replace(
        record,
        status=StepStatus.DONE,
        stretches=stretches,
        done_moment=_moment(event),
        who=event.who or record.who,
    )


def _look(record: StepRecord, event: Event) -> StepRecord:
    """Take in that it is still damp: it dries on, even if it had been ticked.

    That it is dry changes nothing here: the same press ticks it.
    """
    look = look_from(event.text)
    if look is None or look.dry is not False or not record.counted:
        return record
    last = replace(record.stretches[-1], end=None)
    return replace(
        record,
        status=StepStatus.RUNNING,
        stretches=(*record.stretches[:-1], last),
        done_moment=None,
        damp=StillDamp(moment=_moment(event), look=look),
    )


def _write(record: StepRecord, event: Event) -> StepRecord:
    note = Note(at=event.at, text=event.text, who=event.who)
    return replace(record, notes=(*record.notes, note))


def _sign(record: StepRecord, event: Event) -> StepRecord:
    return replace(record, signed_off=True, signed_off_by=event.who)


def _take_out(record: StepRecord, event: Event) -> StepRecord:
    """Let a step stand no more: what it took counts for nothing that follows; notes stay."""
    stretches = _closed(record, event)
    return StepRecord(
        step=record.step, stretches=stretches, counts_from=len(stretches), notes=record.notes
    )


def _waive(record: StepRecord, event: Event) -> StepRecord:
    """Let a fit count as done and signed off, for a reason that stays with it."""
    return replace(_sign(_finish(record, event), event), waived=event.text)


def _reckon_anew(record: StepRecord, event: Event) -> StepRecord:
    """Let a step under way take so many minutes in all; what says none changes nothing."""
    is_begun = record.status in (StepStatus.RUNNING, StepStatus.PAUSED)
    if not (is_begun and event.text.isdecimal()):
        return record
    return replace(record, told_min=int(event.text))


_TAKE: Mapping[EventKind, Callable[[StepRecord, Event], StepRecord]] = MappingProxyType(
    {
        EventKind.STARTED: _start,
        EventKind.PAUSED: _pause,
        EventKind.DONE: _finish,
        EventKind.NOTE: _write,
        EventKind.SIGNED_OFF: _sign,
        EventKind.LOOKED: _look,
        EventKind.WEIGHED: _look,
        EventKind.TAKEN_OUT: _take_out,
        EventKind.WAIVED: _waive,
        EventKind.LONGER: _reckon_anew,
    }
)
