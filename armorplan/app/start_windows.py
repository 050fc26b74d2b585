"""When steps may begin because of waits that count from another one's end, and what was missed."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from armorplan.app.derived import Derived
from armorplan.app.open_windows import OpenWindow, open_windows, window_after
from armorplan.drying.spans import Stage
from armorplan.ledger.records import StepRecord, StepStatus
from armorplan.ledger.state import LedgerState
from armorplan.relations.model import Before, Relation
from armorplan.rules.registry import rule_named
from armorplan.steps.windows import window_of

LOST = "Nothing mends that: make it anew."
_CASE_AGAIN = "Case it again, and wait for its colour to come back."
_SCUFF = "Scuff the dry coat lightly and wipe it clean first."
_HAIR = timedelta(minutes=1)
"""Sooner by less than that is not too soon: windows are told in whole minutes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StartWindow:
    """When a step may begin because of waits that count from another one's end.

    Attributes:
        opens_at: not before.
        by_at: the latest instant, where there is one.
        remedy: what to do once that is past.
        again: the step to be done again then, which opens the window anew; ``None``: none.
    """

    opens_at: datetime
    by_at: datetime | None
    remedy: str = ""
    again: str | None = None

    def is_missed(self, now_at: datetime) -> bool:
        """Tell whether it has closed."""
        return self.by_at is not None and now_at > self.by_at


def start_windows(derived: Derived, ledger: LedgerState) -> dict[str, StartWindow]:
    """Return the windows of steps that nobody has begun; of several all hold at once."""
    found: dict[str, StartWindow] = {}
    for window in open_windows(derived, ledger):
        one = _told(derived, window)
        known = found.get(window.relation.then)
        found[window.relation.then] = _both(known, one) if known else one
    return found


def _told(derived: Derived, window: OpenWindow) -> StartWindow:
    relation = window.relation
    remedy = remedy_of(derived, relation) if window.by_at is not None else ""
    is_case = derived.work.step(relation.first).serves == relation.then
    return StartWindow(
        opens_at=window.opens_at,
        by_at=window.by_at,
        remedy=remedy,
        again=relation.first if is_case and remedy and remedy != LOST else None,
    )


def _both(one: StartWindow, other: StartWindow) -> StartWindow:
    closing = [w for w in (one, other) if w.by_at is not None]
    first = min(closing, key=lambda w: w.by_at or w.opens_at, default=one)
    return StartWindow(
        opens_at=max(one.opens_at, other.opens_at),
        by_at=first.by_at,
        remedy=first.remedy,
        again=first.again,
    )


def remedy_of(derived: Derived, relation: Before) -> str:
    """Return what to do where the latest time of a relation was missed; empty: nobody said."""
    window = window_of(derived.work, derived.shelf, relation.first, relation.then)
    entry = derived.shelf.treatment(window.treatment) if window else None
    if window is not None and entry is not None:
        usual = _CASE_AGAIN if window.closes is Stage.CLOSES else _SCUFF
        return LOST if entry.missed_is_loss else entry.missed_remedy or usual
    rule = rule_named(relation.reason.rule)
    return rule.mend if rule else ""


def to_do_again(windows: Mapping[str, StartWindow], now_at: datetime) -> dict[str, str]:
    """Return the casings whose window closed before anybody began, each with what it serves."""
    missed = ((step, w) for step, w in windows.items() if w.is_missed(now_at))
    return {window.again: step for step, window in missed if window.again}


def too_soon(derived: Derived, ledger: LedgerState) -> Iterator[tuple[str, Relation, int]]:
    """Yield steps begun before their window opened, why that was too soon, and by how many minutes.

    What was damped again meanwhile tells nothing of what came before.
    """
    for relation in derived.waits:
        record = ledger.record(relation.then)
        done = ledger.record(relation.first).done_moment
        begun_at = _begun_at(record)
        if done is None or begun_at is None or done.at > begun_at or not relation.reason.binds:
            continue
        opens_at = window_after(derived, relation, done, done.at).opens_at
        if begun_at < opens_at - _HAIR and derived.work.step(relation.then).attended:
            yield relation.then, relation, round((opens_at - begun_at).total_seconds() / 60)


def _begun_at(record: StepRecord) -> datetime | None:
    """Return when a step was begun; of one ticked without a start, when it was ticked."""
    if record.status is StepStatus.UNTOUCHED:
        return None
    return record.counted[0].start.at if record.counted else record.done_at
