from math import hypot, pi

import pytest
from geometry.leather_sketches import box, part
from shapely import Polygon

from armorplan.geometry.areas import edge_length_mm, part_area_mm2
from armorplan.pattern.parts import Slot

SLOT = Slot(
    id="slot", part="plate", outline=box(16.0, 3.5, (20.0, 20.0)), length_mm=16.0, width_mm=3.5
)
PLATE = part("plate", box(100.0, 60.0), {"a": (10.0, 10.0), "b": (90.0, 10.0)}, slots=(SLOT,))


def test_area_leaves_out_holes_and_slots():
    assert part_area_mm2(PLATE) == pytest.approx(6000 - 16 * 3.5 - 2 * pi * 1.75**2)


def test_edge_is_outline_and_slots_but_not_holes():
    assert edge_length_mm(PLATE) == pytest.approx(320 + 39)


def test_area_does_not_ask_which_way_the_outline_runs():
    turned = part("plate", tuple(reversed(box(100.0, 60.0))), {})
    assert part_area_mm2(turned) == pytest.approx(6000)


def test_an_odd_outline_agrees_with_shapely():
    outline = ((0.0, 0.0), (50.0, 5.0), (30.0, 30.0), (55.0, 60.0), (-4.0, 41.0))
    shape = Polygon(outline)
    sketch = part("plate", outline, {})
    assert part_area_mm2(sketch) == pytest.approx(shape.area)
    assert edge_length_mm(sketch) == pytest.approx(shape.length)
    assert edge_length_mm(sketch) > hypot(55, 60)
