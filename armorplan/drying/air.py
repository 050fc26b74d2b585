"""What the air takes up: the vapour-pressure deficit for water, the vapour pressure of alcohol."""

from functools import lru_cache

from armorplan.workshop.air import Climate

REFERENCE = Climate(temperature_c=23.0, humidity_pct=50.0)
"""Air that catalogue times hold in (ISO 2419:2012)."""
PRESSURE_PA = 101_325.0
LEAST_DEFICIT_PA = 15.0
"""Below this the air is as good as saturated: psychrometric libraries differ by more."""
_LEAST_SURFACE_C = 1.0
"""Wet-bulb formulas jump where the wick freezes; leather on a bench is never let freeze."""


@lru_cache(maxsize=20_000)
def deficit_pa(temperature_c: float, humidity_pct: float) -> float:
    """Return the vapour-pressure deficit in Pa between a wet surface and the air.

    The surface is at the wet bulb (psychrometry of ASHRAE, by psychrolib). In air so cold and dry
    that it would freeze, it is taken as just above freezing. 0 where it is as good as saturated.
    """
    import psychrolib

    psychrolib.SetUnitSystem(psychrolib.SI)
    wet_bulb_c = psychrolib.GetTWetBulbFromRelHum(temperature_c, humidity_pct / 100, PRESSURE_PA)
    surface_c = min(max(wet_bulb_c, _LEAST_SURFACE_C), temperature_c)
    ratio = psychrolib.GetHumRatioFromTWetBulb(temperature_c, surface_c, PRESSURE_PA)
    in_air = psychrolib.GetVapPresFromHumRatio(ratio, PRESSURE_PA)
    found = float(psychrolib.GetSatVapPres(surface_c) - in_air)
    return found if found >= LEAST_DEFICIT_PA else 0.0


def alcohol_pressure_pa(temperature_c: float) -> float:
    """Return the vapour pressure of 2-propanol in Pa (Antoine; handbook constants as in Poling).

    It stands for ethanol too: only the ratio to the reference counts, and from 10 to 40 °C the two
    ratios differ by less than 5 %, far less than what a bottle holds of either.
    """
    return float(1e5 * 10 ** (5.24268 - 1580.92 / (temperature_c + 219.61)))
