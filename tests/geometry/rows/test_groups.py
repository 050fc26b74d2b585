"""Loose rivets between two flat plates: in no row every distance counts, the diagonals too."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import box, part, pattern, rivet
from geometry.row_sketches import bend, measured, told

from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Seam
from armorplan.pattern.parts import PartKind

TRIANGLE = [(100.0, 100.0), (140.0, 100.0), (120.0, 134.6)]
SQUARE = [(100.0, 100.0), (140.0, 100.0), (140.0, 140.0), (100.0, 140.0)]


def _on(spots, other, *, kind=PartKind.PLATE, forms=()):
    boss = part("boss", box(300, 300), {f"b{i}": p for i, p in enumerate(spots)}, kind=kind)
    plate = part("plate", box(400, 400), {f"p{i}": p for i, p in enumerate(other)})
    joints = tuple(rivet(f"j{i}", f"b{i}", f"p{i}") for i in range(len(spots)))
    return replace(pattern(boss, plate, joints=joints), forms=forms)


def _moved(spots, at, x, y):
    return [(a + x, b + y) if i == at else (a, b) for i, (a, b) in enumerate(spots)]


def test_the_third_side_of_a_triangle_counts():
    """The second rivet is turned about the first and the third by an equal way: two sides agree."""
    leaning = [(100.0, 100.0), (140.0, 100.0), (140.0, 140.0)]
    sheared = [(100.0, 100.0), (140.0, 100.0), (136.0, 139.8)]
    (found,) = told(_on(leaning, sheared))
    assert (found.code, found.severity) == ("row-misfit", Severity.WARNING)
    assert found.text == (
        "'j0' and 'j2' are 56.6 mm apart on boss but 53.7 mm on plate: they miss by 2.9 mm, and "
        "both are flat."
    )
    (measure,) = [m for m in measured(_on(leaning, sheared)) if m.findings]
    assert [mark.label for mark in measure.marks] == ["56.6 mm", "53.7 mm"]


@pytest.mark.parametrize("spots", [TRIANGLE, SQUARE], ids=["triangle", "square"])
def test_what_agrees_is_sound_and_said(spots):
    turned = [(300 - y, x + 5) for x, y in spots]
    sketch = _on(spots, turned)
    assert not told(sketch)
    assert [m.verdict for m in measured(sketch) if m.id.startswith("rows:group")] == ["meet"]


def test_a_square_that_leans_is_found():
    leaning = [(100.0, 100.0), (140.0, 100.0), (144.0, 139.8), (104.0, 139.8)]
    (found,) = told(_on(SQUARE, leaning))
    assert found.code in {"row-misfit", "rows-shifted"}


def test_a_shaped_part_a_strap_and_a_seam_are_not_judged_so():
    leaning = [(100.0, 100.0), (140.0, 100.0), (144.0, 139.8), (104.0, 139.8)]
    assert not told(_on(SQUARE, leaning, kind=PartKind.STRAP))
    assert not told(_on(SQUARE, leaning, forms=(bend("boss", radius_mm=None),)))
    sketch = _on(SQUARE, leaning)
    seam = Seam(id="row", name="row", joints=tuple(j.id for j in sketch.joints))
    assert not told(replace(sketch, seams=(seam,)))


def test_a_curved_row_of_loose_rivets_draws_leather_into_shape():
    curved = [(100.0 + 30 * i, 100.0) for i in range(5)]
    other = [(100.0, 100.0), (129.9, 102.0), (159.7, 105.4), (189.3, 110.3), (218.6, 116.7)]
    assert not told(_on(curved, other))


def test_one_hole_out_of_a_group_is_told_once():
    assert len(told(_on(TRIANGLE, _moved(TRIANGLE, 2, 3.0, 0.0)))) == 1
    assert len(told(_on(SQUARE, _moved(SQUARE, 1, 3.0, 0.0)))) == 1
