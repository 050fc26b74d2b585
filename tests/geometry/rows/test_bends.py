"""Rows of layers that are bent: the outer one is longer, and bends and rows say the same of it."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import shelf
from geometry.row_sketches import bend, layers, measured, straight, told

from armorplan.geometry.bends.measuring import bend_measures
from armorplan.pattern.joining import FormKind, Route

EVEN = (40.0,) * 6


def test_a_row_made_for_the_bent_state_is_no_misfit():
    """Two arcs about one centre: each 40 mm at R 95 ask for 3.2 · 40 / 95 = 1.35 mm more outside."""
    wider = 40.0 * (1 + 3.2 / 95)
    sketch = layers(straight(*(wider,) * 6), straight(*EVEN), forms=(bend("layer_a", "layer_b"),))
    (measure,) = measured(sketch)
    assert not measure.findings
    assert measure.verdict == "punch flat, bend both, then rivet"
    assert "8.1 mm longer, about as the bend asks for (8.1 mm)" in measure.text
    assert [f.code for f in told(replace(sketch, forms=()))] == ["row-longer"]
    turned = layers(straight(*EVEN), straight(*(wider,) * 6), forms=sketch.forms)
    assert [f.code for f in told(turned)] == ["row-longer"], "the inner row has no more to go"


MADE = "punch flat, bend both, then rivet"


@pytest.mark.parametrize("route", [Route.DRY, Route.DAMP])
@pytest.mark.parametrize("radius_mm", [95.0, 60.0, 50.0])
@pytest.mark.parametrize("share", [0.0, 0.3, 0.5, 0.6, 0.74, 0.76, 1.0, 1.2, 1.3])
def test_rows_and_bends_say_the_same_of_a_row_made_wider(route, radius_mm, share):
    """Two arcs about one centre differ by d * theta; an outer row longer by some share of it."""
    wider = 25.0 * (1 + share * 3.2 / radius_mm)
    outer = straight(*(wider,) * 6, start=160 - 3 * wider)
    form = bend("layer_a", "layer_b", radius_mm=radius_mm, axis=((160.0, -10.0), (160.0, 90.0)))
    sketch = layers(outer, straight(*(25.0,) * 6, start=85.0), forms=(replace(form, route=route),))
    (rows,) = [m for m in measured(sketch) if m.id == "rows:row"]
    (bends,) = [m for m in bend_measures(sketch, shelf()) if ":layer_a:layer_b" in m.id]
    assert (rows.verdict == MADE) == (bends.verdict == MADE)
    if share in {0.76, 1.0, 1.2}:
        assert rows.verdict == MADE
    numbers = {figure.name: figure.value for figure in (*rows.figures, *bends.figures)}
    if "outer row longer once bent" in numbers:
        assert numbers["outer row longer once bent"] == numbers["slide in all"]
        longer = numbers["outer row longer across the bend, as drawn"]
        assert longer == pytest.approx(150 * share * 3.2 / radius_mm)
        assert f"{longer:.1f} mm longer" in rows.text or rows.findings
        assert "about as the bend asks" not in rows.text or rows.verdict == MADE


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
    assert "radius is not written" in measure.text
    out = layers(straight(41, 41, 44, 38, 41, 41), straight(*EVEN), forms=(form,))
    assert [f.code for f in told(out)] == ["hole-off-row"]
