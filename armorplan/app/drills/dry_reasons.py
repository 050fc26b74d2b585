"""Why something that dries is, or is not, at a rung: the catalogue, its leather, the air, the shop."""

from dataclasses import dataclass, replace
from datetime import timedelta

from armorplan.app.derived import Derived
from armorplan.app.drills.dry_cases import DryCase, Rung
from armorplan.app.drills.dry_looks import Look, body_of, stage_of
from armorplan.app.drills.reasons import because_of, rule_words
from armorplan.drying.air import REFERENCE, deficit_pa
from armorplan.drying.body import LIKELY, Body, multiples
from armorplan.drying.spans import Span, Stage
from armorplan.kernel.units import HOUR_MIN, span_words
from armorplan.practice.drill import Because
from armorplan.relations.model import Quantity
from armorplan.workshop.shelf import Carrier, TreatmentEntry

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
    stage, body = stage_of(rung), body_of(look.case, rung)
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
        numbers=tuple(_number_words(q) for q in exact if _is_worth_saying(q)),
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
        *_pressures(look),
    ]
    return tuple(
        Quantity(name=name, value=value, unit=unit)
        for name, value, unit in told
        if value is not None
    )


def _pressures(look: Look) -> tuple[tuple[str, float | None, str], ...]:
    """Return how hard this air and the catalogue's take up water, where that is the same at all hours."""
    climate = look.air.climate
    if climate is None or look.case.entry.carrier is not Carrier.WATER:
        return ()
    here = deficit_pa(climate.temperature_c, climate.humidity_pct)
    there = deficit_pa(REFERENCE.temperature_c, REFERENCE.humidity_pct)
    return (("this air takes up", here, "Pa"), ("the catalogue's air takes up", there, "Pa"))


def _is_worth_saying(number: Quantity) -> bool:
    """Tell whether a number says anything at a bench: no factor of 1, nothing that has not begun."""
    if number.unit == "Pa":
        return False
    return abs(number.value - 1) > _TELLING if not number.unit else bool(number.value)


def _number_words(number: Quantity) -> str:
    if number.unit:
        return f"{number.name} {_minutes(number.value)}"
    return f"{number.name} {_figure(number.value)}"


def _sentences(look: Look, rung: Rung, doses: Doses, span: Span) -> list[str]:
    case = look.case
    what = _STAGE_WORDS[stage_of(rung)]
    catalogue = span_words(doses.catalogue_min)
    found = [
        f"'{case.wet.title}': by the catalogue it is {what} after {catalogue}, at 23 °C and 50 %."
    ]
    if case.entry.reference_mm and abs(doses.thickness - 1) > _TELLING:
        found.append(_thickness_words(case.entry, body_of(case, rung), doses))
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
    """Say how much this air slows or speeds drying."""
    if abs(doses.pace - 1) <= _TELLING:
        return "This air dries as fast as the catalogue's."
    fast, times = ("fast", doses.pace) if doses.pace > 1 else ("slowly", 1 / doses.pace)
    much = f"about {times:.2g} times as {fast}"
    if look.air.climate is None:
        return f"Here it dries {much} as in the catalogue's air, on average of these hours."
    moves = look.air.climate.air_m_s > REFERENCE.air_m_s
    if look.case.entry.carrier is Carrier.WATER:
        wind = ", and moving air carries it off" if moves else ""
        return f"This air takes water up {much} as the catalogue's{wind}."
    wind = ", and moving air carries it off" if moves else ""
    return f"Here solvent leaves {much} as in the catalogue's air; damp hardly holds it up{wind}."


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
