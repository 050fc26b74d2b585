"""Leather ounces and hide areas against pint, a general unit library.

1 oz = 1/64 in of thickness: Roberts & Etherington, Bookbinding and the Conservation of Books (from
memory). The foot is SI/NIST's: 12 × 25.4 mm exactly.
"""

import pint
import pytest
from geometry.leather_sketches import box, part

from armorplan.geometry.areas import part_area_mm2
from armorplan.kernel.units import mm2_to_square_feet, mm_to_ounces, ounces_to_mm


@pytest.fixture(scope="module")
def ureg():
    registry = pint.UnitRegistry()
    registry.define("leather_ounce = inch / 64")
    registry.define("iron = inch / 48")
    return registry


@pytest.mark.parametrize("ounces", [1, 2.5, 7, 8, 9, 10, 14, 16])
def test_ounces_agree_both_ways(ureg, ounces):
    theirs = (ounces * ureg.leather_ounce).to("mm").magnitude
    assert ounces_to_mm(ounces) == pytest.approx(theirs, rel=1e-9)
    assert mm_to_ounces(theirs) == pytest.approx(ounces, rel=1e-9)


def test_sixteen_ounces_are_twelve_irons_and_a_quarter_inch(ureg):
    """1 iron = 1/48 in: Roberts & Etherington (from memory)."""
    assert (ounces_to_mm(16) * ureg.mm).to("iron").magnitude == pytest.approx(12, rel=1e-9)
    assert ounces_to_mm(16) == pytest.approx((0.25 * ureg.inch).to("mm").magnitude, rel=1e-9)


@pytest.mark.parametrize("ounces", range(1, 17))
def test_the_trade_s_printed_table_is_within_one_per_cent(ounces):
    """Printed tables round to 0.4 mm an ounce: common practice, no source."""
    assert ounces_to_mm(ounces) == pytest.approx(0.4 * ounces, rel=0.01)


@pytest.mark.parametrize("side_mm", [300.0, 304.8, 1000.0])
def test_areas_agree(ureg, side_mm):
    area_mm2 = part_area_mm2(part("hide", box(side_mm, side_mm), {}))
    theirs = (side_mm * ureg.mm * side_mm * ureg.mm).to("foot ** 2").magnitude
    assert mm2_to_square_feet(area_mm2) == pytest.approx(theirs, rel=1e-9)


def test_a_metric_foot_falls_short_of_a_square_foot(ureg):
    """30 × 30 cm is 9 dm², 0.96875 ft²: 3.1 % short (computed from the foot's definition)."""
    area = part_area_mm2(part("hide", box(300.0, 300.0), {}))
    assert (area * ureg.mm**2).to("dm ** 2").magnitude == pytest.approx(9.0)
    assert mm2_to_square_feet(area) == pytest.approx(0.96875, abs=1e-5)
