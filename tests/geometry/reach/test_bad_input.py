"""What cannot be right in a pattern is told once, with how to mend it, and the rest is reckoned."""

from dataclasses import replace

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.measuring import reach_measures
from armorplan.geometry.reach.strays import put_right, strays_of
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.joining import Seam
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet

SHELF = read_shelf()


@pytest.fixture(scope="module")
def cop():
    return read_pattern(read_folder(samples_folder() / "elbow_cop"), SHELF).pattern


def findings(pattern, shelf=SHELF):
    return [each for m in reach_measures(pattern, shelf) for each in m.findings]


def moved(pattern, joints, *, into, at):
    """Return a pattern with joints taken out of their seam and listed by another, from a place on."""
    seams = []
    for seam in pattern.seams:
        kept = [joint for joint in seam.joints if joint not in joints]
        if seam.id == into:
            kept[at:at] = joints
        seams.append(replace(seam, joints=tuple(kept)))
    return replace(pattern, seams=tuple(seams))


def test_three_edges_in_one_seam_are_told_with_the_row_the_joints_belong_to(cop):
    wrong = moved(cop, ["right_row_1", "right_row_2"], into="left_row", at=0)
    (finding,) = findings(wrong)
    assert finding.code == "seam-three-edges"
    assert finding.text.startswith(
        "Left row joins three edges: numbers 1 and 2 right petal, numbers 3 to 9 left petal. "
        "Do 'right_row_1' and 'right_row_2' belong to right row?"
    )
    assert "[seams.left_row]" in finding.remedy
    assert "[seams.right_row]" in finding.remedy


@pytest.mark.parametrize(
    ("joints", "at"),
    [
        (["right_row_1", "right_row_2"], 0),
        (["right_row_2", "right_row_1"], 0),
        (["right_row_7"], 7),
        (["right_row_6", "right_row_7"], 3),
    ],
)
def test_what_is_listed_in_the_wrong_seam_is_reckoned_in_its_row(cop, joints, at):
    wrong = moved(cop, joints, into="left_row", at=at)
    right, found = reach_of(cop, SHELF), reach_of(wrong, SHELF)
    assert found.net == right.net
    assert found.bars == right.bars
    assert found.runs == right.runs


def test_a_row_that_goes_on_over_the_next_plate_is_no_fault():
    """The top row holds the upper lame with three rivets and the lower with one; the lower has a row

    of its own at its other edge. The one rivet lies with the top row, not with that.
    """
    tops, lows = [(20.0 + 20.0 * n, 8.0) for n in range(4)], [(80.0, 60.0), (100.0, 60.0)]
    long = {f"l{n}": spot for n, spot in enumerate([*tops, *lows])}
    upper = {f"u{n}": spot for n, spot in enumerate(tops[:3])}
    lower = {f"w{n}": spot for n, spot in enumerate([tops[3], *lows])}
    held = [*upper, *lower]
    pattern = sketch(
        sketch_part("long", holes=long),
        sketch_part("upper", holes=upper),
        sketch_part("lower", holes=lower),
        joints=tuple(sketch_rivet(f"j{n}", f"l{n}", hole) for n, hole in enumerate(held)),
        seams=(
            Seam(id="top", name="top row", joints=("j0", "j1", "j2", "j3")),
            Seam(id="low", name="low row", joints=("j4", "j5")),
        ),
    )
    assert not list(strays_of(pattern))


def test_the_samples_list_no_stray_joint(cop):
    names = ("collar", "three_lames", "arm_harness")
    others = [read_pattern(read_folder(samples_folder() / name), SHELF).pattern for name in names]
    for pattern in (cop, *others):
        assert not list(strays_of(pattern))
        assert put_right(pattern) is pattern
