"""Girths that closed seams make, in the middle of the leather and inside it."""

from dataclasses import replace
from math import cos, pi, radians, sin

import pytest
from geometry.leather_sketches import box, part, pattern, rivet
from geometry.row_sketches import measured

from armorplan.pattern.joining import Form, FormKind, Route, Seam
from armorplan.pattern.parts import PartKind


def _sewn(*parts, seams):
    joints, made = [], []
    for name, stacks in seams.items():
        ids = []
        for at, stack in enumerate(stacks):
            joints.append(rivet(f"{name}_{at}", *stack))
            ids.append(f"{name}_{at}")
        made.append(Seam(id=name, name=name, joints=tuple(ids)))
    return pattern(*parts, joints=tuple(joints), seams=tuple(made))


def _girths(measures):
    figures = [f for m in measures for f in m.figures if f.name.startswith("girth")]
    return [f.value for f in figures]


def _rings(sketch):
    return [m for m in measured(sketch) if m.id.startswith("rows:ring")]


def _closed(outline, one, other, **more):
    holes = {f"a{i}": p for i, p in enumerate(one)} | {f"b{i}": p for i, p in enumerate(other)}
    shell = part("shell", outline, holes, **more)
    return _sewn(shell, seams={"close": [(f"a{i}", f"b{i}") for i in range(len(one))]})


def test_a_strip_closed_on_itself_is_as_round_as_its_rows_are_apart():
    one, other = ([(x, 20.0 * i + 10) for i in range(4)] for x in (10.0, 310.0))
    (measure,) = measured(_closed(box(320, 100), one, other))
    assert _girths([measure]) == pytest.approx([300, 300 - pi * 3.2, 300, 300 - pi * 3.2])
    assert "300 mm round at the first hole and 300 mm at the last" in measure.text


def _net(radius_mm, angle_deg):
    return radius_mm * sin(radians(angle_deg)), radius_mm * cos(radians(angle_deg))


def test_the_net_of_a_frustum_closes_to_the_girths_it_was_made_for():
    """Solid geometry: h 300, R 90, r 60 have a net of radii 904.489 and 602.993 over 35.8213°."""
    half = 35.8213 / 2
    radii = [904.489 - (904.489 - 602.993) * i / 6 for i in range(7)]
    one, other = ([_net(r, a) for r in radii] for a in (-half, half))
    steps = [half * s / 20 for s in range(-21, 22)]
    outline = [_net(910, a) for a in steps] + [_net(597, a) for a in reversed(steps)]
    (measure,) = measured(_closed(tuple(outline), one, other))
    first, _, last, _ = _girths([measure])
    assert (first, last) == pytest.approx((2 * pi * 90, 2 * pi * 60), abs=0.01)


def test_a_disc_with_a_wedge_cut_out_goes_round_by_the_way_in_leather():
    wedge = 40.0
    steps = [wedge / 2 - 5 + (370 - wedge) * s / 60 for s in range(61)]
    outline = ((0.0, 0.0), *(_net(120, a) for a in steps))
    one, other = ([_net(r, a) for r in (100, 80, 60)] for a in (wedge / 2, -wedge / 2))
    (measure,) = measured(_closed(outline, one, other))
    first, _, last, _ = _girths([measure])
    assert (first, last) == pytest.approx((100 * radians(320), 60 * radians(320)))


@pytest.mark.parametrize("why", ["strap", "fold"])
def test_a_strap_or_a_fold_that_comes_back_on_itself_has_no_girth(why):
    one, other = ([(x, 20.0 * i + 10) for i in range(4)] for x in (10.0, 310.0))
    kind = PartKind.STRAP if why == "strap" else PartKind.PLATE
    sketch = _closed(box(320, 100), one, other, kind=kind)
    fold = Form(id="fold", kind=FormKind.FOLD, parts=("shell",), route=Route.DRY)
    sketch = replace(sketch, forms=(fold,)) if why == "fold" else sketch
    assert not _girths(measured(sketch))


def _gore(name, wide_mm, low_mm):
    """A gore with a row down either side, and its girth tapering downwards."""
    off = (wide_mm - low_mm) / 2
    holes = {f"{name}_l{i}": (10 + off * i / 3, 20.0 + 60 * i) for i in range(4)}
    holes |= {f"{name}_r{i}": (10 + wide_mm - off * i / 3, 20.0 + 60 * i) for i in range(4)}
    return part(name, box(wide_mm + 20, 240), holes)


def test_a_ring_of_three_has_the_girth_of_all():
    gores = [_gore("a", 100, 100), _gore("b", 120, 120), _gore("c", 90, 90)]
    seams = {
        f"{one}{other}": [(f"{one}_r{i}", f"{other}_l{i}") for i in range(4)]
        for one, other in ("ab", "bc", "ca")
    }
    (ring,) = _rings(_sewn(*gores, seams=seams))
    assert ring.id == "rows:ring:a+b+c"
    assert ring.verdict == "310 and 310 mm round"
    assert ring.figures[0].formula == "100.0 + 120.0 + 90.0 = 310.0"
    open_ring = {name: seams[name] for name in ("ab", "bc")}
    assert not _girths(measured(_sewn(*gores, seams=open_ring)))


def test_a_seam_numbered_from_the_other_end_does_not_change_the_ring():
    gores = [_gore("a", 100, 100), _gore("b", 120, 120), _gore("c", 90, 90)]
    seams = {
        f"{one}{other}": [(f"{one}_r{i}", f"{other}_l{i}") for i in range(4)]
        for one, other in ("ab", "bc", "ca")
    }
    seams["bc"].reverse()
    (ring,) = _rings(_sewn(*gores, seams=seams))
    assert ring.verdict == "310 and 310 mm round"


def test_tapering_gores_are_narrower_at_one_end():
    gores = [_gore("a", 100, 70), _gore("b", 120, 84)]
    seams = {
        "ab": [(f"a_r{i}", f"b_l{i}") for i in range(4)],
        "ba": [(f"b_r{i}", f"a_l{i}") for i in range(4)],
    }
    (ring,) = _rings(_sewn(*gores, seams=seams))
    first, _, last, _ = _girths([ring])
    assert first == pytest.approx(220, rel=0.01)
    assert last == pytest.approx(154, rel=0.01)


def test_two_plates_on_each_other_make_no_ring():
    gores = [_gore("a", 100, 100), _gore("b", 100, 100)]
    seams = {side: [(f"a_{side}{i}", f"b_{side}{i}") for i in range(4)] for side in "lr"}
    assert not _girths(measured(_sewn(*gores, seams=seams)))


def test_two_hinges_along_one_edge_make_no_ring():
    plates = [
        part(name, box(200, 400), {f"{name}_{i}": (20.0, 20.0 + 40 * i) for i in range(8)})
        for name in ("front", "back")
    ]
    hinges = []
    for name in ("upper", "lower"):
        spots = {
            f"{name}_{s}{i}": (10.0 + 40 * (s == "b"), 10.0 + 40 * i)
            for s in "fb"
            for i in range(3)
        }
        hinges.append(part(name, box(60, 100), spots))
    seams = {
        f"{hinge}_{plate}": [(f"{plate}_{start + i}", f"{hinge}_{plate[0]}{i}") for i in range(3)]
        for hinge, start in (("upper", 0), ("lower", 5))
        for plate in ("front", "back")
    }
    assert not _girths(measured(_sewn(*plates, *hinges, seams=seams)))
