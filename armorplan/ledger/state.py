"""The state of a build, derived from its entries and from nothing else."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from armorplan.ledger.batches import Batch, standing_presses
from armorplan.ledger.events import ANEW, Event, EventKind
from armorplan.ledger.looks import look_from
from armorplan.ledger.records import Moment, Note, StepRecord, StepStatus, StillDamp, Stretch


@dataclass(frozen=True, slots=True, kw_only=True)
class LedgerState:
    """How a build stands.

    Attributes:
        records: the steps with an entry that stands, by id.
        done_order: the steps that are done, in the order they were ticked.
        first_ticks: the steps ever ticked, in the order of their first tick that stands: rework
            changes nothing about what came before what.
        during_rework: steps first ticked while others, ticked before, were being done again; with
            those others.
        undo_side: presses that stand; undo takes back the last one.
        redo_side: presses taken back; redo restores the last one.
        latest: the moment of the newest entry, for doubts about the clock.
        last_seq: the number of the newest stored entry, 0 where there is none.
    """

    records: tuple[StepRecord, ...] = ()
    done_order: tuple[str, ...] = ()
    first_ticks: tuple[str, ...] = ()
    during_rework: tuple[tuple[str, frozenset[str]], ...] = ()
    undo_side: tuple[Batch, ...] = ()
    redo_side: tuple[Batch, ...] = ()
    latest: Moment | None = None
    last_seq: int = 0
    _by_step: dict[str, StepRecord] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Index the records once."""
        object.__setattr__(self, "_by_step", {r.step: r for r in self.records})

    def record(self, step: str) -> StepRecord:
        """Return how a step stands; untouched where nothing was recorded of it."""
        return self._by_step.get(step) or StepRecord(step=step)


def derive(events: Iterable[Event]) -> LedgerState:
    """Derive the state from one build's entries, in the ledger's order."""
    entries = tuple(events)
    stands = standing_presses(entries)
    records: dict[str, StepRecord] = {}
    done_order: dict[str, None] = {}
    first_ticks: dict[str, None] = {}
    during_rework: list[tuple[str, frozenset[str]]] = []
    for event in stands.events:
        before = records.get(event.step) or StepRecord(step=event.step)
        after = records[event.step] = _TAKE[event.kind](before, event)
        if after.status is not StepStatus.DONE:
            done_order.pop(event.step, None)
        elif before.status is not StepStatus.DONE:
            if event.step not in first_ticks and len(done_order) < len(first_ticks):
                during_rework.append((event.step, frozenset(first_ticks.keys() - done_order)))
            first_ticks.setdefault(event.step)
            done_order[event.step] = None
    return LedgerState(
        records=tuple(records[step] for step in sorted(records)),
        done_order=tuple(done_order),
        first_ticks=tuple(first_ticks),
        during_rework=tuple(during_rework),
        undo_side=stands.undo_side,
        redo_side=stands.redo_side,
        latest=_moment(entries[-1]) if entries else None,
        last_seq=max((event.seq for event in entries), default=0),
    )


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
        damp=record.damp if goes_on else None,
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


_TAKE: Mapping[EventKind, Callable[[StepRecord, Event], StepRecord]] = MappingProxyType(
    {
        EventKind.STARTED: _start,
        EventKind.PAUSED: _pause,
        EventKind.DONE: _finish,
        EventKind.NOTE: _write,
        EventKind.SIGNED_OFF: _sign,
        EventKind.LOOKED: _look,
        EventKind.WEIGHED: _look,
    }
)
