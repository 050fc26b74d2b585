"""What the air takes up: the vapour-pressure deficit for water, the vapour pressure of alcohol."""

from functools import lru_cache

from armorplan.workshop.air import Climate

REFERENCE = Climate(temperature_c=23.0, humidity_pct=50.0)
"""Air that catalogue times hold in (ISO 2419:2012)."""
PRESSURE_PA = 101_325.0
LEAST_DEFICIT_PA = 15.0
"""Below this the air is as good as saturated: psychrometric libraries differ by more."""
_FROST_C = 1.0
"""Wet-bulb formulas jump where the wick freezes; below this its surface is found without them."""
_HALVINGS = 22
_DEEPEST_K = 30.0


@lru_cache(maxsize=20_000)
def deficit_pa(temperature_c: float, humidity_pct: float) -> float:
    """Return the vapour-pressure deficit in Pa between a wet surface and the air.

    The surface is at the wet bulb (psychrometry of ASHRAE, by psychrolib). Where a wick would
    freeze, the psychrometer's equation goes on as it is just above freezing: leather on a bench
    holds its water unfrozen for long. 0 where the air is as good as saturated.
    """
    import psychrolib

    psychrolib.SetUnitSystem(psychrolib.SI)
    share = humidity_pct / 100
    found = 0.0
    if share < 1.0 and _freezes(temperature_c, share):
        found = _cold_deficit_pa(temperature_c, share)
    elif share < 1.0:
        wet_bulb_c = psychrolib.GetTWetBulbFromRelHum(temperature_c, share, PRESSURE_PA)
        found = _psychrometer_pa(temperature_c, wet_bulb_c)
    return found if found >= LEAST_DEFICIT_PA else 0.0


def _freezes(temperature_c: float, share: float) -> bool:
    """Tell whether the wet bulb is colder than frost."""
    import psychrolib

    if temperature_c <= _FROST_C:
        return True
    ratio = psychrolib.GetHumRatioFromTWetBulb(temperature_c, _FROST_C, PRESSURE_PA)
    in_air = psychrolib.GetVapPresFromHumRatio(ratio, PRESSURE_PA)
    return bool(psychrolib.GetSatVapPres(temperature_c) * share < in_air)


def _psychrometer_pa(temperature_c: float, surface_c: float) -> float:
    """Return the deficit of air that has this wet bulb."""
    import psychrolib

    ratio = psychrolib.GetHumRatioFromTWetBulb(temperature_c, surface_c, PRESSURE_PA)
    in_air = psychrolib.GetVapPresFromHumRatio(ratio, PRESSURE_PA)
    return float(psychrolib.GetSatVapPres(surface_c) - in_air)


def _cold_deficit_pa(temperature_c: float, share: float) -> float:
    """Return the deficit where the wet bulb is colder than frost: in Pa for each K below the air.

    What a K is worth there is what it is worth at the last wet bulb that does not freeze.
    """
    import psychrolib

    warm_c = max(temperature_c, _FROST_C + 1.0)
    pa_each_k = _psychrometer_pa(warm_c, _FROST_C) / (warm_c - _FROST_C)
    held = psychrolib.GetSatVapPres(temperature_c) * share
    low_k, high_k = 0.0, _DEEPEST_K
    for _ in range(_HALVINGS):
        below_k = (low_k + high_k) / 2
        too_deep = psychrolib.GetSatVapPres(temperature_c - below_k) - pa_each_k * below_k < held
        low_k, high_k = (low_k, below_k) if too_deep else (below_k, high_k)
    return pa_each_k * low_k


def alcohol_pressure_pa(temperature_c: float) -> float:
    """Return the vapour pressure of 2-propanol in Pa (Antoine; handbook constants as in Poling).

    It stands for ethanol too: only the ratio to the reference counts, and from 10 to 40 °C the two
    ratios differ by less than 5 %, far less than what a bottle holds of either.
    """
    return float(1e5 * 10 ** (5.24268 - 1580.92 / (temperature_c + 219.61)))
