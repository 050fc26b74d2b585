"""What 'Dry yet?' and 'Plan the day' say of drying, reckoned again without the program's own laws.

Water: Dalton (1802), the surface at the wet bulb of a ventilated psychrometer (FAO Irrigation and
Drainage Paper 56, equation 15), saturation by IAPWS-IF97; against 23 °C and 50 % (ISO 2419:2012).
Alcohol: Clausius and Clapeyron with 2-propanol's heat of vaporisation at 25 °C (45.4 kJ/mol, NIST
Chemistry WebBook, from memory). Moving air: Carrier (1918) and Penman (1948), constants from memory. Thickness: between
linear and square (Crank, 1975). The spread of a catalogue's times: common practice, no source.
"""

from functools import cache
from math import exp, sqrt

import pytest
from iapws.iapws97 import _PSat_T
from orders.recovery.build_scenes import SAMPLES, derived_sample

from armorplan.app.drills.day_making import day_of
from armorplan.app.drills.dry_race import BOTH
from armorplan.app.drills.dry_reasons import because_of_look
from armorplan.app.drills.dry_setting import set_of
from armorplan.practice.drill import Asked, DrillKind, Level

REL = 0.05
SPREAD = exp(1.2816 * 0.3)
every_sample = pytest.mark.parametrize("name", SAMPLES)


def saturation_pa(temperature_c):
    return _PSat_T(temperature_c + 273.15) * 1e6


@cache
def deficit_pa(climate):
    """FAO-56, equation 15, solved for the wet bulb by halving."""
    per_c = 0.000662 * 101_325
    held = saturation_pa(climate.temperature_c) * climate.humidity_pct / 100
    low_c, high_c = 0.01, climate.temperature_c
    for _ in range(50):
        wet_c = (low_c + high_c) / 2
        drier = saturation_pa(wet_c) - per_c * (climate.temperature_c - wet_c) < held
        low_c, high_c = (wet_c, high_c) if drier else (low_c, wet_c)
    return per_c * (climate.temperature_c - low_c)


def propanol_ratio(temperature_c):
    """Return how many times its vapour pressure is that of 23 °C."""
    return exp(45_400 / 8.314 * (1 / 296.15 - 1 / (temperature_c + 273.15)))


class Reference:
    temperature_c, humidity_pct = 23.0, 50.0


def pace(entry, climate):
    """Return the slowest, likely and fastest pace."""
    water = deficit_pa(climate) / deficit_pa(Reference)
    if entry.carrier == "water":
        still = water
    else:
        pure = propanol_ratio(climate.temperature_c)
        still = 1 / ((1 - entry.water_share) / pure + entry.water_share / water)
    carrier = (0.089 + 0.0782 * climate.air_m_s) / (0.089 + 0.00782)
    penman = (1 + 0.54 * climate.air_m_s) / (1 + 0.054)
    return tuple(still * gain for gain in sorted((carrier, penman, sqrt(carrier * penman))))


def multiples(entry, body):
    ratio = 1.0
    if entry.reference_mm:
        way = (body.thickness_mm or entry.reference_mm) / (body.faces or entry.faces)
        ratio = way / (entry.reference_mm / entry.faces)
    assert not body.dipped
    return min(ratio, ratio**2), ratio**1.5, max(ratio, ratio**2)


def minutes(case, rung, climate):
    """Return the soonest, likely and latest minutes to a rung."""
    catalogue = case.catalogue_min(rung.stage)
    least, likely, most = multiples(case.entry, rung.body)
    slow, middle, fast = pace(case.entry, climate)
    return (
        catalogue * least / SPREAD / fast,
        catalogue * likely / middle,
        catalogue * most * SPREAD / slow,
    )


@cache
def looks(name):
    derived = derived_sample(name)
    asked = [
        Asked(kind=DrillKind.DRY, seed=seed, level=level) for level in Level for seed in range(4)
    ]
    found = [set_of(derived, one) for one in asked]
    return [(derived, one, look) for one in found for look in one.looks]


@every_sample
def test_times_to_each_stage_are_those_of_the_published_laws(name):
    seen = 0
    for _, _, look in looks(name):
        for rung in look.case.rungs[1:]:
            span = look.span(rung)
            told = (span.soonest_min, span.likely_min, span.latest_min)
            for ours, theirs in zip(told, minutes(look.case, rung, look.air.climate), strict=True):
                assert ours == pytest.approx(theirs, rel=REL, abs=1.0)
                seen += 1
    assert seen > 60


@every_sample
def test_the_right_answer_is_right_by_the_published_laws(name):
    """Where a time lies clear of the edges it is on the same rung; it never lies within them."""
    clear = 0
    for _, found, look in looks(name):
        if found.level is Level.ROW:
            continue
        on = 0
        for at, rung in enumerate(look.case.rungs[1:], start=1):
            soonest, _, latest = minutes(look.case, rung, look.air.climate)
            if look.passed_min > latest * (1 - REL) - 1:
                on = at
            else:
                assert look.passed_min < soonest * (1 + REL) + 1
                break
        assert look.case.rungs[on].id == look.rung()
        clear += 1
    assert clear


@every_sample
def test_numbers_of_reasons_add_up(name):
    for derived, _, look in looks(name):
        because = because_of_look(derived, look)
        told = {number.name: number.value for number in because.exact}
        rung = look.deciding()
        likely = multiples(look.case.entry, rung.body)[1]
        middle = pace(look.case.entry, look.air.climate)[1]
        assert told["catalogue"] == look.case.catalogue_min(rung.stage)
        assert told["times for the thickness"] == pytest.approx(likely)
        assert told["pace of this air"] == pytest.approx(middle, rel=REL)
        assert told["passed"] == look.passed_min
        assert told["passed at the reference"] == pytest.approx(look.passed_min * middle, rel=REL)
        assert told["needed at the reference"] == pytest.approx(told["catalogue"] * likely)


@every_sample
def test_of_two_the_first_is_first_by_every_law_of_thickness(name):
    for level_seed in range(8):
        asked = Asked(kind=DrillKind.DRY, seed=level_seed, level=Level.ROW)
        found = set_of(derived_sample(name), asked)
        if found.level is not Level.ROW or found.looks[0].case.entry != found.looks[1].case.entry:
            continue
        ends = {}
        for look in found.looks:
            case, climate = look.case, look.air.climate
            stage = next(r.stage for r in case.rungs if r.id == case.goal)
            ratio = case.body.thickness_mm / (case.entry.reference_mm or case.body.thickness_mm)
            ends[case.step.id] = [
                look.start_min + case.catalogue_min(stage) * ratio**power / speed
                for power in (1.0, 1.5, 2.0)
                for speed in pace(case.entry, climate)
            ]
        if found.right == (BOTH,):
            one, other = (each[len(each) // 2] for each in ends.values())
            lasts = max(one, other) - min(look.start_min for look in found.looks)
            assert abs(one - other) <= 0.06 * lasts
            continue
        first = ends.pop(found.right[0])
        (other,) = ends.values()
        assert all(one < then for one, then in zip(first, other, strict=True))


@every_sample
def test_waits_of_a_day_are_those_of_the_published_laws(name):
    """In the shop of the samples the air is that of the reference: thickness alone counts."""
    derived = derived_sample(name)
    seen = 0
    for level in Level:
        for seed in range(2):
            day = day_of(derived, Asked(kind=DrillKind.DAY, seed=seed, level=level))
            for link in day.waits:
                step = derived.work.step(link.waits or link.first)
                if step.drying is None:
                    continue
                entry = derived.shelf.treatment(step.drying.treatment)
                times = multiples(entry, step.drying.body)[1]
                if link.waits:
                    known = {
                        "dry to the touch": entry.touch_min,
                        "dry to handle": entry.handle_min,
                    }
                    assert link.least_min == pytest.approx(known[step.drying.stage] * times, abs=1)
                else:
                    opens, closes = entry.window_min
                    thin = multiples(entry, step.drying.thin or step.drying.body)[1]
                    assert link.least_min == pytest.approx(opens * times, abs=1)
                    assert link.most_min == pytest.approx(closes * thin, abs=1)
                seen += 1
    assert seen
