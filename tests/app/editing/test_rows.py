"""Rows spaced anew: even on every layer, ends kept, and still matching hole for hole."""

from itertools import pairwise
from math import dist

import pytest
from app.editing.edited import sample, taken, why
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.app.draft import Draft
from armorplan.app.editing.quick import touched
from armorplan.app.editing.rows import (
    Along,
    add_row,
    count_at,
    space_holes,
    space_row,
    spacing_of,
)
from armorplan.geometry.rows.bundles import bundles
from armorplan.geometry.sizing.spacing import gaps_mm
from armorplan.pattern.pattern import Pattern


def pattern(draft: Draft) -> Pattern:
    assert draft.pattern is not None
    return draft.pattern


def layers(draft: Draft, seam: str) -> list[list[float]]:
    row = next(b for b in bundles(pattern(draft)) if b.id == seam)
    full = [layer for layer in row.rows if len(row.holes(layer)) == len(row.joints)]
    return [gaps_mm([hole.centre for hole in row.holes(layer)]) for layer in full]


@settings(max_examples=4)
@given(count=st.integers(3, 14), seam=st.sampled_from(["left_row", "right_row"]))
def test_a_row_of_any_count_matches_on_both_layers(count, seam):
    cop = sample("elbow_cop")
    before = next(b for b in bundles(pattern(cop)) if b.id == seam)
    made = taken(space_row(cop, seam, count=count))
    one, other = layers(made, seam)
    assert len(one) == len(other) == count - 1
    assert max(abs(a - b) for a, b in zip(one, other, strict=True)) < 0.1
    assert max(one) - min(one) < 0.01
    after = next(b for b in bundles(pattern(made)) if b.id == seam)
    for layer in after.rows[:2]:
        ends = [(r.holes(layer)[0].centre, r.holes(layer)[-1].centre) for r in (before, after)]
        assert all(dist(a, b) < 2.0 for a, b in zip(*ends, strict=True))
    misfits = [
        f for f in touched(cop, made).new if f.code.startswith("row-") and f.code != "row-open"
    ]
    assert misfits == []


def test_the_joint_with_the_strap_keeps_it_and_its_place():
    cop = sample("elbow_cop")
    made = taken(space_row(cop, "right_row", count=9))
    row = next(s for s in pattern(made).seams if s.id == "right_row")
    assert row.joints[4] == "right_row_4"
    assert "strap_row" in pattern(made).joint("right_row_4").stack
    assert {"right_row_8", "right_row_9"} <= set(row.joints)
    assert len(set(row.joints)) == 9
    assert made.told == ("9 joints, 16.1 mm from hole to hole; 2 new and 0 gone.",)
    few = taken(space_row(made, "right_row", count=4))
    assert "right_row_4" in next(s for s in pattern(few).seams if s.id == "right_row").joints
    drawn = {hole.id for part in pattern(few).parts for hole in part.holes}
    named = {hole for joint in pattern(few).joints for hole in joint.stack}
    assert not any(hole.startswith(("right_", "middle_right_")) for hole in drawn - named)


def test_how_many_joints_a_spacing_asks_for():
    cop = sample("elbow_cop")
    gaps = spacing_of(cop, "left_row")
    assert count_at(gaps, 21.5) == 7
    assert count_at(gaps, 1000) == 2
    assert spacing_of(cop, "no_row") == ()
    assert "2 to 200 holes, not 1" in why(space_row(cop, "left_row", count=1))
    assert "no [seams.no_row]" in why(space_row(cop, "no_row", count=4))


def test_holes_along_an_edge_lie_as_far_inside_it_as_told():
    cop = sample("elbow_cop")
    part = pattern(cop).part("petal_middle")
    top, side = part.outline[0], (258.9, 118.0)
    made = taken(
        add_row(cop, "petal_middle", Along(top, side, 20.0), spacing_mm=12, diameter_mm=3)
    )
    new = [h for h in pattern(made).part("petal_middle").holes if h not in part.holes]
    from shapely import Point, Polygon

    edge = Polygon(part.outline).exterior
    assert all(edge.distance(Point(hole.centre)) == pytest.approx(20.0, abs=0.05) for hole in new)
    gaps = [dist(a.centre, b.centre) for a, b in pairwise(new)]
    assert max(gaps) == pytest.approx(12, abs=1)
    assert [hole.id for hole in new][:2] == ["petal_middle_1", "petal_middle_2"]
    assert dist(new[0].centre, top) < dist(new[-1].centre, top)
    narrow = add_row(cop, "boss", Along(top, side, 40.0), spacing_mm=12, diameter_mm=3)
    assert "too narrow" in why(narrow)
    ids = [hole.id for hole in new]
    fewer = taken(space_holes(made, ids, count=4))
    left = [h for h in pattern(fewer).part("petal_middle").holes if h not in part.holes]
    assert len(left) == 4
    assert {new[0].centre, new[-1].centre} <= {hole.centre for hole in left}
    more = taken(space_holes(fewer, [hole.id for hole in left], count=8))
    assert len(pattern(more).part("petal_middle").holes) == len(part.holes) + 8
    assert "is in a joint" in why(space_holes(cop, ["left_1", "left_2"], count=3))
