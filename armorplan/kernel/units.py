"""Units of the trade in millimetres, and the one way lengths are compared."""

from math import isclose

MM_PER_INCH = 25.4
MM_PER_OUNCE = MM_PER_INCH / 64
"""One leather ounce is 1/64 inch of thickness (outside check against pint)."""
DM2_PER_SQUARE_FOOT = (12 * MM_PER_INCH / 100) ** 2
"""Square decimetres in the square foot hides are sold by: 9.290304 exactly."""
MM_PER_CM, MM_PER_M = 10.0, 1000.0
MM2_PER_DM2 = 10_000.0
ML_PER_LITRE = 1000.0
HOUR_MIN = 60
DAY_MIN = 24 * HOUR_MIN
NEAR_MM = 1e-6
"""Two lengths closer than this are one: far below what a knife or a file format can hold."""


def ounces_to_mm(ounces: float) -> float:
    """Return the thickness in mm of leather sold at this many ounces."""
    return ounces * MM_PER_OUNCE


def mm_to_ounces(thickness_mm: float) -> float:
    """Return the leather ounces of a thickness in mm."""
    return thickness_mm / MM_PER_OUNCE


def mm2_to_square_feet(area_mm2: float) -> float:
    """Return an area in square feet, as hides are sold."""
    return area_mm2 / (12 * MM_PER_INCH) ** 2


def near(a_mm: float, b_mm: float, *, within_mm: float = NEAR_MM) -> bool:
    """Tell whether two lengths in mm are the same to a stated tolerance."""
    return isclose(a_mm, b_mm, rel_tol=0.0, abs_tol=within_mm)


_FEW_HOURS_MIN = 3 * HOUR_MIN
_FEW_DAYS_MIN = 2 * DAY_MIN


def span_words(minutes: int) -> str:
    """Return minutes as a maker says them: ``25 min``, ``1 h 40 min``, ``24 h``, ``2 days 4 h``."""
    if minutes < HOUR_MIN:
        return f"{minutes} min"
    if minutes < _FEW_HOURS_MIN and minutes % HOUR_MIN:
        return f"{minutes // HOUR_MIN} h {minutes % HOUR_MIN} min"
    hours = round(minutes / HOUR_MIN)
    if minutes < _FEW_DAYS_MIN:
        return f"{hours} h"
    days, rest = divmod(hours, 24)
    return f"{days} days {rest} h" if rest else f"{days} days"


_MINUTES_TO_MIN, _HOURS_TO_MIN = 4 * HOUR_MIN, 5 * DAY_MIN
_FINE_BELOW_MIN, _HALVES_BELOW_MIN = 30, 10 * HOUR_MIN


def both_words(minutes: float, other: float) -> tuple[str, str]:
    """Return two durations that are compared, in one unit and no finer than they are known.

    >>> both_words(4140, 2340), both_words(95, 60), both_words(6.2, 5)
    (('69 h', '39 h'), ('95 min', '60 min'), ('6 min', '5 min'))
    """
    low, high = sorted((minutes, other))
    name, unit_min, step = "days", DAY_MIN, 0.5
    if high < _MINUTES_TO_MIN:
        name, unit_min, step = "min", 1, 1.0 if low < _FINE_BELOW_MIN else 5.0
    elif high <= _HOURS_TO_MIN:
        name, unit_min, step = "h", HOUR_MIN, 0.5 if low < _HALVES_BELOW_MIN else 1.0
    here, there = (step * round(each / unit_min / step) for each in (minutes, other))
    if min(here, there) <= 0:
        return span_words(round(minutes)), span_words(round(other))
    return f"{here:g} {name}", f"{there:g} {name}"


_MIN_S = 60
_LEAST_S = 10
_HALVES_TO_MIN = 10


def about_words(minutes: float) -> str:
    """Return minutes that are an estimate, no finer than it is good for.

    Below a minute to ten seconds, up to ten minutes to half a minute, above to a minute.

    >>> [about_words(each) for each in (0.4, 1.0, 6.2, 7.3, 23.4, 75.0)]
    ['20 seconds', '1 minute', '6 minutes', '7.5 minutes', '23 minutes', '1 h 15 min']
    """
    seconds = max(_LEAST_S, _LEAST_S * round(_MIN_S * minutes / _LEAST_S))
    if seconds < _MIN_S:
        return f"{seconds} seconds"
    near = round(2 * minutes) / 2 if minutes < _HALVES_TO_MIN else round(minutes)
    if near >= HOUR_MIN:
        return span_words(round(near))
    return f"{near:g} minute{'s' * (near != 1)}"
