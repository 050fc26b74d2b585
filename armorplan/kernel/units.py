"""Units of the trade in millimetres, and the one way lengths are compared."""

from math import isclose

MM_PER_INCH = 25.4
MM_PER_OUNCE = MM_PER_INCH / 64
"""One leather ounce is 1/64 inch of thickness (outside check against pint)."""
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
