"""One look at something that dries: how far it surely is, and what the catalogue would say."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import lru_cache

from armorplan.app.drills.dry_airs import DrillAir
from armorplan.app.drills.dry_cases import DryCase, Rung, is_latest
from armorplan.drying.body import Body
from armorplan.drying.room import DryingRoom
from armorplan.drying.spans import DryTimes, Span, Stage, Verdict
from armorplan.workshop.shelf import TreatmentEntry

MIDNIGHT_AT = datetime(2026, 1, 15, tzinfo=UTC)
"""Stands for any day: the air of an exercise goes by the hours of the day alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """Something that dries, looked at.

    Attributes:
        start_min: when it was made wet, counted from the midnight before.
        now_min: when it is looked at.
    """

    case: DryCase
    air: DrillAir
    start_min: int
    now_min: int

    @property
    def passed_min(self) -> int:
        """How long it has dried."""
        return self.now_min - self.start_min

    @property
    def start_at(self) -> datetime:
        """When it was made wet, on the day that stands for any."""
        return MIDNIGHT_AT + timedelta(minutes=self.start_min)

    @property
    def now_at(self) -> datetime:
        """When it is looked at."""
        return MIDNIGHT_AT + timedelta(minutes=self.now_min)

    def span(self, rung: Rung) -> Span:
        """Return in how many minutes a rung above the lowest is reached in this air."""
        return self._times(body_of(self.case, rung)).spans[stage_of(rung)]

    def _times(self, body: Body) -> DryTimes:
        # In air that stays the same it takes as long at any hour, and is looked up once.
        room = self.air.room
        return _times(room, self.case.entry, body, 0 if room.is_steady else self.start_min)

    @property
    def would_dry(self) -> bool:
        """Whether it dries at all in this air, and nothing spoils it."""
        return self._times(self.case.body).verdict is Verdict.DRIES

    def rung(self) -> str | None:
        """Return the rung it has surely reached; ``None`` where nobody can be sure.

        Between the soonest and the latest of a stage it is a toss-up.
        """
        found = self.case.rungs[0]
        for rung in self.case.rungs[1:]:
            span = self.span(rung)
            if span.soonest_min is None or self.passed_min < span.soonest_min:
                return found.id
            if span.latest_min is None or self.passed_min < span.latest_min + is_latest(
                stage_of(rung)
            ):
                return None
            found = rung
        return found.id

    def catalogue_rung(self) -> str:
        """Return the rung it would be on by the catalogue's time alone, at 23 °C and 50 %."""
        reached = [
            rung
            for rung in self.case.rungs
            if rung.stage is None or self.passed_min >= self.case.catalogue_min(rung.stage)
        ]
        return reached[-1].id

    def deciding(self) -> Rung:
        """Return the rung that decides: where the catalogue errs its edge, else the next one."""
        true, said = self.rung() or self.case.rungs[0].id, self.catalogue_rung()
        here, there = self.case.place(true), self.case.place(said)
        at = here if here > there else here + 1
        return self.case.rungs[min(max(at, 1), len(self.case.rungs) - 1)]


@lru_cache(maxsize=2048)
def _times(room: DryingRoom, entry: TreatmentEntry, body: Body, start_min: int) -> DryTimes:
    return room.times(entry, body, MIDNIGHT_AT + timedelta(minutes=start_min))


def stage_of(rung: Rung) -> Stage:
    """Return the stage of a rung above the lowest; ValueError for that."""
    if rung.stage is None:
        message = "the lowest rung is no stage"
        raise ValueError(message)
    return rung.stage


def body_of(case: DryCase, rung: Rung) -> Body:
    """Return what dries to a rung."""
    return case.body if rung.body is None else rung.body
