"""How firm orders are is reckoned where it is asked for, not in every reading of the shapes."""

import pytest
from geometry.reach.net_sketches import overlay

from armorplan.app.derived import derive_build
from armorplan.app.shape_rows import shape_rows
from armorplan.app.spoken_of import SpokenOf
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.gathering import measures
from armorplan.geometry.reach import firm_measuring
from armorplan.geometry.reach.firm_asked import FIRM, firm_line, firm_measure, with_firmness
from armorplan.geometry.reach.firm_measuring import firm_measures
from armorplan.rules.reach_sketches import sketch_cone
from armorplan.workshop.shop import one_maker

SHELF = read_shelf()


@pytest.fixture
def cone():
    return sketch_cone(deep_mm=300.0, angle_deg=60.0, spots_mm=(30.0, 120.0, 210.0, 280.0))


def test_reading_the_shapes_moves_no_number(cone, monkeypatch):
    monkeypatch.setattr(firm_measuring, "firmness", None)
    build = derive_build(cone, SHELF, one_maker("UTC"), build="b")
    assert [each.id for each in build.shapes].count(FIRM) == 1
    with pytest.raises(TypeError):
        with_firmness(build.shapes, cone, SHELF)


def test_what_is_asked_for_stands_in_the_place_of_the_line(cone):
    (asked,) = firm_measures(cone, SHELF)
    found = measures(cone, SHELF)
    told = with_firmness(found, cone, SHELF)
    assert [each.id for each in told] == [each.id for each in found]
    assert asked in told
    assert asked not in found
    assert firm_measure(cone, SHELF) == asked


def test_where_there_are_no_orders_the_line_goes_or_says_so():
    shallow = sketch_cone(deep_mm=60.0, angle_deg=150.0, spots_mm=(20.0, 40.0))
    found = measures(shallow, SHELF)
    assert FIRM not in {each.id for each in with_firmness(found, shallow, SHELF)}
    assert firm_measure(shallow, SHELF).text.startswith("There are no orders by reach")


def test_what_lies_flat_has_no_such_line():
    assert not list(firm_line(overlay(200.0, 200.0, 20.0, 20.0), SHELF))


def test_the_row_of_the_line_knows_what_reckons_it(cone):
    build = derive_build(cone, SHELF, one_maker("UTC"), build="b")
    (row,) = (each for each in shape_rows(build, SpokenOf(build)) if each.later)
    (asked,) = firm_measures(cone, SHELF)
    assert (row.id, row.later().text) == (FIRM, asked.text)
    assert 0 < len(row.later().joints) <= len(row.joints)
