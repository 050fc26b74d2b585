"""Catalogue times carried to the shop's air.

Water leaves as fast as the vapour-pressure deficit at the wet bulb drives it (Dalton's law with
the surface at the wet bulb); alcohol as its own vapour pressure does, whatever the humidity; oil
creeps and is taken as it stands in the catalogue. Reference air is that of ISO 2419: 23 °C, 50 %.
"""

from math import ceil, inf, isinf

from armorplan.workshop.shelf import Carrier, TreatmentEntry
from armorplan.workshop.shop import Climate

REFERENCE = Climate(temperature_c=23.0, humidity_pct=50.0)
_PRESSURE_PA = 101_325.0
_LEAST_DEFICIT_PA = 15.0
"""Below this the air is as good as saturated: psychrometric libraries differ by more."""


_LEAST_SURFACE_C = 1.0
"""Wet-bulb formulas jump where the wick freezes; leather on a bench is never let freeze."""


def _water_deficit_pa(climate: Climate) -> float:
    """Return the vapour-pressure deficit in Pa between a wet surface and the shop's air.

    In air so cold and dry that the surface would freeze, it is taken as just above freezing.
    """
    import psychrolib

    psychrolib.SetUnitSystem(psychrolib.SI)
    warm_c, humidity = climate.temperature_c, climate.humidity_pct / 100
    wet_bulb_c = psychrolib.GetTWetBulbFromRelHum(warm_c, humidity, _PRESSURE_PA)
    surface_c = min(max(wet_bulb_c, _LEAST_SURFACE_C), warm_c)
    ratio = psychrolib.GetHumRatioFromTWetBulb(warm_c, surface_c, _PRESSURE_PA)
    in_air = psychrolib.GetVapPresFromHumRatio(ratio, _PRESSURE_PA)
    return float(psychrolib.GetSatVapPres(surface_c) - in_air)


def _alcohol_pressure_pa(temperature_c: float) -> float:
    """Return the vapour pressure of 2-propanol in Pa (Antoine; handbook constants as in Poling)."""
    return float(1e5 * 10 ** (5.24268 - 1580.92 / (temperature_c + 219.61)))


def drying_factor(carrier: Carrier, climate: Climate) -> float:
    """Return how many times longer drying takes than at 23 °C and 50 %; ``inf`` for never.

    Source: Dalton (1802) with the wet-bulb surface for water, Antoine's equation for alcohol;
    oil has no published law and keeps its catalogue time (common practice, no source).
    """
    if carrier is Carrier.OIL or climate == REFERENCE:
        return 1.0
    if carrier is Carrier.ALCOHOL:
        return _alcohol_pressure_pa(REFERENCE.temperature_c) / _alcohol_pressure_pa(
            climate.temperature_c
        )
    deficit_pa = _water_deficit_pa(climate)
    if deficit_pa < _LEAST_DEFICIT_PA:
        return inf
    return _water_deficit_pa(REFERENCE) / deficit_pa


def _scaled(minutes: int, entry: TreatmentEntry, climate: Climate) -> int | None:
    factor = drying_factor(entry.carrier, climate)
    return None if isinf(factor) else ceil(minutes * factor)


def touch_min(entry: TreatmentEntry, climate: Climate) -> int | None:
    """Return minutes until the next coat may go on; ``None``: it will not dry in this air."""
    return _scaled(entry.touch_min, entry, climate)


def handle_min(entry: TreatmentEntry, climate: Climate) -> int | None:
    """Return minutes until it may be handled; ``None``: it will not dry in this air."""
    return _scaled(entry.handle_min, entry, climate)


def damp_window_min(entry: TreatmentEntry, climate: Climate) -> tuple[int, int] | None:
    """Return earliest and latest minute to shape cased leather; ``None``: no such window."""
    if entry.window_min is None:
        return None
    factor = drying_factor(entry.carrier, climate)
    if isinf(factor):
        return entry.window_min
    earliest, latest = entry.window_min
    return ceil(earliest * factor), max(1, int(latest * factor))
