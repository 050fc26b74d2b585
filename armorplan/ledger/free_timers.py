"""Timers set by hand, as a kitchen has them, derived from the entries about timers alone."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from armorplan.ledger.records import StepRecord, StepStatus, Stretch
from armorplan.ledger.timer_entries import TimerEntry, TimerEntryKind


@dataclass(frozen=True, slots=True, kw_only=True)
class FreeTimer:
    """A timer set by hand that nobody has stopped.

    Attributes:
        record: how it stands; ``ledger.timers`` reads it as it reads a step.
        minutes: for how long in all, with what was added.
        added: how often minutes were added.
    """

    record: StepRecord
    title: str
    minutes: float
    added: int = 0

    @property
    def id(self) -> str:
        """Its id, the same for ever."""
        return self.record.step


def free_timers(entries: Iterable[TimerEntry]) -> tuple[FreeTimer, ...]:
    """Return the timers that run or are paused, in the order they were set.

    An entry that comes too late (another window was quicker) changes nothing.
    """
    found: dict[str, FreeTimer] = {}
    for entry in entries:
        if entry.kind is TimerEntryKind.SET:
            found.setdefault(entry.timer, _set(entry))
        elif entry.timer in found:
            after = _TAKE.get(entry.kind, _unchanged)(found[entry.timer], entry)
            if after is None:
                del found[entry.timer]
            else:
                found[entry.timer] = after
    return tuple(found.values())


def _set(entry: TimerEntry) -> FreeTimer:
    record = StepRecord(
        step=entry.timer, status=StepStatus.RUNNING, stretches=(Stretch(start=entry.moment),)
    )
    return FreeTimer(record=record, title=entry.text, minutes=entry.minutes)


def _add(timer: FreeTimer, entry: TimerEntry) -> FreeTimer:
    return replace(timer, minutes=timer.minutes + entry.minutes, added=timer.added + 1)


def _pause(timer: FreeTimer, entry: TimerEntry) -> FreeTimer:
    record = timer.record
    if record.status is not StepStatus.RUNNING:
        return timer
    last = replace(record.stretches[-1], end=entry.moment)
    stretches = (*record.stretches[:-1], last)
    return replace(timer, record=replace(record, status=StepStatus.PAUSED, stretches=stretches))


def _resume(timer: FreeTimer, entry: TimerEntry) -> FreeTimer:
    record = timer.record
    if record.status is not StepStatus.PAUSED:
        return timer
    stretches = (*record.stretches, Stretch(start=entry.moment))
    return replace(timer, record=replace(record, status=StepStatus.RUNNING, stretches=stretches))


def _stop(_timer: FreeTimer, _entry: TimerEntry) -> None:
    return None


def _unchanged(timer: FreeTimer, _entry: TimerEntry) -> FreeTimer:
    return timer


_TAKE: Mapping[TimerEntryKind, Callable[[FreeTimer, TimerEntry], FreeTimer | None]] = (
    MappingProxyType(
        {
            TimerEntryKind.ADDED: _add,
            TimerEntryKind.PAUSED: _pause,
            TimerEntryKind.RESUMED: _resume,
            TimerEntryKind.STOPPED: _stop,
        }
    )
)
