"""How long hands really took: what was reckoned is kept with the tick, what was worked is read off it.

Steps of a tray that were begun by one press were worked in one go: what they took together is
shared by what each was reckoned to take. Work that was ticked without having been begun tells
nothing.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta
from math import isfinite
from types import MappingProxyType

from armorplan.ledger.events import Event, EventKind
from armorplan.ledger.records import Moment, StepRecord, StepStatus
from armorplan.ledger.state import LedgerState
from armorplan.ledger.timers import present_at

NOTHING_TOLD: Mapping[str, str] = MappingProxyType({})
_LEAST_SHARE = 0.01
"""What was ticked the moment it was begun counts as so much of what was reckoned: a factor above 0."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reckoned:
    """What a step was reckoned to take when it was ticked.

    Attributes:
        kind: of step, by its name.
        minutes: hands-on, by the catalogue, before anything that was learned.
    """

    kind: str
    minutes: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """What work of one kind took that was begun by one press and is done.

    Attributes:
        id: its first step, and when it was begun.
        who: who ticked it; empty where nobody said.
        factor: the minutes it took, as a multiple of those reckoned.
        share: of the minutes reckoned for all that was begun with it.
        done_at: when the last of it was ticked.
    """

    id: str
    kind: str
    who: str
    factor: float
    share: float
    done_at: datetime


def reckoned_text(reckoned: Reckoned) -> str:
    """Return what was reckoned as the text of a tick."""
    return json.dumps(asdict(reckoned), ensure_ascii=False, sort_keys=True)


def reckoned_from(text: str) -> Reckoned | None:
    """Return what was reckoned from the text of a tick; ``None`` where it says nothing of use."""
    try:
        found = Reckoned(**json.loads(text))
        sound = isfinite(found.minutes) and found.minutes > 0 and isinstance(found.kind, str)
    except (TypeError, ValueError):
        return None
    return found if sound else None


def worked(state: LedgerState, standing: Iterable[Event]) -> tuple[Worked, ...]:
    """Return what work took that is done.

    Args:
        state: of a build.
        standing: its entries that stand.
    """
    ticks = {event.step: event for event in standing if event.kind is EventKind.DONE}
    begun: dict[tuple[datetime, str], list[tuple[StepRecord, Reckoned]]] = {}
    for record in state.records:
        tick = ticks.get(record.step)
        reckoned = reckoned_from(tick.text) if tick else None
        if tick and reckoned and record.status is StepStatus.DONE and record.counted:
            key = (record.counted[0].start.at, tick.who)
            begun.setdefault(key, []).append((record, reckoned))
    return tuple(
        found
        for (start_at, who), together in sorted(begun.items())
        for found in _shared(start_at, who, together)
    )


def _shared(
    start_at: datetime, who: str, together: list[tuple[StepRecord, Reckoned]]
) -> Iterable[Worked]:
    in_all = sum(reckoned.minutes for _, reckoned in together)
    worked_min = _minutes([record for record, _ in together])
    if worked_min is None:
        return
    took = max(worked_min, _LEAST_SHARE * in_all)
    done_at = max(record.done_at or start_at for record, _ in together)
    for kind in sorted({reckoned.kind for _, reckoned in together}):
        mine = [(r, reckoned) for r, reckoned in together if reckoned.kind == kind]
        yield Worked(
            id=f"{min(record.step for record, _ in mine)}@{start_at.isoformat()}",
            kind=kind,
            who=who,
            factor=took / in_all,
            share=sum(reckoned.minutes for _, reckoned in mine) / in_all,
            done_at=done_at,
        )


def _minutes(records: Iterable[StepRecord]) -> float | None:
    """Return the minutes in which at least one of these was worked.

    Within one run of the machine the boot clock counts, which nobody sets. ``None`` where the clock
    lost time while the machine was off in between: then nobody knows.
    """
    ended = [
        (stretch.start, stretch.end)
        for record in records
        for stretch in record.counted
        if stretch.end is not None
    ]
    lasts = _last_of_runs(moment for both in ended for moment in both)
    spans = sorted(
        (_by_boot_clock(start, lasts), _by_boot_clock(end, lasts)) for start, end in ended
    )
    if any(end_at < start_at for start_at, end_at in spans):
        return None
    passed, upto = timedelta(0), spans[0][0] if spans else None
    for start_at, end_at in spans:
        begin = max(start_at, upto) if upto else start_at
        if end_at > begin:
            passed += end_at - begin
            upto = end_at
    return passed.total_seconds() / 60


def _last_of_runs(moments: Iterable[Moment]) -> Mapping[str, Moment]:
    """Return the last moment of each run of the machine, by its boot id."""
    found: dict[str, Moment] = {}
    for moment in moments:
        found[moment.boot_id] = max(
            found.get(moment.boot_id, moment), moment, key=lambda each: each.boot_s
        )
    return found


def _by_boot_clock(moment: Moment, lasts: Mapping[str, Moment]) -> datetime:
    """Return an instant as the last wall clock of its run of the machine would have told it."""
    return present_at(moment, lasts[moment.boot_id])
