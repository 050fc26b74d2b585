"""The pace of drying: minutes at the reference that pass in one minute of this air."""

from armorplan.drying.air import REFERENCE, alcohol_pressure_pa, deficit_pa
from armorplan.drying.wind import wind_gains
from armorplan.workshop.air import Climate
from armorplan.workshop.shelf import Carrier

Paces = tuple[float, float, float]
"""Slowest, likely, fastest; all 0 where nothing dries."""


def _water(climate: Climate) -> float:
    """Dalton (1802), with the surface at the wet bulb."""
    there = deficit_pa(REFERENCE.temperature_c, REFERENCE.humidity_pct)
    return deficit_pa(climate.temperature_c, climate.humidity_pct) / there


def _alcohol(climate: Climate, water_share: float) -> float:
    """Return the pace of alcohol that holds a share of water, which leaves last.

    The minutes of both add up, so that their paces combine as resistances in a row do.
    """
    there = alcohol_pressure_pa(REFERENCE.temperature_c)
    pure = alcohol_pressure_pa(climate.temperature_c) / there
    if not water_share:
        return pure
    water = _water(climate)
    return 1.0 / ((1.0 - water_share) / pure + water_share / water) if water else 0.0


def paces(carrier: Carrier, climate: Climate, water_share: float = 0.0) -> Paces:
    """Return how fast a carrier leaves in this air, compared with 23 °C, 50 % and still air.

    Source: Dalton's law for water, Antoine's equation for alcohol, the laws of ``wind`` for moving
    air. Oil creeps by no published law and keeps its catalogue time (common practice, no source).
    """
    if carrier is Carrier.OIL:
        return 1.0, 1.0, 1.0
    pace = _water(climate) if carrier is Carrier.WATER else _alcohol(climate, water_share)
    slow, likely, fast = wind_gains(climate.air_m_s)
    return pace * slow, pace * likely, pace * fast
