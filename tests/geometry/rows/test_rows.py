from dataclasses import replace
from math import asin, cos, sin

import pytest
from geometry.leather_sketches import box, part, pattern, rivet
from geometry.row_sketches import told

from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Seam


def _two_rows(upper, lower):
    a = part("upper", box(300.0, 60.0), {f"u{i}": p for i, p in enumerate(upper)})
    b = part("lower", box(300.0, 60.0), {f"l{i}": p for i, p in enumerate(lower)})
    joints = tuple(rivet(f"j{i}", f"u{i}", f"l{i}") for i in range(len(upper)))
    seam = Seam(id="row", name="front row", joints=tuple(j.id for j in joints))
    return pattern(a, b, joints=joints, seams=(seam,))


def _straight(*spots):
    return [(x, 10.0) for x in spots]


def test_the_hole_that_is_out_is_told_in_mm():
    sketch = _two_rows(_straight(10, 30, 50, 72.3), _straight(10, 30, 50, 70))
    (found,) = told(sketch)
    assert found.text == (
        "Hole 'u3' of upper lies 2.3 mm too far away from 'u2': on lower 20.0 mm, on upper 22.3 mm."
    )
    assert found.severity is Severity.ERROR
    assert found.about == ("row", "j3", "upper", "lower", "u3", "l3")


def test_of_two_holes_the_spacing_is_told():
    (found,) = told(_two_rows(_straight(10, 32.3), _straight(10, 30)))
    assert found.text == (
        "Holes 1 and 2 of 'front row' are 22.3 mm apart on upper but 20.0 mm on lower: "
        "they miss by 2.3 mm."
    )
    assert found.about == ("row", "j0", "j1", "lower", "upper")


@pytest.mark.parametrize(
    ("miss_mm", "severities"),
    [(0.0, []), (0.49, []), (0.51, [Severity.NOTE]), (1.01, [Severity.ERROR])],
)
def test_severity_follows_the_miss(miss_mm, severities):
    sketch = _two_rows(_straight(10, 30 + miss_mm), _straight(10, 30))
    assert [f.severity for f in told(sketch)] == severities


def test_unlike_curvature_with_equal_spacing_is_no_misfit():
    def arc(radius):
        step = 2 * asin(28 / 2 / radius)
        return [(radius * sin(i * step), radius * cos(i * step)) for i in range(6)]

    assert not list(told(_two_rows(arc(400.0), arc(150.0))))


def test_a_strap_that_shares_one_hole_has_no_row_to_miss():
    a = part("upper", box(99.0, 60.0), {"u0": (10.0, 10.0), "u1": (30.0, 10.0)})
    b = part("lower", box(99.0, 60.0), {"l0": (10.0, 10.0), "l1": (30.0, 10.0)})
    strap = part("strap", box(99.0, 20.0), {"s": (80.0, 10.0)})
    joints = (rivet("j0", "u0", "l0"), rivet("j1", "u1", "l1", "s"))
    seam = Seam(id="row", name="row", joints=("j0", "j1"))
    assert not list(told(pattern(a, b, strap, joints=joints, seams=(seam,))))


def test_a_part_passed_twice_by_a_joint_is_not_measured():
    loop = part("loop", box(99.0, 20.0), {"a": (10.0, 10.0), "b": (80.0, 10.0), "c": (30.0, 10.0)})
    plate = part("plate", box(99.0, 60.0), {"p0": (10.0, 10.0), "p1": (50.0, 10.0)})
    joints = (rivet("j0", "a", "b", "p0"), rivet("j1", "c", "p1"))
    seam = Seam(id="row", name="row", joints=("j0", "j1"))
    assert not list(told(pattern(loop, plate, joints=joints, seams=(seam,))))


def _closed_on_itself(upper, lower, *, swapped=(), part_name="cop"):
    holes = {f"a{i}": p for i, p in enumerate(upper)} | {f"b{i}": p for i, p in enumerate(lower)}
    cop = part(part_name, box(300.0, 200.0), holes)
    stacks = [(f"a{i}", f"b{i}") for i in range(len(upper))]
    joints = tuple(
        rivet(f"j{i}", *(stack[::-1] if i in swapped else stack)) for i, stack in enumerate(stacks)
    )
    seam = Seam(id="row", name="cop row", joints=tuple(j.id for j in joints))
    return pattern(cop, joints=joints, seams=(seam,))


WEDGE = [(20.0 + 20 * i, 90.0 - 5 * i) for i in range(4)]
WEDGE_BELOW = [(x, 200.0 - y) for x, y in WEDGE]


def test_a_seam_that_closes_a_part_on_itself_is_measured_too():
    assert not list(told(_closed_on_itself(WEDGE, WEDGE_BELOW)))
    moved = [*WEDGE[:3], (88.0, 75.0)]
    (found,) = told(_closed_on_itself(moved, WEDGE_BELOW))
    assert found.text == (
        "Hole 'a3' of cop lies 7.8 mm too far away from 'a2': on cop beside 'b3' 20.6 mm, on cop "
        "beside 'a3' 28.4 mm."
    )
    assert found.about == ("row", "j3", "cop", "a3", "b3")


@pytest.mark.parametrize("at", range(4))
def test_a_joint_turned_over_is_told_and_nothing_else(at):
    (found,) = told(_closed_on_itself(WEDGE, WEDGE_BELOW, swapped={at}))
    assert found.severity is Severity.WARNING
    assert f"Joint 'j{at}' of 'cop row' lies the other way round than its neighbours" in found.text


def test_a_joint_of_two_parts_turned_over():
    sketch = _two_rows(_straight(10, 30, 50), _straight(10, 30, 50))
    turned = tuple(replace(j, stack=j.stack[::-1]) if j.id == "j1" else j for j in sketch.joints)
    (found,) = told(replace(sketch, joints=turned))
    assert found.code == "joint-other-way-round"
    assert found.about == ("row", "j1")


def test_woven_layers_are_meant():
    sketch = _two_rows(_straight(10, 30, 50, 70), _straight(10, 30, 50, 70))
    woven = tuple(
        replace(j, stack=j.stack[::-1]) if at % 2 else j for at, j in enumerate(sketch.joints)
    )
    assert not list(told(replace(sketch, joints=woven)))
