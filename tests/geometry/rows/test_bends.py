"""Rows of layers that are bent: the outer one is longer, and bends and rows say the same of it."""

from dataclasses import replace
from math import degrees, pi

import pytest
from geometry.leather_sketches import shelf
from geometry.row_sketches import bend, layers, measured, straight, told

from armorplan.geometry.bends.measuring import bend_measures
from armorplan.geometry.bends.ways import Way
from armorplan.pattern.joining import FormKind, Route

EVEN = (40.0,) * 6


def test_a_row_made_for_the_bent_state_is_no_misfit():
    """Two arcs about one centre: each 40 mm at R 95 ask for 3.2 · 40 / 95 = 1.35 mm more outside."""
    wider = 40.0 * (1 + 3.2 / 95)
    sketch = layers(straight(*(wider,) * 6), straight(*EVEN), forms=(bend("layer_a", "layer_b"),))
    (measure,) = measured(sketch)
    assert not measure.findings
    assert measure.verdict == Way.MADE_BENT
    assert "8.1 mm longer, about as the bend asks for (8.1 mm)" in measure.text
    assert [f.code for f in told(replace(sketch, forms=()))] == ["row-longer"]
    turned = layers(straight(*EVEN), straight(*(wider,) * 6), forms=sketch.forms)
    assert [f.code for f in told(turned)] == ["row-longer"], "the inner row has no more to go"


SHARES = (0.0, 0.2, 0.3, 0.5, 0.6, 0.74, 0.76, 1.0, 1.2, 1.3)


def longer_by(share, *, radius_mm, bent_mm, route):
    """Six spacings of 25 mm, evenly longer outside by a share of d · θ, and what is told of them.

    Two arcs about one centre differ by d · θ (circle geometry); ``bent_mm`` of the row are bent.
    """
    turned = min(bent_mm / radius_mm, pi)
    wider = 25.0 + share * 3.2 * min(turned, 150.0 / radius_mm) / 6
    axis = ((160.0, -10.0), (160.0, 90.0))
    form = bend("layer_a", "layer_b", radius_mm=radius_mm, angle_deg=degrees(turned), axis=axis)
    outer = straight(*(wider,) * 6, start=160 - 3 * wider)
    sketch = layers(outer, straight(*(25.0,) * 6, start=85.0), forms=(replace(form, route=route),))
    (rows,) = [m for m in measured(sketch) if m.id == "rows:row"]
    (bends,) = [m for m in bend_measures(sketch, shelf()) if ":layer_a:layer_b" in m.id]
    return rows, bends


@pytest.mark.parametrize("route", [Route.DRY, Route.DAMP])
@pytest.mark.parametrize("radius_mm", [95.0, 60.0, 45.0, 30.0])
@pytest.mark.parametrize("bent_mm", [400.0, 75.0])
def test_rows_and_bends_say_the_same_of_a_row_made_wider(route, radius_mm, bent_mm):
    made = []
    for share in SHARES:
        rows, bends = longer_by(share, radius_mm=radius_mm, bent_mm=bent_mm, route=route)
        assert (rows.verdict == Way.MADE_BENT) == (bends.verdict == Way.MADE_BENT), share
        assert ("made for the bent state" in rows.text) == (rows.verdict == Way.MADE_BENT), share
        if any(f.code == "row-longer" for f in rows.findings):
            assert "made for the bent state" not in bends.text, share
        if rows.verdict == Way.MADE_BENT:
            made.append(share)
        numbers = {figure.name: figure.value for figure in (*rows.figures, *bends.figures)}
        if asked_mm := numbers.get("outer row longer once bent"):
            assert asked_mm == pytest.approx(numbers["slide in all"])
            longer_mm = numbers["outer row longer across the bend, as drawn"]
            assert longer_mm == pytest.approx(share * asked_mm)
            assert f"{longer_mm:.1f} mm longer" in rows.text
    if bent_mm > 150.0 and radius_mm * pi > 150.0:
        assert made == [0.76, 1.0, 1.2]
    else:
        assert set(made) <= {0.74, 0.76, 1.0, 1.2}


@pytest.mark.parametrize("share", [0.5, 0.6, 0.76, 1.0])
def test_a_row_evenly_longer_about_a_bend_of_half_of_it_is_made_for_neither(share):
    """R 30: beyond the bend nothing slides, where the outer row is longer by up to 1.3 mm each."""
    rows, bends = longer_by(share, radius_mm=30.0, bent_mm=75.0, route=Route.DRY)
    assert [f.code for f in rows.findings] == ["row-longer"]
    assert bends.verdict.startswith("bend first, or space the outer row wider")


def test_a_row_longer_by_half_of_what_its_bend_asks_is_said_to_be_neither():
    rows, bends = longer_by(0.5, radius_mm=60.0, bent_mm=400.0, route=Route.DRY)
    assert rows.verdict == "longer by 4.0 of 8.0 mm"
    assert "for the bent state the bend asks for 8.0 mm" in rows.text
    assert bends.verdict.startswith("bend it damp, or make the outer holes oval")


def test_an_outer_row_longer_beyond_its_bend_is_told_by_what_the_bend_asks_for():
    """Half a turn at R 20 reaches 31 mm to either side of its axis: of six spacings the middle ones."""
    form = bend("layer_a", "layer_b", radius_mm=20.0, axis=((130.0, -10.0), (130.0, 90.0)))
    outer, inner = straight(*(42.0,) * 6, start=4.0), straight(*EVEN)
    (found,) = told(layers(outer, inner, forms=(form,)))
    assert found.code == "row-longer"
    assert "12.0 mm longer on layer a than on layer b, by 2.0 | 2.0 | 2.0 | 2.0" in found.text
    assert "the bend asks for 10.1 mm, by 0.0 | 0.0 | 5.0 | 5.0 | 0.0 | 0.0 mm" in found.text


def test_a_hole_that_is_out_of_a_row_made_for_the_bend_is_found():
    wider = 40.0 * (1 + 3.2 / 95)
    spans = (wider, wider, wider + 2, wider - 2, wider, wider)
    sketch = layers(straight(*spans), straight(*EVEN), forms=(bend("layer_a", "layer_b"),))
    (found,) = told(sketch)
    assert found.text.startswith("Hole 'a_3' of layer a lies 2.0 mm too far towards 'a_4'")


def test_a_row_along_the_axis_has_nothing_to_go_further():
    wider = 40.0 * (1 + 3.2 / 95)
    form = bend("layer_a", "layer_b", axis=((0.0, 30.0), (400.0, 30.0)))
    found = told(layers(straight(*(wider,) * 6), straight(*EVEN), forms=(form,)))
    assert [f.code for f in found] == ["row-longer"]


def test_an_evenly_longer_row_of_unknown_bend_is_said_and_not_judged():
    form = bend("layer_a", "layer_b", radius_mm=None, kind=FormKind.CLOSURE)
    (measure,) = measured(layers(straight(*(41.0,) * 6), straight(*EVEN), forms=(form,)))
    assert not measure.findings
    assert measure.verdict == Way.UNTOLD
    assert "radius is not written" in measure.text
    out = layers(straight(41, 41, 44, 38, 41, 41), straight(*EVEN), forms=(form,))
    assert [f.code for f in told(out)] == ["hole-off-row"]


@pytest.mark.parametrize(
    ("radius_mm", "route", "verdict"),
    [(30.0, Route.DRY, "meet flat"), (95.0, Route.DRY, "meet"), (95.0, Route.DAMP, "meet flat")],
)
def test_alike_rows_that_a_bend_parts_are_said_to_meet_flat_only(radius_mm, route, verdict):
    """At R 95 leather curved by hand gives what it slides; what is shaped damp is punched after."""
    rows, bends = longer_by(0.0, radius_mm=radius_mm, bent_mm=400.0, route=route)
    assert rows.verdict == verdict
    assert bends.verdict.startswith(("bend first", "punch the outer")) is (verdict == "meet flat")
