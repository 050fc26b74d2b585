"""Laws of the drying factor, and figures published elsewhere."""

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.drying.windows import (
    REFERENCE,
    damp_window_min,
    drying_factor,
    handle_min,
    touch_min,
)
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.workshop.shelf import Carrier
from armorplan.workshop.shop import Climate

WARM = st.floats(5.0, 38.0)
HUMID = st.floats(5.0, 92.0)


def air(temperature_c: float, humidity_pct: float) -> Climate:
    return Climate(temperature_c=temperature_c, humidity_pct=humidity_pct)


@pytest.mark.parametrize("carrier", Carrier)
def test_nothing_changes_at_the_reference(carrier):
    assert drying_factor(carrier, REFERENCE) == 1.0


def test_saturated_air_never_dries_water():
    assert drying_factor(Carrier.WATER, air(15.0, 100.0)) == inf
    entry = sketch_shelf().treatment("finish")
    assert entry is not None
    assert handle_min(entry, air(15.0, 100.0)) is None
    assert touch_min(entry, air(15.0, 100.0)) is None


@given(WARM, HUMID, st.floats(0.5, 7.0))
def test_damper_or_colder_air_never_dries_water_faster(temperature_c, humidity_pct, more):
    here = drying_factor(Carrier.WATER, air(temperature_c, humidity_pct))
    assert drying_factor(Carrier.WATER, air(temperature_c, humidity_pct + more)) >= here
    assert drying_factor(Carrier.WATER, air(temperature_c - 5.0, humidity_pct)) >= here


@pytest.mark.parametrize("temperature_c", [2.0, 6.0, 9.25, 12.0])
def test_cold_dry_air_in_which_a_wick_would_freeze_makes_no_jump(temperature_c):
    factors = [drying_factor(Carrier.WATER, air(temperature_c, pct)) for pct in range(1, 100)]
    assert factors == sorted(factors)


@given(WARM, HUMID, HUMID)
def test_alcohol_looks_at_the_warmth_only(temperature_c, one, other):
    assert drying_factor(Carrier.ALCOHOL, air(temperature_c, one)) == drying_factor(
        Carrier.ALCOHOL, air(temperature_c, other)
    )


@pytest.mark.parametrize(
    ("climate", "factor"),
    [((15, 50), 1.17), ((15, 70), 2.02), ((10, 80), 3.64), ((25, 40), 0.71), ((20, 90), 5.48)],
)
def test_water_scales_with_the_wet_bulb_deficit(climate, factor):
    """Dalton (1802) with the surface at the wet bulb, relative to 20 °C and 50 %; the table was
    computed with an independent psychrometric library.
    """
    at_20 = drying_factor(Carrier.WATER, air(20, 50))
    assert drying_factor(Carrier.WATER, air(*climate)) / at_20 == pytest.approx(factor, rel=0.02)


def test_alcohol_scales_with_its_vapour_pressure():
    """NIOSH Pocket Guide: 2-propanol 33 mmHg (4.40 kPa) at 20 °C; handbook 6.021 kPa at 25 °C."""
    ratio = drying_factor(Carrier.ALCOHOL, air(20, 50)) / drying_factor(
        Carrier.ALCOHOL, air(25, 50)
    )
    assert ratio == pytest.approx(6021 / 4400, rel=0.015)


def test_minutes_are_rounded_up_and_the_window_inward():
    casing = sketch_shelf().treatment("casing")
    assert casing is not None
    earliest, latest = damp_window_min(casing, air(22.0, 50.0)) or (0, 0)
    factor = drying_factor(Carrier.WATER, air(22.0, 50.0))
    assert earliest == -(-20 * factor // 1)
    assert latest == 90 * factor // 1
    finish = sketch_shelf().treatment("finish")
    assert finish is not None
    assert damp_window_min(finish, REFERENCE) is None
