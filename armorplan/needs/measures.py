"""Measures that the take-off shares: areas in dm², spares, and money."""

from math import ceil

from armorplan.geometry.areas import ring_area_mm2
from armorplan.kernel.units import MM2_PER_DM2
from armorplan.pattern.parts import Part

SPARE_PCT = 10.0
LEAST_SPARES = 2
"""A tenth more fasteners, two at least: some lean or are drilled out (common practice, no source)."""


def spares(count: int) -> int:
    """Return how many fasteners to have beside those that are set."""
    return max(LEAST_SPARES, ceil(count * SPARE_PCT / 100)) if count else 0


def outline_dm2(part: Part) -> float:
    """Return the area in dm² inside one part's outline, holes and slots not taken off."""
    return ring_area_mm2(part.outline) / MM2_PER_DM2


def priced(amount: float | None, price: float | None) -> float | None:
    """Return what an amount costs, or ``None`` where amount or price is not known."""
    return None if amount is None or price is None else amount * price
