"""Amounts of a take-off as a maker says them."""

from math import ceil

from armorplan.kernel.units import ML_PER_LITRE, span_words

_ML_ROUNDED = 10.0
UNKNOWN, NOTHING = "not known", "–"


def counted(count: int, one: str, many: str = "") -> str:
    """Return a count with its noun: ``1 part``, ``7 parts``."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def volume_words(ml: float | None) -> str:
    """Return a volume, rounded up to what can be poured: ``0.3 ml``, ``63 ml``, ``3.4 l``; of nothing, a dash."""
    if ml is None:
        return UNKNOWN
    if not ml:
        return NOTHING
    if ml >= ML_PER_LITRE:
        return f"{ceil(ml / 100) / 10:.1f} l"
    return f"{ceil(ml)} ml" if ml >= _ML_ROUNDED else f"{ceil(ml * 10) / 10:.1f} ml"


def area_words(dm2: float) -> str:
    """Return an area in dm² with one decimal, two where it is small."""
    return f"{dm2:.1f} dm²" if dm2 >= 1 else f"{dm2:.2f} dm²"


def minutes_words(minutes: int | None) -> str:
    """Return minutes as a maker says them; of nothing, a dash."""
    if minutes is None:
        return UNKNOWN
    return span_words(minutes) if minutes else NOTHING


def money_words(cost: float | None, currency: str) -> str:
    """Return a cost with its currency, or that there is no price."""
    return "no price" if cost is None else f"{cost:.2f} {currency}".rstrip()
