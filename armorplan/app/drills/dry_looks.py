"""One look at something that dries: how far it surely is, what the catalogue would say, and why."""

from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from functools import lru_cache

from armorplan.app.derived import Derived
from armorplan.app.drills.dry_airs import DrillAir
from armorplan.app.drills.dry_cases import DryCase, Rung, is_latest
from armorplan.app.drills.reasons import because_of, rule_words
from armorplan.drying.air import REFERENCE, alcohol_pressure_pa, deficit_pa
from armorplan.drying.body import LIKELY, Body, multiples
from armorplan.drying.room import DryingRoom
from armorplan.drying.spans import DryTimes, Span, Stage, Verdict
from armorplan.kernel.units import HOUR_MIN, span_words
from armorplan.practice.drill import Because
from armorplan.relations.model import Quantity
from armorplan.workshop.shelf import Carrier, TreatmentEntry

MIDNIGHT_AT = datetime(2026, 1, 15, tzinfo=UTC)
"""Stands for any day: the air of an exercise goes by the hours of the day alone."""
_TELLING = 0.02
_FINE_BELOW = 10.0

_STAGE_WORDS = {
    Stage.TOUCH: "dry to the touch",
    Stage.RECOAT_BY: "too old for the next coat",
    Stage.OPENS: "ready to be shaped",
    Stage.CLOSES: "too dry to be shaped",
    Stage.HANDLE: "dry enough to be handled",
}


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
        return self._times(_body(self.case, rung)).spans[_stage(rung)]

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
                _stage(rung)
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


def _stage(rung: Rung) -> Stage:
    if rung.stage is None:
        message = "the lowest rung is no stage"
        raise ValueError(message)
    return rung.stage


def _body(case: DryCase, rung: Rung) -> Body:
    return case.body if rung.body is None else rung.body


@dataclass(frozen=True, slots=True, kw_only=True)
class Doses:
    """What a stage takes and what has passed, in minutes at the reference.

    Attributes:
        catalogue_min: at 23 °C and 50 %, of the catalogue's leather.
        thickness: how many times that this leather takes; ``uptake``: because it was dipped;
            ``shop``: in this shop.
        needed_min: all together.
        passed_min: what the air has done by now.
        pace: minutes at the reference in one of this air.
    """

    catalogue_min: int
    thickness: float
    uptake: float
    shop: float
    needed_min: float
    passed_min: float
    pace: float


def doses_of(look: Look, rung: Rung) -> Doses:
    """Return the sum that decides a rung."""
    case, room = look.case, look.air.room
    stage, body = _stage(rung), _body(look.case, rung)
    plain = Body(thickness_mm=body.thickness_mm, faces=body.faces)
    thickness = multiples(case.entry, plain)[LIKELY]
    times = multiples(case.entry, body)[LIKELY]
    shop = room.factors(case.entry)[LIKELY]
    passed = room.dose_min(case.entry, look.start_at, look.now_at)[LIKELY]
    # Of what has just been made wet, the pace till it is ready; of what never is, that of an hour.
    lasts = look.passed_min or look.span(rung).likely_min or HOUR_MIN
    until_at = look.start_at + timedelta(minutes=lasts)
    pace = room.dose_min(case.entry, look.start_at, until_at)[LIKELY] / lasts
    return Doses(
        catalogue_min=case.catalogue_min(stage),
        thickness=thickness,
        uptake=times / thickness,
        shop=shop,
        needed_min=case.catalogue_min(stage) * times * shop,
        passed_min=passed,
        pace=pace,
    )


def because_of_look(derived: Derived, look: Look, rung: Rung | None = None) -> Because:
    """Return why something is or is not at a rung: minutes at the reference, thickness, air, shop."""
    case, rung = look.case, rung or look.deciding()
    doses, span = doses_of(look, rung), look.span(rung)
    told = because_of(derived, case.relation) if case.relation else _plain(case)
    exact = _exact(look, doses, span)
    return replace(
        told,
        text=" ".join(_sentences(look, rung, doses, span)),
        numbers=tuple(f"{q.name} {_figure(q.value)}{q.unit and ' ' + q.unit}" for q in exact),
        exact=exact,
        source=case.entry.source,
        steps=tuple(dict.fromkeys((case.wet.id, case.step.id))),
        cautions=case.entry.cautions,
    )


def _plain(case: DryCase) -> Because:
    return Because(rule=case.rule, name=rule_words(case.rule), text="")


def _exact(look: Look, doses: Doses, span: Span) -> tuple[Quantity, ...]:
    told: list[tuple[str, float | None, str]] = [
        ("catalogue", doses.catalogue_min, "min"),
        ("times for the thickness", doses.thickness, ""),
        ("times because it was dipped", doses.uptake, ""),
        ("times for this shop", doses.shop, ""),
        ("needed at the reference", doses.needed_min, "min"),
        ("pace of this air", doses.pace, ""),
        ("passed at the reference", doses.passed_min, "min"),
        ("passed", look.passed_min, "min"),
        ("soonest", span.soonest_min, "min"),
        ("likely", span.likely_min, "min"),
        ("at the latest", span.latest_min, "min"),
    ]
    return tuple(
        Quantity(name=name, value=value, unit=unit)
        for name, value, unit in told
        if value is not None
    )


def _sentences(look: Look, rung: Rung, doses: Doses, span: Span) -> list[str]:
    case = look.case
    what = _STAGE_WORDS[_stage(rung)]
    catalogue = span_words(doses.catalogue_min)
    found = [
        f"'{case.wet.title}': by the catalogue it is {what} after {catalogue}, at 23 °C and 50 %."
    ]
    if case.entry.reference_mm and abs(doses.thickness - 1) > _TELLING:
        found.append(_thickness_words(case.entry, _body(case, rung), doses))
    if doses.uptake - 1 > _TELLING:
        more = _figure(doses.uptake)
        found.append(f"Dipped it took up more than wiped, and takes {more} times as long.")
    if abs(doses.shop - 1) > _TELLING:
        found.append(f"In this shop it was seen to take {_figure(doses.shop)} times as long.")
    found.append(_air_words(look, doses))
    if look.passed_min:
        found.append(
            f"So {span_words(look.passed_min)} did what {_minutes(doses.passed_min)} do there, of "
            f"{_minutes(doses.needed_min)} that it takes."
        )
    return [*found, _span_words(span)]


def _thickness_words(entry: TreatmentEntry, body: Body, doses: Doses) -> str:
    faces = " with one face open" if body.faces == 1 and entry.faces != 1 else ""
    return (
        f"Leather of {body.thickness_mm or entry.reference_mm:.3g} mm{faces} takes "
        f"{_figure(doses.thickness)} times as long as the catalogue's {entry.reference_mm:g} mm."
    )


def _air_words(look: Look, doses: Doses) -> str:
    if abs(doses.pace - 1) <= _TELLING:
        return "This air dries as fast as the catalogue's."
    head = f"In this air a minute does what {_figure(doses.pace)} do there"
    climate, entry = look.air.climate, look.case.entry
    if climate is None:
        return f"{head}, on average of these hours."
    if entry.carrier is Carrier.WATER:
        here = deficit_pa(climate.temperature_c, climate.humidity_pct)
        there = deficit_pa(REFERENCE.temperature_c, REFERENCE.humidity_pct)
        return (
            f"{head}: it takes up water by {here:.0f} Pa instead of {there:.0f} Pa{_wind(look)}."
        )
    here, there = (alcohol_pressure_pa(c.temperature_c) for c in (climate, REFERENCE))
    return (
        f"{head}: solvent leaves by {here:.0f} Pa instead of {there:.0f} Pa, and damp air hardly "
        f"holds it up{_wind(look)}."
    )


def _wind(look: Look) -> str:
    climate = look.air.climate
    moves = climate is not None and climate.air_m_s > REFERENCE.air_m_s
    return ", and moving air carries it off" if moves else ""


def _span_words(span: Span) -> str:
    if span.likely_min is None or span.soonest_min is None:
        return "It does not get there in this air."
    till = "" if span.latest_min is None else f" to {span_words(span.latest_min)}"
    return (
        f"Likely it is there after {span_words(span.likely_min)}, within "
        f"{span_words(span.soonest_min)}{till}."
    )


def _minutes(value: float) -> str:
    return span_words(max(1, round(value)))


def _figure(value: float) -> str:
    return f"{value:.0f}" if value >= _FINE_BELOW else f"{round(value, 2):g}"
