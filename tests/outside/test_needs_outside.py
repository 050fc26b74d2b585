"""Areas and purchases against closed formulas, a units library, and the trade's own figures."""

from dataclasses import replace
from math import cos, pi, sin, sqrt

import pytest
from geometry.leather_sketches import box, part, pattern
from needs.needs_sketches import PRICED_LEATHER, TRAY, built, shelf
from pint import UnitRegistry

from armorplan.geometry.areas import outline_dm2
from armorplan.needs.leather import FOOT_30_DM2, leather_needs
from armorplan.needs.liquids import OVER_PART_MM, liquid_needs
from armorplan.pattern.joining import Treatment
from armorplan.steps.model import Work

UNITS = UnitRegistry()
CORNERS = 4000
"""So many corners leave a circle's area short by (2π/n)²/6, less than a millionth."""
TO_A_MILLIONTH = 1e-6
# Frustum of a thigh plate, radii 90 and 60 mm, 300 mm high: solid geometry, any textbook.
LARGE_MM, SMALL_MM, HIGH_MM = 90.0, 60.0, 300.0


def turn(radius_x_mm: float, radius_y_mm: float, from_rad: float = 0.0, to_rad: float = 2 * pi):
    step = (to_rad - from_rad) / CORNERS
    angles = [from_rad + step * at for at in range(CORNERS + (to_rad - from_rad < 2 * pi))]
    return [(radius_x_mm * cos(a), radius_y_mm * sin(a)) for a in angles]


def area_mm2(outline) -> float:
    return outline_dm2(part("part", tuple(outline), {})) * 10_000


def test_a_circle_is_pi_r_squared():
    assert area_mm2(turn(55.0, 55.0)) == pytest.approx(pi * 55.0**2, rel=TO_A_MILLIONTH)


def test_an_ellipse_is_pi_a_b():
    assert area_mm2(turn(90.0, 40.0)) == pytest.approx(pi * 90.0 * 40.0, rel=TO_A_MILLIONTH)


def test_a_rectangle_is_its_sides():
    assert area_mm2(box(340.0, 22.0)) == pytest.approx(340.0 * 22.0)


def test_a_developed_frustum_is_pi_times_both_radii_times_the_slant():
    slant_mm = sqrt(HIGH_MM**2 + (LARGE_MM - SMALL_MM) ** 2)
    outer_mm = LARGE_MM * slant_mm / (LARGE_MM - SMALL_MM)
    inner_mm = SMALL_MM * slant_mm / (LARGE_MM - SMALL_MM)
    angle = 2 * pi * (LARGE_MM - SMALL_MM) / slant_mm
    outer = turn(outer_mm, outer_mm, 0.0, angle)
    inner = turn(inner_mm, inner_mm, 0.0, angle)
    area = area_mm2([*outer, *reversed(inner)])
    assert area == pytest.approx(pi * (LARGE_MM + SMALL_MM) * slant_mm, rel=TO_A_MILLIONTH)
    assert area == pytest.approx(142_076.77, rel=TO_A_MILLIONTH)


def bought(width_mm: float, height_mm: float, yield_pct: float):
    made = pattern(part("plate", box(width_mm, height_mm), {}))
    leather = replace(PRICED_LEATHER, yield_pct=yield_pct)
    (need,) = leather_needs(built(made), replace(shelf(), leathers=(leather,)))
    return need


def test_thirteen_and_a_half_square_feet_at_three_quarters_are_a_purchase_of_eighteen():
    # Four trade pages: a yard 54 in wide is 13.5 ft²; with a quarter lost, buy 18 ft².
    yard = UNITS("36 inch").to("mm").magnitude
    wide = UNITS("54 inch").to("mm").magnitude
    need = bought(yard, wide, 75.0)
    assert need.buy_ft2 == pytest.approx(18.0)
    assert need.hide == "about three quarters of a side"


def test_six_large_square_panels_waste_more_than_half():
    # Trade page: six panels of 24 × 24 in (24 ft²) need about 54 ft² of hide, a yield of 0.44.
    side = UNITS("24 inch").to("mm").magnitude
    assert bought(side, 6 * side, 44.4).buy_ft2 == pytest.approx(54.0, rel=0.01)


def test_areas_agree_with_a_units_library():
    need = bought(610.0, 457.0, 100.0)
    area = UNITS.Quantity(610.0 * 457.0, "mm ** 2")
    assert need.net_dm2 == pytest.approx(area.to("dm ** 2").magnitude)
    assert need.buy_ft2 == pytest.approx(area.to("foot ** 2").magnitude)


def test_a_foot_of_thirty_centimetres_is_short_by_three_per_cent():
    square_foot_dm2 = UNITS("1 foot ** 2").to("dm ** 2").magnitude
    assert 1 - FOOT_30_DM2 / square_foot_dm2 == pytest.approx(0.031, abs=0.0005)


def test_mass_is_area_times_thickness_times_density():
    # Vegetable-tanned leather 0.85 to 1.05 g/cm³ (from memory; ISO 2420 is the test method).
    need = bought(500.0, 400.0, 75.0)
    volume = UNITS.Quantity(500.0 * 400.0 * 3.2, "mm ** 3")
    for grams, density in zip(need.mass_g, (0.85, 1.05), strict=True):
        expected = (volume * UNITS.Quantity(density, "g / cm ** 3")).to("g").magnitude
        assert grams == pytest.approx(expected)


def test_the_fill_of_a_tray_is_its_floor_times_its_height():
    dye = Treatment(id="colour", use="dye", parts=("plate",))
    made = pattern(part("plate", box(200.0, 100.0), {}), treatments=(dye,))
    (need,) = liquid_needs(built(made), Work(steps=()), shelf(), TRAY)
    floor = UNITS.Quantity(TRAY.length_mm * TRAY.width_mm, "mm ** 2")
    fill = floor * UNITS.Quantity(3.2 + OVER_PART_MM, "mm")
    assert need.dipped.fill_ml == pytest.approx(fill.to("ml").magnitude)
