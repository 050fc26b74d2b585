from math import asin, cos, sin

import pytest
from geometry.leather_sketches import box, part, pattern, rivet

from armorplan.geometry.rows import row_findings
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


def test_the_miss_is_told_in_mm_between_the_neighbours_that_miss():
    sketch = _two_rows(_straight(10, 30, 50, 72.3), _straight(10, 30, 50, 70))
    (found,) = row_findings(sketch)
    assert found.text == (
        "Holes 3 and 4 of 'front row' are 22.3 mm apart on upper but 20.0 mm on lower: "
        "they miss by 2.3 mm."
    )
    assert found.severity is Severity.ERROR
    assert found.about == ("row", "j2", "j3", "upper", "lower")


@pytest.mark.parametrize(
    ("miss_mm", "severities"),
    [(0.0, []), (0.49, []), (0.51, [Severity.WARNING]), (1.01, [Severity.ERROR])],
)
def test_severity_follows_the_miss(miss_mm, severities):
    sketch = _two_rows(_straight(10, 30 + miss_mm), _straight(10, 30))
    assert [f.severity for f in row_findings(sketch)] == severities


def test_unlike_curvature_with_equal_spacing_is_no_misfit():
    def arc(radius):
        step = 2 * asin(28 / 2 / radius)
        return [(radius * sin(i * step), radius * cos(i * step)) for i in range(6)]

    assert not list(row_findings(_two_rows(arc(400.0), arc(150.0))))


def test_a_strap_that_shares_one_hole_has_no_row_to_miss():
    a = part("upper", box(99.0, 60.0), {"u0": (10.0, 10.0), "u1": (30.0, 10.0)})
    b = part("lower", box(99.0, 60.0), {"l0": (10.0, 10.0), "l1": (30.0, 10.0)})
    strap = part("strap", box(99.0, 20.0), {"s": (80.0, 10.0)})
    joints = (rivet("j0", "u0", "l0"), rivet("j1", "u1", "l1", "s"))
    seam = Seam(id="row", name="row", joints=("j0", "j1"))
    assert not list(row_findings(pattern(a, b, strap, joints=joints, seams=(seam,))))


def test_a_part_passed_twice_by_a_joint_is_not_measured():
    loop = part("loop", box(99.0, 20.0), {"a": (10.0, 10.0), "b": (80.0, 10.0), "c": (30.0, 10.0)})
    plate = part("plate", box(99.0, 60.0), {"p0": (10.0, 10.0), "p1": (50.0, 10.0)})
    joints = (rivet("j0", "a", "b", "p0"), rivet("j1", "c", "p1"))
    seam = Seam(id="row", name="row", joints=("j0", "j1"))
    assert not list(row_findings(pattern(loop, plate, joints=joints, seams=(seam,))))
