"""Moving air dries faster; how much, two laws tell, and the truth lies between."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.drying.wind import wind_gains

SPEEDS = st.floats(0.0, 5.0)


def test_still_air_gains_nothing():
    assert wind_gains(0.1) == (1.0, 1.0, 1.0)


@settings(max_examples=30)
@given(SPEEDS, st.floats(0.01, 3.0))
def test_faster_air_gains_more(air_m_s, more):
    here, there = wind_gains(air_m_s), wind_gains(air_m_s + more)
    assert list(here) == sorted(here)
    assert all(one < other for one, other in zip(here, there, strict=True))


def test_the_middle_lies_as_far_from_both():
    least, middle, most = wind_gains(2.0)
    assert middle / least == pytest.approx(most / middle)


def test_air_does_not_move_backwards():
    with pytest.raises(ValueError, match="air does not move at -0"):
        wind_gains(-0.2)
