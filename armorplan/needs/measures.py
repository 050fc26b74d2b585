"""Measures that the take-off shares: spares and money."""

from math import ceil

SPARE_PCT = 10.0
LEAST_SPARES = 2
"""A tenth more fasteners, two at least: some lean or are drilled out (common practice, no source)."""


def spares(count: int) -> int:
    """Return how many fasteners to have beside those that are set."""
    return max(LEAST_SPARES, ceil(count * SPARE_PCT / 100)) if count else 0


def priced(amount: float | None, price: float | None) -> float | None:
    """Return what an amount costs, or ``None`` where amount or price is not known."""
    return None if amount is None or price is None else amount * price
