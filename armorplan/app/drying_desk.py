"""Looks at what dries: 'dry now', 'still damp', a weighing, and what they teach."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Protocol
from zoneinfo import ZoneInfo

from armorplan.app.entries import NOT_RECORDED
from armorplan.app.learned_room import LearnedRoom
from armorplan.app.learned_rows import DryingRow, drying_row
from armorplan.app.learned_shop import ALL, BACK
from armorplan.app.moment import BenchMoment
from armorplan.app.step_ends import step_end
from armorplan.drying.damp import reference_min
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.drying.weighing import Weights, dose_by_weight, dry_by_weight, weight_fault
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger import acting
from armorplan.ledger.acting import Press
from armorplan.ledger.events import Event
from armorplan.ledger.looks import LookTaken
from armorplan.ledger.records import StepRecord, StepStatus
from armorplan.steps.model import Drying, Step
from armorplan.workshop.shelf import TreatmentEntry

_NO_DRYING = (
    "That is nothing that dries in the air. Choose a drying, or the step that makes it wet."
)
_NOT_BEGUN = "It has not begun to dry: tick the step that makes it wet first."
_DRY_ALREADY = "It was found dry already. If it is damp after all, say so."


class DeskBench(Protocol):
    """What the desk needs of its session."""

    def moment(self) -> BenchMoment:
        """Return how the build stands."""
        ...

    def press(self) -> Press:
        """Return a press of this moment."""
        ...

    def keep(self, events: tuple[Event, ...], said: str) -> str:
        """Put entries on the disk and show them; return what to say."""
        ...

    def entries(self) -> Sequence[Event]:
        """Return the build's entries."""
        ...

    def change(self) -> None:
        """Show everything anew."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wet:
    """A drying that has begun."""

    step: Step
    drying: Drying
    entry: TreatmentEntry
    record: StepRecord
    start_at: datetime


class DryingDesk:
    """What is done about dryings; a part of ``session.Session``.

    Actions return a sentence for the status line.
    """

    def __init__(
        self,
        bench: DeskBench,
        learned: LearnedRoom,
        clock: Clock,
    ) -> None:
        self._bench = bench
        self._learned = learned
        self._clock = clock

    def may_look(self, step_id: str) -> bool:
        """Tell whether a step is a drying, or makes one, that has begun: it can be looked at."""
        return isinstance(self._wet(step_id), _Wet)

    def look(self, step_id: str, *, dry: bool) -> str:
        """Record that a drying was found dry, or still damp; of a wet step its drying is meant."""
        wet = self._wet(step_id)
        if isinstance(wet, str):
            return wet
        if dry and wet.record.status is StepStatus.DONE:
            return _DRY_ALREADY
        seen = self._seen(wet, wet.drying.stage)
        return self._keep(wet, replace(seen, dry=dry))

    def weigh(self, step_id: str, *, before_g: float, wet_g: float, now_g: float) -> str:
        """Record a weighing: before the bath, out of it, and now, in grams."""
        wet = self._wet(step_id)
        if isinstance(wet, str):
            return wet
        weights: Weights = (before_g, wet_g, now_g)
        fault = weight_fault(weights, self._dry_pct)
        if fault:
            return f"{NOT_RECORDED} {fault}"
        return self._keep(wet, self._weighed(wet, weights))

    def estimate(self, treatment: str) -> DryingRow:
        """Return what was learned of a treatment, before and after, in numbers and words.

        Raises:
            WorkshopError: the workshop file cannot be read.
        """
        derived = self._bench.moment().derived
        learned = self._learned.learned(self._bench.entries())
        return drying_row(learned.drying(treatment), derived.shelf, derived.shop.room)

    def estimates(self) -> tuple[DryingRow, ...]:
        """Return what was learned of all treatments that were looked at, by their ids.

        Raises:
            WorkshopError: the workshop file cannot be read.
        """
        derived = self._bench.moment().derived
        learned = self._learned.learned(self._bench.entries())
        room = derived.shop.room
        return tuple(drying_row(each, derived.shelf, room) for each in learned.dryings)

    def forget(self, treatment: str = ALL) -> str:
        """Learn a treatment, or all that is learned, anew from now on."""
        return self._fresh(treatment, f"{self._name(treatment)} from now on is learned anew.")

    def remember(self, treatment: str = ALL) -> str:
        """Let all count again that was seen before a treatment was to be learned anew."""
        said = f"{self._name(treatment)}: all that was seen counts again."
        return self._fresh(f"{BACK}{treatment}", said)

    def _name(self, treatment: str) -> str:
        entry = self._bench.moment().derived.shelf.treatment(treatment)
        return entry.name if entry else "Everything"

    def _fresh(self, what: str, said: str) -> str:
        try:
            self._learned.start_fresh(what, self._bench.entries())
        except WorkshopError as error:
            return f"{NOT_RECORDED} {error}"
        self._bench.change()
        return said

    @property
    def _dry_pct(self) -> float:
        return self._bench.moment().derived.shelf.constants.dry_share.value

    def _wet(self, step_id: str) -> _Wet | str:
        """Return the drying that a step is or makes; in words, why there is none to look at."""
        moment = self._bench.moment()
        work = moment.derived.work
        step = work.step(step_id) if work.has(step_id) else None
        if step is not None and step.attended:
            step = work.drying_of(step.id)
        entry = (
            moment.derived.shelf.treatment(step.drying.treatment) if step and step.drying else None
        )
        if step is None or step.drying is None or entry is None:
            return _NO_DRYING
        record = moment.ledger.record(step.id)
        if not record.counted:
            return _NOT_BEGUN
        start_at = record.counted[0].start.at
        return _Wet(step=step, drying=step.drying, entry=entry, record=record, start_at=start_at)

    def _seen(self, wet: _Wet, stage: Stage) -> LookTaken:
        """Return what was reckoned for a drying at this moment, whatever was found."""
        moment = self._bench.moment()
        room = drying_room(moment.derived.shop.room)
        body, run = wet.drying.body, wet.record.counted[0].start.run
        expected = self._learned.expected(wet.entry.id, self._bench.entries(), run)
        return LookTaken(
            treatment=wet.entry.id,
            stage=stage.value,
            dry=None,
            begun_at=wet.start_at.isoformat(),
            run=run,
            dose_min=room.dose_min(wet.entry, wet.start_at, self._clock.now())[1],
            reference_min=reference_min(room, wet.entry, body, stage) or wet.entry.handle_min,
            thickness_mm=body.thickness_mm,
            faces=body.faces,
            dipped=body.dipped,
            expected_factor=expected.factor if expected else None,
            expected_spread=expected.spread if expected else 0.0,
        )

    def _weighed(self, wet: _Wet, weights: Weights) -> LookTaken:
        """Return what a weighing tells: of when it is dry to handle, whatever it is to wait for."""
        seen, dry = self._seen(wet, Stage.HANDLE), dry_by_weight(weights, self._dry_pct)
        foretold = dose_by_weight(weights, seen.dose_min, self._dry_pct)
        before_g, wet_g, now_g = weights
        return replace(
            seen,
            dry=_of_stage(wet.drying.stage, dry=dry),
            before_g=before_g,
            wet_g=wet_g,
            now_g=now_g,
            foretold_min=foretold[0] if foretold else None,
            foretold_spread=foretold[1] if foretold else 0.0,
        )

    def _keep(self, wet: _Wet, seen: LookTaken) -> str:
        state, press = self._bench.moment().ledger, self._bench.press()
        events = acting.look(state, wet.step.id, seen, press)
        refused = self._bench.keep(events, "")
        return refused or self._said(wet, seen)

    def _said(self, wet: _Wet, seen: LookTaken) -> str:
        found = {True: "Dry", False: "Still damp", None: "Weighed"}[seen.dry]
        more = "" if seen.dry else self._goes_on(wet)
        try:
            learned = f" {self.estimate(wet.entry.id).words}"
        except WorkshopError:
            learned = ""
        return f"{found}: {wet.step.title}.{more}{learned}"

    def _goes_on(self, wet: _Wet) -> str:
        moment = self._bench.moment()
        record = moment.ledger.record(wet.step.id)
        minutes = step_end(moment.derived, wet.step, record).minutes
        if minutes is None:
            return " In this air it will not dry."
        zone = ZoneInfo(moment.derived.shop.zone)
        end_at = (wet.start_at + timedelta(minutes=minutes)).astimezone(zone)
        return f" It goes on until about {end_at:%a} {end_at.day} {end_at:%b %H:%M}."


def _of_stage(stage: Stage, *, dry: bool) -> bool | None:
    """Return what a weight says of a stage: dry to handle is dry to the touch, and not yet cured."""
    if stage is Stage.HANDLE:
        return dry
    return True if dry and stage is Stage.TOUCH else None
