"""What the air takes up: nothing where it is saturated, and no jump where a wick would freeze."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.drying.air import LEAST_DEFICIT_PA, REFERENCE, alcohol_pressure_pa, deficit_pa

WARM = st.floats(2.0, 40.0)
HUMID = st.floats(1.0, 99.0)


@pytest.mark.parametrize("temperature_c", [-5.0, 0.0, 1.0, 15.0, 40.0])
def test_saturated_air_takes_up_nothing(temperature_c):
    assert deficit_pa(temperature_c, 100.0) == 0.0


def test_air_as_good_as_saturated_takes_up_nothing_and_drier_air_something():
    shares = [deficit_pa(10.0, 95.0 + tenth / 10) for tenth in range(51)]
    assert shares[-1] == 0.0
    assert all(share == 0.0 or share >= LEAST_DEFICIT_PA for share in shares)
    assert shares[0] > LEAST_DEFICIT_PA


@settings(max_examples=30)
@given(WARM, HUMID, st.floats(0.5, 30.0), st.floats(0.5, 5.0))
def test_colder_or_damper_air_never_takes_up_more(temperature_c, humidity_pct, damper, colder):
    here = deficit_pa(temperature_c, humidity_pct)
    assert deficit_pa(temperature_c, min(100.0, humidity_pct + damper)) <= here
    assert deficit_pa(temperature_c - colder, humidity_pct) <= here


@pytest.mark.parametrize("temperature_c", [-3.0, 0.0, 0.5, 1.0, 2.0, 6.0, 9.25, 12.0])
def test_cold_dry_air_in_which_a_wick_would_freeze_makes_no_jump(temperature_c):
    taken = [deficit_pa(temperature_c, float(pct)) for pct in range(1, 100)]
    assert taken == sorted(taken, reverse=True)


def test_warmer_alcohol_has_more_pressure():
    pressures = [alcohol_pressure_pa(float(c)) for c in range(-5, 45)]
    assert pressures == sorted(pressures)
    assert alcohol_pressure_pa(REFERENCE.temperature_c) > 0


@pytest.mark.parametrize("humidity_pct", [10.0, 30.0, 50.0, 70.0, 90.0])
def test_towards_frost_it_takes_up_less_and_less_but_not_nothing(humidity_pct):
    # From 12 °C down to -5 °C, in steps of a quarter: no step of more than a twentieth.
    taken = [deficit_pa(12.0 - quarter / 4, humidity_pct) for quarter in range(69)]
    assert taken == sorted(taken, reverse=True)
    assert all(colder > 0.95 * warmer > 0 for warmer, colder in pairwise(taken))


def test_where_the_wick_freezes_the_two_ways_to_reckon_meet():
    # At 6 °C the wet bulb is 1 °C at about 35 %.
    taken = [deficit_pa(6.0, 33.0 + tenth / 10) for tenth in range(41)]
    steps = [one - other for one, other in pairwise(taken)]
    assert max(steps) == pytest.approx(min(steps), rel=0.15)
