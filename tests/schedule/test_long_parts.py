"""A part that is longer than its tray or wider than the line is told of."""

from dataclasses import replace
from math import cos, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from schedule.in_hand import MONDAY_8, SHOP, cuff, in_hand

from armorplan.kernel.findings import Place, Severity
from armorplan.schedule.joining import joined_problem
from armorplan.schedule.long_parts import goes_in, long_part_findings
from armorplan.schedule.shop_findings import findings_of
from armorplan.workshop.places import DipBath, Rack

PLACES = {name: Place(file="shop.toml", line=2, key=name) for name in ("baths.vat", "racks")}


def with_tray(sides_mm):
    vat = DipBath(id="vat", name="Vat", area_dm2=2.0, takes=("dye",), sides_mm=sides_mm)
    return replace(SHOP, baths=(vat, *SHOP.baths[1:]))


def test_what_is_longer_than_the_tray_does_not_go_in():
    builds = (in_hand("b", shop=with_tray((12.0, 12.0))),)
    (finding,) = long_part_findings(builds, places=PLACES)
    assert (finding.code, finding.severity) == ("part-too-long", Severity.WARNING)
    assert "does not go in; Vat is 12 × 12 mm inside" in finding.text
    assert finding.place == PLACES["baths.vat"]
    problem = joined_problem(builds, origin_at=MONDAY_8)
    assert finding in findings_of(builds, problem, places=PLACES)


@pytest.mark.parametrize("sides_mm", [(300.0, 200.0), None])
def test_what_goes_in_or_into_what_is_known_by_its_area_only_is_not_told(sides_mm):
    assert long_part_findings((in_hand("b", shop=with_tray(sides_mm)),)) == ()


def test_what_is_wider_than_every_line_does_not_hang():
    shop = replace(SHOP, racks=tuple(Rack(id=i, name=i, line_mm=15.0) for i in "ab"))
    (finding,) = long_part_findings((in_hand("b", cuff(), shop=shop),), places=PLACES)
    assert "the longest line has 15 mm" in finding.text
    assert finding.place == PLACES["racks"]


SIDE = st.floats(min_value=1, max_value=100)


@given(SIDE, SIDE, SIDE, SIDE)
def test_a_rectangle_goes_in_where_some_turn_lets_it(one, two, three, four):
    q, p = sorted((one, two))
    b, a = sorted((three, four))
    turned = [
        (p * cos(t) + q * sin(t), p * sin(t) + q * cos(t))
        for t in (radians(degrees / 4) for degrees in range(361))
    ]
    slack = 0.5
    if any(wide <= a and high <= b for wide, high in turned):
        assert goes_in((p, q), (a + 1e-6, b + 1e-6))
    if all(wide > a + slack or high > b + slack for wide, high in turned):
        assert not goes_in((p, q), (a, b))
