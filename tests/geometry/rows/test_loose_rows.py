"""Rivets that hold the same parts, with no seam declared."""

from dataclasses import replace
from math import radians

import pytest
from geometry.leather_sketches import box, part, pattern, rivet
from geometry.row_sketches import told

from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Form, FormKind, Motion, Route, Seam
from armorplan.pattern.parts import PartKind


def _crest(on_crest_mm, *, on_lame_mm=46.0, kind=PartKind.TRIM, **more):
    crest = part("crest", box(90, 40), {"c1": (10, 20), "c2": (10 + on_crest_mm, 20)}, kind=kind)
    lame = part("lame", box(220, 60), {"l1": (90, 30), "l2": (90 + on_lame_mm, 30)})
    joints = tuple(replace(rivet(f"j{n}", f"c{n}", f"l{n}"), **more) for n in (1, 2))
    return pattern(crest, lame, joints=joints)


def _bent(sketch, kind=FormKind.BEND, radius_mm=65.0):
    form = Form(
        id="round",
        kind=kind,
        parts=("lame",),
        route=Route.DAMP,
        radius_mm=radius_mm,
        angle_deg=170,
    )
    return replace(sketch, forms=(form,))


def test_two_rivets_that_miss_are_told_with_their_mm():
    (found,) = told(_crest(38.0))
    assert found.text == (
        "'j1' and 'j2' are 46.0 mm apart on lame but 38.0 mm on crest: they miss by 8.0 mm."
    )
    assert found.severity is Severity.WARNING
    assert found.about == ("j1", "j2", "lame", "crest")


@pytest.mark.parametrize("on_crest_mm", [46.0, 46.4, 45.6])
def test_what_punch_and_leather_make_up_is_not_told(on_crest_mm):
    assert not list(told(_crest(on_crest_mm)))


@pytest.mark.parametrize(
    "more", [{"placed_on_wearer": True}, {"motion": Motion.TURNING}], ids=["on wearer", "turning"]
)
def test_joints_without_a_place_of_their_own_are_left_out(more):
    assert not list(told(_crest(38.0, **more)))


def test_rivets_of_a_seam_are_left_to_it():
    sketch = _crest(38.0)
    seam = Seam(id="row", name="row", joints=("j1", "j2"))
    (found,) = told(replace(sketch, seams=(seam,)))
    assert found.text.startswith("Holes 1 and 2 of 'row'")


def test_across_a_bend_the_layers_differ_by_their_distance_times_the_angle():
    """Arcs about one centre: 3.2 mm between middles, 90° of a quarter turn give 5.03 mm."""
    quarter_mm = 65.0 * radians(90)
    sound = _crest(quarter_mm, on_lame_mm=quarter_mm - 5.0)
    assert list(told(sound))
    assert not list(told(_bent(sound)))
    (found,) = told(_bent(_crest(54.0)))
    assert "they miss by 8.0 mm, and the bend takes 2.3 mm of it at most" in found.text
    (found,) = told(_bent(_crest(38.0)))
    assert found.text.endswith("they miss by 8.0 mm."), "the inner layer has no more to go"


def test_a_shape_without_a_radius_is_not_judged_but_a_fold_is():
    assert not list(told(_bent(_crest(38.0), FormKind.CLOSURE, None)))
    assert list(told(_bent(_crest(38.0), FormKind.FOLD, 2.0)))


def test_a_strap_may_stand_off_between_rivets_far_apart():
    assert not list(told(_crest(60.0, kind=PartKind.STRAP)))
    assert list(told(_crest(60.0)))
    assert list(told(_crest(30.0, on_lame_mm=26.0, kind=PartKind.STRAP)))
    assert list(told(_crest(38.0, kind=PartKind.STRAP)))


def test_a_strap_folded_over_is_measured_leaf_by_leaf():
    holes = {"t1": (90, 10), "t2": (74, 10), "u1": (10, 10), "u2": (29, 10)}
    tab = part("tab", box(100, 20), holes, kind=PartKind.STRAP)
    cop = part("cop", box(90, 90), {"c1": (20, 40), "c2": (36, 40)})
    joints = (rivet("one", "t1", "u1", "c1"), rivet("two", "t2", "u2", "c2"))
    (found,) = told(pattern(tab, cop, joints=joints))
    assert "19.0 mm apart on tab between 'u1' and 'u2' but 16.0 mm on" in found.text


def test_rivets_through_three_layers_are_told_once():
    """Four rivets hold two plates, two of them a strap's end as well."""
    plate = part("plate", box(300, 60), {f"p{i}": (20 + 40 * i, 30) for i in range(4)})
    lame = part("lame", box(300, 60), {f"l{i}": (20 + 43 * i, 30) for i in range(4)})
    strap = part("strap", box(90, 20), {"s0": (10, 10), "s1": (53, 10)}, kind=PartKind.STRAP)
    stacks = [("p0", "l0", "s0"), ("p1", "l1", "s1"), ("p2", "l2"), ("p3", "l3")]
    joints = tuple(rivet(f"j{i}", *stack) for i, stack in enumerate(stacks))
    found = told(pattern(plate, lame, strap, joints=joints))
    assert len({(f.code, f.text) for f in found}) == len(found)
    assert "row-longer" in {f.code for f in found}


def test_two_groups_of_rivets_far_apart_are_two_rows():
    """Between them a plate may bow; in either group the spacing has to agree."""
    spots = (20.0, 40.0, 300.0, 320.0)
    crest = part("crest", box(400, 40), {f"c{i}": (x, 20) for i, x in enumerate(spots)})
    lame = part(
        "lame", box(400, 60), {f"l{i}": (x - 6 * (x > 100), 30) for i, x in enumerate(spots)}
    )
    joints = tuple(rivet(f"j{i}", f"c{i}", f"l{i}") for i in range(4))
    assert not told(pattern(crest, lame, joints=joints))
    near = replace(lame, holes=(replace(lame.holes[0], centre=(17.0, 30)), *lame.holes[1:]))
    (found,) = told(pattern(crest, near, joints=joints))
    assert found.text.startswith("'j0' and 'j1' are 23.0 mm apart on lame but 20.0 mm on crest")
