"""What the air takes up: the vapour-pressure deficit for water, the vapour pressure of alcohol."""

from collections.abc import Callable
from functools import lru_cache
from math import exp

from armorplan.workshop.air import Climate

REFERENCE = Climate(temperature_c=23.0, humidity_pct=50.0)
"""Air that catalogue times hold in (ISO 2419:2012)."""
PRESSURE_PA = 101_325.0
LEAST_DEFICIT_PA = 15.0
"""Below this the air is as good as saturated: psychrometric libraries differ by more."""
_FROST_C = 1.0
"""Wet-bulb formulas jump where the wick freezes; below this its surface is found without them."""
_PSYCHROMETER_PA_K = 66.0
"""What a K of wet-bulb depression is worth, about; it only speeds the search."""
_NEAR_PA = 1e-3
_MOST_STEPS = 40


@lru_cache(maxsize=20_000)
def deficit_pa(temperature_c: float, humidity_pct: float) -> float:
    """Return the vapour-pressure deficit in Pa between a wet surface and the air.

    The surface is at the wet bulb (psychrometry of ASHRAE, by psychrolib). Where a wick would
    freeze, the psychrometer's equation goes on as it is just above freezing: leather on a bench
    holds its water unfrozen for long. 0 where the air is as good as saturated.
    """
    import psychrolib

    psychrolib.SetUnitSystem(psychrolib.SI)
    held_pa = psychrolib.GetSatVapPres(temperature_c) * min(humidity_pct / 100, 1.0)
    freezes = temperature_c <= _FROST_C or held_pa < _held_pa(temperature_c, _FROST_C)
    held_at = _cold_psychrometer(temperature_c) if freezes else _psychrometer(temperature_c)
    surface_c = _wet_bulb_c(temperature_c, held_pa, held_at)
    found = float(psychrolib.GetSatVapPres(surface_c) - held_pa)
    return found if found >= LEAST_DEFICIT_PA else 0.0


def _held_pa(temperature_c: float, wet_bulb_c: float) -> float:
    """Return the vapour pressure of air that has this wet bulb."""
    import psychrolib

    ratio = psychrolib.GetHumRatioFromTWetBulb(temperature_c, wet_bulb_c, PRESSURE_PA)
    return float(psychrolib.GetVapPresFromHumRatio(ratio, PRESSURE_PA))


def _psychrometer(temperature_c: float) -> Callable[[float], float]:
    return lambda wet_bulb_c: _held_pa(temperature_c, wet_bulb_c)


def _cold_psychrometer(temperature_c: float) -> Callable[[float], float]:
    """Return the vapour pressure by wet bulb, colder than frost: so many Pa less for each K.

    What a K is worth there is what it is worth at the last wet bulb that does not freeze.
    """
    import psychrolib

    warm_c = max(temperature_c, _FROST_C + 1.0)
    lost_pa = psychrolib.GetSatVapPres(_FROST_C) - _held_pa(warm_c, _FROST_C)
    pa_each_k = lost_pa / (warm_c - _FROST_C)
    return lambda wet_bulb_c: float(
        psychrolib.GetSatVapPres(wet_bulb_c) - pa_each_k * (temperature_c - wet_bulb_c)
    )


def _wet_bulb_c(temperature_c: float, held_pa: float, held_at: Callable[[float], float]) -> float:
    """Return where the psychrometer says what the air holds, by Newton's steps down from the air.

    They use the slope of Tetens' formula, which is near enough to end in a few steps.
    """
    surface_c = temperature_c
    for _ in range(_MOST_STEPS):
        over_pa = held_at(surface_c) - held_pa
        if abs(over_pa) < _NEAR_PA:
            break
        steep = 4098 * 610.8 * exp(17.27 * surface_c / (surface_c + 237.3))
        surface_c -= over_pa / (steep / (surface_c + 237.3) ** 2 + _PSYCHROMETER_PA_K)
    return surface_c


def alcohol_pressure_pa(temperature_c: float) -> float:
    """Return the vapour pressure of 2-propanol in Pa (Antoine; handbook constants as in Poling).

    It stands for ethanol too: only the ratio to the reference counts, and from 10 to 40 °C the two
    ratios differ by less than 5 %, far less than what a bottle holds of either.
    """
    return float(1e5 * 10 ** (5.24268 - 1580.92 / (temperature_c + 219.61)))
