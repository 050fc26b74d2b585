"""What dries in a build, for whoever wants to see one of them: what is wet, since when, in which air."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum

from armorplan.app.derived import Derived
from armorplan.app.moment import BenchMoment
from armorplan.app.rows import BenchState
from armorplan.app.step_ends import damp_of
from armorplan.drying.body import Body
from armorplan.drying.damp import Damp
from armorplan.drying.spans import Stage
from armorplan.steps.model import Step
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.shelf import TreatmentEntry
from armorplan.workshop.shop import Person


class Began(StrEnum):
    """Where a drying's start is from."""

    RUNS = "began"
    DRIED = "is done, began"
    PLANNED = "is planned to begin"
    NOW = "if it began now"


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingChoice:
    """One drying that can be looked at.

    Attributes:
        id: the drying step's, or ``treatment:`` and the treatment's.
        step: the drying step; empty for a treatment that is looked at by itself.
        title: what it is called.
        wet_steps: the steps it belongs to: whoever chooses one of them means this drying.
        end_at: when it is dry, of one that runs; ``None`` of others.
        damp: the last look that found it still damp, of one that has begun.
        stage: what its step waits for; ``None`` of a treatment that is looked at by itself.
    """

    id: str
    step: str
    title: str
    entry: TreatmentEntry
    body: Body
    start_at: datetime
    began: Began
    wet_steps: tuple[str, ...] = ()
    end_at: datetime | None = None
    damp: Damp | None = None
    stage: Stage | None = None

    @property
    def runs(self) -> bool:
        """Whether it dries now."""
        return self.began is Began.RUNS

    def is_meant(self, steps: frozenset[str]) -> bool:
        """Tell whether who chooses these steps means this drying."""
        return self.step in steps or not steps.isdisjoint(self.wet_steps)


@dataclass(frozen=True, slots=True, kw_only=True)
class Dryings:
    """Everything of a build that dries: each drying step in order, then each treatment by itself.

    ``people`` are the shop's: it is closed while none of them works.
    """

    room: Room
    now_at: datetime
    steps: tuple[DryingChoice, ...]
    treatments: tuple[DryingChoice, ...]
    people: tuple[Person, ...] = ()

    def running(self) -> tuple[DryingChoice, ...]:
        """Return what dries now, the soonest dry first."""
        found = [choice for choice in self.steps if choice.runs]
        return tuple(sorted(found, key=lambda c: (c.end_at or c.start_at, c.id)))

    def of(self, choice_id: str) -> DryingChoice | None:
        """Return one by its id, or ``None``."""
        return next((c for c in (*self.steps, *self.treatments) if c.id == choice_id), None)

    def for_steps(self, steps: tuple[str, ...]) -> DryingChoice | None:
        """Return the drying that these steps speak of; where they speak of none, what runs, or any."""
        meant = frozenset(steps)
        for choice in self.steps:
            if choice.step in meant:
                return choice
        for choice in self.steps:
            if not meant.isdisjoint(choice.wet_steps):
                return choice
        return next(iter((*self.running(), *self.treatments)), None)


def dryings_of(derived: Derived, moment: BenchMoment, now_at: datetime) -> Dryings:
    """Return what dries in a build at one moment of the bench; what begins now at the full minute."""
    now_at = now_at.replace(second=0, microsecond=0)
    steps = tuple(_steps(derived, moment, now_at))
    return Dryings(
        room=derived.shop.room,
        now_at=now_at,
        steps=steps,
        treatments=tuple(_treatments(steps, now_at)),
        people=derived.shop.people,
    )


def _steps(derived: Derived, moment: BenchMoment, now_at: datetime) -> Iterator[DryingChoice]:
    for step in derived.work.steps:
        entry = _entry(derived, step)
        if entry is None or step.attended or step.drying is None:
            continue
        start_at, began = _start(moment, step, now_at)
        end_at = moment.spans[step.id][1] if began is Began.RUNS else None
        wet = (step.after,) if step.after else ()
        has_begun = began in (Began.RUNS, Began.DRIED)
        record = moment.ledger.record(step.id)
        yield DryingChoice(
            id=step.id,
            step=step.id,
            title=step.title,
            entry=entry,
            body=step.drying.body,
            start_at=start_at,
            began=began,
            wet_steps=wet,
            end_at=end_at,
            damp=damp_of(record, step.drying) if has_begun else None,
            stage=step.drying.stage,
        )


def _entry(derived: Derived, step: Step) -> TreatmentEntry | None:
    return derived.shelf.treatment(step.drying.treatment) if step.drying else None


def _start(moment: BenchMoment, step: Step, now_at: datetime) -> tuple[datetime, Began]:
    """Return when a drying began, or begins by the plan, or now."""
    span = moment.spans.get(step.id)
    if span is None:
        return now_at, Began.NOW
    state = moment.states.of(step.id)
    if state in (BenchState.DRYING, BenchState.RUNNING, BenchState.PAUSED):
        return span[0], Began.RUNS
    if state in (BenchState.DONE, BenchState.EARLY):
        return span[0], Began.DRIED
    return span[0], Began.PLANNED


def _treatments(steps: tuple[DryingChoice, ...], now_at: datetime) -> Iterator[DryingChoice]:
    """Yield each treatment of the build once, as if it began now, on the thickest leather it has."""
    thickest: dict[str, DryingChoice] = {}
    for choice in steps:
        there = thickest.get(choice.entry.id)
        if there is None or (choice.body.thickness_mm or 0) > (there.body.thickness_mm or 0):
            thickest[choice.entry.id] = choice
    for entry_id, choice in thickest.items():
        yield replace(
            choice,
            id=f"treatment:{entry_id}",
            step="",
            title=choice.entry.name,
            start_at=now_at,
            began=Began.NOW,
            wet_steps=(),
            end_at=None,
            damp=None,
            stage=None,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class WhatIf:
    """What is asked: air and leather that differ; ``None`` leaves it as it is."""

    temperature_c: float | None = None
    humidity_pct: float | None = None
    air_m_s: float | None = None
    thickness_mm: float | None = None
    faces: int | None = None

    @property
    def asks(self) -> bool:
        """Whether anything differs."""
        return self != WhatIf()

    @property
    def asks_air(self) -> bool:
        """Whether the air differs."""
        return replace(self, thickness_mm=None, faces=None).asks

    def climate(self, here: Climate) -> Climate:
        """Return an air with what differs."""
        return Climate(
            temperature_c=_or(self.temperature_c, here.temperature_c),
            humidity_pct=_or(self.humidity_pct, here.humidity_pct),
            air_m_s=_or(self.air_m_s, here.air_m_s),
        )

    def room(self, room: Room) -> Room:
        """Return a room with the air that is asked for, at all times of its day and in what was read.

        With temperature and humidity told its days are steady, and so is the room.
        """
        usual = self.climate(room.usual)
        if self.temperature_c is not None and self.humidity_pct is not None:
            by_hour = tuple({self.climate(c) for c in room.by_hour})
            steady = by_hour[0] if len(by_hour) == 1 else usual
            if len(by_hour) <= 1 or self.air_m_s is not None:
                return replace(room, usual=steady, by_hour=(), readings=())
        return replace(
            room,
            usual=usual,
            by_hour=tuple(self.climate(c) for c in room.by_hour),
            readings=tuple(replace(r, climate=self.climate(r.climate)) for r in room.readings),
        )

    def body(self, body: Body) -> Body:
        """Return a body with what differs."""
        return Body(
            thickness_mm=self.thickness_mm or body.thickness_mm,
            faces=self.faces or body.faces,
            dipped=body.dipped,
        )


def _or(wanted: float | None, here: float) -> float:
    return here if wanted is None else wanted
