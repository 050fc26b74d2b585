"""What looks and weighings tell of a shop's own drying."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from math import exp, log, sqrt
from random import Random
from zoneinfo import ZoneInfo

import pytest

from armorplan.drying.body import USUAL_BODY
from armorplan.drying.damp import factors_after
from armorplan.drying.learned import Look, estimate
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.drying.weighing import dose_by_weight, weight_fault
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.shelf import Carrier

ZONE = ZoneInfo("Europe/Berlin")
WARM, COLD = Climate(temperature_c=20.0), Climate(temperature_c=11.0, humidity_pct=70.0)
ROOM = drying_room(
    Room(by_hour=tuple(WARM if 8 <= h < 18 else COLD for h in range(24)), zone=ZONE.key)
)
DYE = replace(
    sketch_shelf().treatment("dye"), carrier=Carrier.WATER, touch_min=180, handle_min=1440
)
DOSES = ROOM.doses(DYE, USUAL_BODY, Stage.HANDLE)
assert DOSES is not None
REFERENCE_MIN = DOSES[1]
DRY_PCT = 2.0
RUNS = 0.15


def look(run, factor, *, dry, bath=""):
    return Look(
        treatment="dye",
        run=run,
        bath=bath or run,
        dose_min=factor * 1000,
        reference_min=1000,
        dry=dry,
    )


def learned(*looks):
    return estimate("dye", looks, DRY_PCT)


def dryings(seed, true, count):
    """Yield the looks at dryings begun at random working times, three a day until it is dry."""
    random = Random(seed)  # noqa: S311 - a simulation, no secret
    day = datetime(2026, 3, 2, tzinfo=ZONE)
    for run in range(count):
        day += timedelta(days=random.randint(1, 4))
        begun = day + timedelta(hours=random.uniform(8, 17.9))
        takes = true * exp(random.gauss(0, RUNS)) * REFERENCE_MIN
        yield from _looks_until_dry(str(run), begun, takes)


def _looks_until_dry(run, begun, takes):
    for days in range(60):
        for hour in (8, 13, 18):
            date = (begun + timedelta(days=days)).date()
            at = datetime(date.year, date.month, date.day, hour, tzinfo=ZONE)
            if at <= begun:
                continue
            dose = ROOM.dose_min(DYE, begun.astimezone(UTC), at.astimezone(UTC))[1]
            found = look(run, dose / REFERENCE_MIN, dry=dose >= takes)
            yield found
            if found.dry:
                return


def errors(true, count, seeds=60):
    return [log(learned(*dryings(seed, true, count)).factor / true) for seed in range(seeds)]


def test_a_true_factor_seen_three_times_a_day_is_found_without_bias():
    found = errors(0.7, 20)
    mean = sum(found) / len(found)
    spread = sqrt(sum((each - mean) ** 2 for each in found) / (len(found) - 1))
    assert max(map(abs, found)) < log(1.15)
    # What is left of the prior's 1 after 20 dryings is below a hundredth.
    assert abs(mean) < max(0.01, 2 * spread / sqrt(len(found)))
    assert spread < 0.05


def test_averaged_over_shops_as_the_catalogue_expects_them_nothing_is_biased():
    spread, found = sqrt(0.3**2 - RUNS**2), []
    for seed in range(80):
        true = exp(Random(1000 + seed).gauss(0, spread))  # noqa: S311 - a simulation, no secret
        found.append(log(learned(*dryings(seed, true, 4)).factor / true))
    mean = sum(found) / len(found)
    error = sqrt(sum((each - mean) ** 2 for each in found) / (len(found) - 1) / len(found))
    assert abs(mean) < 2.5 * error


def looked_at_the_bell(seed, true, count):
    """Yield the looks of a maker who looks when the timer rings, and again when it rings again."""
    random, looks = Random(seed), []  # noqa: S311 - a simulation, no secret
    for run in range(count):
        at, takes = learned(*looks).factor, true * exp(random.gauss(0, RUNS))
        looks.append(look(str(run), at, dry=at >= takes))
        while not looks[-1].dry:
            found = learned(*(each for each in looks if each.run != str(run)))
            wide = exp(1.2816 * found.spread)
            at = factors_after((found.factor / wide, found.factor, found.factor * wide), at)[1]
            looks.append(look(str(run), at, dry=at >= takes))
    return looks


@pytest.mark.parametrize("true", [0.7, 1.4])
def test_who_looks_only_when_the_timer_rings_finds_the_true_factor_too(true):
    found = [log(learned(*looked_at_the_bell(seed, true, 15)).factor / true) for seed in range(10)]
    assert abs(sum(found) / len(found)) < 0.05
    assert max(map(abs, found)) < 0.2


def test_a_night_between_two_looks_is_no_drying():
    begun = datetime(2026, 3, 2, 8, 30, tzinfo=ZONE)
    damp_at, dry_at = begun.replace(hour=18), begun.replace(hour=8) + timedelta(days=1)
    evening, morning = (
        ROOM.dose_min(DYE, begun.astimezone(UTC), at.astimezone(UTC))[1]
        for at in (damp_at, dry_at)
    )
    # Of the hours from putting it up to the morning, the night has more than half; of the drying less.
    assert (morning - evening) / morning < 0.4 < (dry_at - damp_at) / (dry_at - begun)
    reference_min = evening / 0.7
    looks = [
        Look(
            treatment="dye", run="a", bath="a", dose_min=dose, reference_min=reference_min, dry=dry
        )
        for dose, dry in ((evening, False), (morning, True))
    ]
    both = learned(*looks)
    # It became dry somewhere between: nothing says that it took all of the night.
    assert 0.7 < both.factor < morning / reference_min
    assert both.spread < learned(looks[1]).spread


def test_without_looks_the_catalogue_holds():
    found = learned()
    assert (found.factor, found.spread, found.observations) == (1.0, 0.3, 0)
    pace = found.pace
    assert (pace.treatment, pace.factor, pace.spread, pace.observations) == ("dye", 1.0, 0.3, 0)


def test_five_times_dry_moves_the_estimate_visibly_and_not_beyond_what_was_seen():
    factors, before = [], 1.0
    for count in range(1, 6):
        factors.append(learned(*(look(str(at), 0.7, dry=True) for at in range(count))).factor)
        assert factors[-1] < before
        before = factors[-1]
    assert factors[0] < 0.9
    assert factors[-1] == pytest.approx(0.7, rel=0.05)


@pytest.mark.parametrize(("seen", "least"), [(0.7, 0.66), (1.0, 0.85), (1.3, 0.93)])
def test_who_only_ever_says_dry_is_not_led_further_and_further_down(seen, least):
    few, many = (
        learned(*(look(str(at), seen, dry=True) for at in range(count))).factor
        for count in (5, 60)
    )
    assert min(few, many) > least
    assert many == pytest.approx(few, rel=0.02)


def test_what_is_taken_with_leeway_is_counted_as_it_was_seen():
    assert learned(*(look(str(at), 0.7, dry=True) for at in range(9))).observations == 9


def test_who_waits_for_what_is_damp_and_only_says_dry_keeps_near_the_truth():
    random, looks = Random(3), []  # noqa: S311 - a simulation, no secret
    for run in range(20):
        takes = exp(random.gauss(0, RUNS))
        at = max(takes, learned(*looks).factor * random.uniform(1, 1.5))
        looks.append(look(str(run), at, dry=True))
    assert learned(*looks).factor > 0.85


def test_one_who_says_damp_as_well_is_believed_about_dry():
    dry = [look(str(at), 0.7, dry=True) for at in range(5)]
    assert learned(*dry, look("damp", 0.3, dry=False)).factor < learned(*dry).factor


def test_damp_after_dry_in_one_drying_takes_the_later_look():
    found = learned(look("a", 0.6, dry=True), look("a", 0.9, dry=False), look("a", 1.0, dry=True))
    plain = learned(look("a", 0.9, dry=False), look("a", 1.0, dry=True))
    assert found.factor == plain.factor
    only_damp = learned(look("a", 0.6, dry=True), look("a", 0.9, dry=False))
    assert only_damp.factor == learned(look("a", 0.9, dry=False)).factor > 1.0


def test_what_hung_together_is_one_drying():
    one = learned(look("a", 0.7, dry=True))
    twelve = learned(*(look(str(at), 0.7, dry=True, bath="bath") for at in range(12)))
    assert twelve.factor == pytest.approx(one.factor)
    assert twelve.observations == 1


def test_a_look_before_anything_could_dry_tells_nothing():
    found = learned(look("a", 0.0, dry=False), look("b", 0.0, dry=True))
    assert (found.factor, found.observations) == (1.0, 0)


def test_a_look_at_the_wrong_piece_is_named_and_moves_little():
    good = [look(f"a{at}", 0.8, dry=False) for at in range(6)]
    good += [look(f"a{at}", 0.9, dry=True) for at in range(6)]
    wild = look("wild", 0.05, dry=True)
    found = learned(*good, wild)
    assert found.factor == pytest.approx(learned(*good).factor, rel=0.02)
    assert [damped.id for damped in found.damped] == ["wild"]


def test_looks_at_other_treatments_do_not_count():
    assert estimate("oil", [look("a", 0.7, dry=True)], DRY_PCT).observations == 0


def weighed(run, factor, *weights):
    return Look(
        treatment="dye",
        run=run,
        bath=run,
        dose_min=factor * 1000,
        reference_min=1000,
        weights_g=weights,
    )


def test_a_weighing_foretells_the_dose_as_first_order_drying_has_it():
    # Lewis (1921): the water left falls by the same share in the same dose. Of 40 g taken up by 100 g
    # 10 g are left after 300 min: two halvings. 2 g are left after log2(20) = 4.3219 halvings.
    found = dose_by_weight((100.0, 140.0, 110.0), 300.0, DRY_PCT)
    assert found is not None
    assert found[0] == pytest.approx(150 * 4.321928, rel=1e-6)
    early = dose_by_weight((100.0, 140.0, 137.0), 30.0, DRY_PCT)
    assert early is not None
    assert early[1] > 2 * found[1]


def test_a_weighing_teaches_more_than_a_look_alone():
    damp = learned(look("a", 0.4, dry=False))
    by_scale = learned(weighed("a", 0.4, 100.0, 140.0, 105.0))
    # 40 g to 5 g are three halvings, to 2 g 4.32: dry at 0.4 * 4.32 / 3 = 0.576.
    assert 0.576 < by_scale.factor < 0.85
    assert by_scale.spread < damp.spread


def test_a_piece_back_at_its_weight_is_dry():
    assert (
        learned(weighed("a", 0.7, 100.0, 140.0, 102.0)).factor
        == learned(look("a", 0.7, dry=True)).factor
    )


@pytest.mark.parametrize(
    ("weights", "says"),
    [
        ((0.0, 140.0, 100.0), "more than 0 g"),
        ((100.0, 103.0, 101.0), "at least 104 g"),
        ((100.0, 140.0, 141.0), "more now (141 g) than out of the bath (140 g)"),
        ((100.0, 140.0, 40.0), "less than half"),
        ((100.0, 140.0, 110.0), ""),
    ],
)
def test_weights_that_cannot_be_are_told(weights, says):
    fault = weight_fault(weights, DRY_PCT)
    assert says in fault
    assert bool(says) == bool(fault)
