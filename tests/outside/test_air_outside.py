"""The air that things dry in, against steam tables, other formulas and worked examples.

The program reckons with psychrolib (formulas of ASHRAE: Hyland and Wexler). Against it stand
IAPWS-IF97 by another library, FAO Irrigation and Drainage Paper 56 (Allen and others, 1998; its
examples from memory) and Stull's formula for wet bulbs (J. Appl. Meteor. Climatol. 50, 2011).
"""

from math import atan, exp, sqrt

import psychrolib
import pytest
from iapws.iapws97 import _PSat_T

from armorplan.drying.air import PRESSURE_PA, REFERENCE, deficit_pa

PSYCHROMETER_PER_C = 0.000662
"""FAO-56, equation 16: of the air's pressure, for a ventilated wet bulb."""


def saturation_pa(temperature_c):
    """IAPWS-IF97, region 4."""
    return _PSat_T(temperature_c + 273.15) * 1e6


def tetens_kpa(temperature_c):
    """FAO-56, equation 11."""
    return 0.6108 * exp(17.27 * temperature_c / (temperature_c + 237.3))


def magnus_pa(temperature_c):
    """The WMO's guide to instruments (from memory)."""
    return 611.2 * exp(17.62 * temperature_c / (temperature_c + 243.12))


@pytest.fixture(autouse=True)
def si():
    psychrolib.SetUnitSystem(psychrolib.SI)


def test_times_hold_in_the_reference_air_for_testing_leather():
    # ISO 2419:2012, Leather: sample preparation and conditioning: 23 °C and 50 %.
    assert (REFERENCE.temperature_c, REFERENCE.humidity_pct) == (23.0, 50.0)


@pytest.mark.parametrize(
    ("kelvin", "mpa"), [(300, 0.353658941e-2), (500, 0.263889776e1), (600, 0.123443146e2)]
)
def test_the_steam_table_is_the_published_one(kelvin, mpa):
    # IAPWS-IF97, table 35 (from memory).
    assert _PSat_T(kelvin) == pytest.approx(mpa, rel=1e-8)


@pytest.mark.parametrize(
    ("temperature_c", "iapws95_pa"),
    [
        (10, 1228.2),
        (15, 1705.8),
        (20, 2339.3),
        (23, 2811.1),
        (25, 3169.9),
        (30, 4247.0),
        (40, 7384.9),
    ],
)
def test_saturation_pressures_agree(temperature_c, iapws95_pa):
    # IAPWS-95 by CoolProp, printed here; the others are reckoned.
    ours = psychrolib.GetSatVapPres(temperature_c)
    assert ours == pytest.approx(iapws95_pa, rel=0.0005)
    assert ours == pytest.approx(saturation_pa(temperature_c), rel=0.0005)
    assert ours == pytest.approx(1000 * tetens_kpa(temperature_c), rel=0.0015)
    assert ours == pytest.approx(magnus_pa(temperature_c), rel=0.004)


def test_example_3_of_fao_56():
    highest, lowest = (psychrolib.GetSatVapPres(t) / 1000 for t in (24.5, 15.0))
    assert highest == pytest.approx(3.075, abs=0.002)
    assert lowest == pytest.approx(1.705, abs=0.002)
    assert (highest + lowest) / 2 == pytest.approx(2.39, abs=0.005)


def test_example_4_of_fao_56():
    # 25.6 °C, wet bulb 19.5 °C, 1200 m: 87.9 kPa and 1.91 kPa in the air.
    pressure_pa = psychrolib.GetStandardAtmPressure(1200)
    assert pressure_pa / 1000 == pytest.approx(87.9, rel=0.01)
    ratio = psychrolib.GetHumRatioFromTWetBulb(25.6, 19.5, 87_900)
    assert psychrolib.GetVapPresFromHumRatio(ratio, 87_900) / 1000 == pytest.approx(1.91, rel=0.01)


def test_example_5_of_fao_56():
    # 18 °C and 82 %, 25 °C and 54 %: 1.70 kPa on average.
    airs = ((18.0, 0.82), (25.0, 0.54))
    held = [psychrolib.GetVapPresFromRelHum(t, share) / 1000 for t, share in airs]
    assert sum(held) / 2 == pytest.approx(1.70, abs=0.005)


def test_the_example_of_a_package_for_solar_radiation():
    # R package sirad, its documentation: es(25.1, 19.1) = 2.698918 kPa.
    assert (tetens_kpa(25.1) + tetens_kpa(19.1)) / 2 == pytest.approx(2.698918, abs=1e-6)
    held = (psychrolib.GetSatVapPres(25.1) + psychrolib.GetSatVapPres(19.1)) / 2000
    assert held == pytest.approx(2.698918, rel=0.0015)


def stull_c(temperature_c, humidity_pct):
    return (
        temperature_c * atan(0.151977 * sqrt(humidity_pct + 8.313659))
        + atan(temperature_c + humidity_pct)
        - atan(humidity_pct - 1.676331)
        + 0.00391838 * humidity_pct**1.5 * atan(0.023101 * humidity_pct)
        - 4.686035
    )


@pytest.mark.parametrize(
    ("temperature_c", "humidity_pct", "coolprop_c"),
    [(20, 50, 13.776), (25, 60, 19.467), (30, 50, 22.001), (23, 50, None)],
)
def test_wet_bulbs_agree(temperature_c, humidity_pct, coolprop_c):
    # HAPropsSI of CoolProp, printed here; Stull's formula errs by -1 to 0.65 °C, says its abstract.
    ours = psychrolib.GetTWetBulbFromRelHum(temperature_c, humidity_pct / 100, PRESSURE_PA)
    if coolprop_c is not None:
        assert ours == pytest.approx(coolprop_c, abs=0.05)
    assert ours == pytest.approx(stull_c(temperature_c, humidity_pct), abs=0.65)


def test_stull_s_own_example():
    assert stull_c(20.0, 50.0) == pytest.approx(13.7, abs=0.05)


@pytest.mark.parametrize(
    ("temperature_c", "humidity_pct", "wet_bulb_c"),
    [(20, 50, 13.776), (25, 60, 19.467), (30, 50, 22.001)],
)
def test_the_deficit_is_that_of_the_steam_table_at_the_wet_bulb(
    temperature_c, humidity_pct, wet_bulb_c
):
    # Wet bulbs by CoolProp.
    held = saturation_pa(temperature_c) * humidity_pct / 100
    theirs = saturation_pa(wet_bulb_c) - held
    assert deficit_pa(temperature_c, humidity_pct) == pytest.approx(theirs, rel=0.01)


@pytest.mark.parametrize("temperature_c", [10.0, 15.0, 20.0, 25.0, 30.0])
@pytest.mark.parametrize("humidity_pct", [30.0, 50.0, 70.0, 90.0])
def test_the_deficit_is_that_of_a_ventilated_psychrometer(temperature_c, humidity_pct):
    """FAO-56, equation 15, solved for the wet bulb by halving, with the steam table."""
    per_c = PSYCHROMETER_PER_C * PRESSURE_PA
    held = saturation_pa(temperature_c) * humidity_pct / 100
    low_c, high_c = 0.01, temperature_c
    for _ in range(50):
        wet_c = (low_c + high_c) / 2
        drier = saturation_pa(wet_c) - per_c * (temperature_c - wet_c) < held
        low_c, high_c = (wet_c, high_c) if drier else (low_c, wet_c)
    theirs = per_c * (temperature_c - low_c)
    assert deficit_pa(temperature_c, humidity_pct) == pytest.approx(theirs, rel=0.03)


@pytest.mark.parametrize("temperature_c", [4.0, 8.0, 12.5, 19.0, 27.0, 38.0])
@pytest.mark.parametrize("humidity_pct", [45.0, 62.0, 88.0])
def test_the_deficit_is_that_of_the_library_s_own_wet_bulb(temperature_c, humidity_pct):
    # Where its wick does not freeze; it is found to 0.001 °C.
    share = humidity_pct / 100
    wet_c = psychrolib.GetTWetBulbFromRelHum(temperature_c, share, PRESSURE_PA)
    theirs = psychrolib.GetSatVapPres(wet_c) - psychrolib.GetVapPresFromRelHum(
        temperature_c, share
    )
    rel = 0.002 if wet_c >= 1.0 else 0.2
    assert deficit_pa(temperature_c, humidity_pct) == pytest.approx(theirs, rel=rel)
