"""Paces: one at the reference, none in saturated air, and never faster in worse air."""

import pytest
from drying.sample_rooms import air
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.drying.air import REFERENCE
from armorplan.drying.pace import paces
from armorplan.workshop.shelf import Carrier

WATER, ALCOHOL, OIL = Carrier.WATER, Carrier.ALCOHOL, Carrier.OIL
WARM = st.floats(5.0, 38.0)
HUMID = st.floats(5.0, 92.0)
WIND = st.floats(0.0, 3.0)
SHARES = st.floats(0.0, 1.0)
WET = st.sampled_from((WATER, ALCOHOL))


@pytest.mark.parametrize("carrier", Carrier)
@pytest.mark.parametrize("water_share", [0.0, 0.1, 0.3, 1.0])
def test_nothing_changes_at_the_reference(carrier, water_share):
    assert paces(carrier, REFERENCE, water_share) == pytest.approx((1.0, 1.0, 1.0))


@settings(max_examples=30)
@given(WET, WARM, HUMID, WIND, SHARES)
def test_worse_air_is_never_faster(carrier, temperature_c, humidity_pct, air_m_s, share):
    here = paces(carrier, air(temperature_c, humidity_pct, air_m_s), share)
    worse = (
        air(temperature_c - 5.0, humidity_pct, air_m_s),
        air(temperature_c, humidity_pct + 7.0, air_m_s),
        air(temperature_c, humidity_pct, air_m_s / 2),
    )
    for climate in worse:
        there = paces(carrier, climate, share)
        assert all(one >= other - 1e-12 for one, other in zip(here, there, strict=True))
    assert list(here) == sorted(here)


@settings(max_examples=20)
@given(WARM, HUMID, HUMID)
def test_pure_alcohol_looks_at_the_warmth_only(temperature_c, one, other):
    assert paces(ALCOHOL, air(temperature_c, one)) == paces(ALCOHOL, air(temperature_c, other))


@settings(max_examples=20)
@given(WARM, HUMID, st.floats(0.05, 0.95))
def test_alcohol_with_water_dries_between_alcohol_and_water(temperature_c, humidity_pct, share):
    climate = air(temperature_c, humidity_pct)
    mixed = paces(ALCOHOL, climate, share)[1]
    pure, water = paces(ALCOHOL, climate)[1], paces(WATER, climate)[1]
    assert min(pure, water) - 1e-12 <= mixed <= max(pure, water) + 1e-12


def test_the_minutes_of_alcohol_and_of_its_water_add_up():
    # 80 of 100 minutes as alcohol, 20 as water, each at its own pace.
    climate = air(15.0, 70.0)
    pure, water = paces(ALCOHOL, climate)[1], paces(WATER, climate)[1]
    assert 100 / paces(ALCOHOL, climate, 0.2)[1] == pytest.approx(80 / pure + 20 / water)


@pytest.mark.parametrize("carrier", [WATER, ALCOHOL])
def test_water_never_leaves_in_saturated_air(carrier):
    assert paces(carrier, air(15.0, 100.0), 0.1) == (0.0, 0.0, 0.0)


@settings(max_examples=10)
@given(WARM, st.floats(0.0, 100.0), WIND)
def test_oil_keeps_its_time(temperature_c, humidity_pct, air_m_s):
    assert paces(OIL, air(temperature_c, humidity_pct, air_m_s)) == (1.0, 1.0, 1.0)


@pytest.mark.parametrize("carrier", [WATER, ALCOHOL])
def test_air_that_moves_backwards_is_told(carrier):
    with pytest.raises(ValueError, match="does not move"):
        paces(carrier, air(air_m_s=-1.0))
