"""Faults planted into the arm harness: each is found, nothing else is, and the mend is the right one.

The numbers are those planted. Checked against the outside: a pivot 4 mm off on a 174 mm span is
atan(4 / 174.4) = 1.3° off square, and shows in the span by 0.05 mm only (plane geometry); an edge takes
two hole diameters and 1.5 stacks at least (FAA AC 43.13-1B, par. 4-57 and 4-58; common practice); a
copper rivet takes grip + burr + 1.5 shanks (NAVEDTRA 14018, manual title from memory).
"""

import re
from math import atan2, degrees, dist, hypot

import pytest
from samples.planted import arm_harness

from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.marks import MarkKind
from armorplan.kernel.findings import Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.practice.ordering import Exercise, judge
from armorplan.workshop.shop import one_maker

SOUND = arm_harness()


@pytest.fixture(scope="module")
def sound(tmp_path_factory):
    return SOUND.read(tmp_path_factory.mktemp("sound"))


@pytest.fixture(scope="module")
def along(sound):
    """Return how far right and down a move of some mm from one hole towards another goes."""

    def step(here, there, mm):
        (x0, y0), (x1, y1) = (sound.pattern.hole(hole).centre for hole in (here, there))
        size = hypot(x1 - x0, y1 - y0)
        return {"dx": mm * (x1 - x0) / size, "dy": mm * (y1 - y0) / size}

    return step


def test_nothing_is_found_before_a_fault_is_planted(sound):
    assert sound.findings == ()
    assert all(measure.severity is None for measure in sound.measures())


@pytest.mark.parametrize(
    ("row", "hole", "towards", "back"),
    [
        ("lower_far_rib", "lower_plate_rib_far_2", "lower_plate_rib_far_3", "lower_plate_rib_far_1"),
        ("wrist_hinge_outer", "outer_wrist_hinge_2", "outer_wrist_hinge_3", "outer_wrist_hinge_1"),
    ],
)  # fmt: skip
def test_a_hole_moved_by_2_mm_is_to_move_back(tmp_path, along, row, hole, towards, back):
    found = SOUND.moved(hole, **along(hole, towards, 2.0)).read(tmp_path)
    finding = found.only("hole-off-row")
    assert finding.severity is Severity.ERROR
    assert {row, hole} <= set(finding.about)
    assert f"'{hole}'" in finding.text
    assert f"2.0 mm too far towards '{towards}'" in finding.text
    assert f"move it 2.0 mm towards '{back}'" in finding.remedy
    assert "oval" in finding.remedy


@pytest.mark.parametrize(
    "hole", ["outer_wrist_hinge_3", "inner_fore_hinge_1", "fore_hinge_outer_1"]
)
def test_a_hole_at_the_end_of_a_hinge_row_is_told_once(tmp_path, along, hole):
    """Round the two plates and the two hinges nothing else is told of it."""
    middle = f"{hole[:-1]}2"
    finding = SOUND.moved(hole, **along(hole, middle, 2.0)).read(tmp_path).only("hole-off-row")
    assert f"Hole '{hole}'" in finding.text
    assert f"move it 2.0 mm away from '{middle}'" in finding.remedy


def test_it_is_told_in_a_row_that_is_made_wider_for_the_bend_too(tmp_path, along):
    """The trim lies 3.2 mm further out at R 43: a move of 2 mm under it looks like 2.15 mm to it."""
    found = SOUND.moved("wrist_edge_3", **along("wrist_edge_3", "wrist_edge_4", 2.0)).read(
        tmp_path
    )
    finding = found.only("hole-off-row")
    (told,) = re.findall(r"lies ([\d.]+) mm too far towards 'wrist_edge_4'", finding.text)
    assert float(told) == pytest.approx(2.0 * (1 + 3.2 / 43), abs=0.2)
    assert "towards 'wrist_edge_2'" in finding.remedy


def test_the_picture_of_it_has_an_arrow_to_where_the_hole_belongs(tmp_path, along, sound):
    hole = "lower_plate_rib_far_2"
    found = SOUND.moved(hole, **along(hole, "lower_plate_rib_far_3", 2.0)).read(tmp_path)
    (measure,) = [m for m in found.measures() if m.severity is Severity.ERROR]
    moves = [mark for mark in measure.marks if mark.kind is MarkKind.MOVE]
    (arrow,) = [mark for mark in moves if mark.part == "lower_plate"]
    start, end = arrow.spots
    assert start == pytest.approx(found.pattern.hole(hole).centre, abs=0.05)
    assert end == pytest.approx(sound.pattern.hole(hole).centre, abs=0.15)
    assert arrow.label == "2.0 mm"


def _uneven(along):
    """Move the same hole of rib and plate by 5 mm: unequal spacings that still match."""
    plate = along("lower_plate_rib_far_2", "lower_plate_rib_far_3", 5.0)
    return SOUND.moved("lower_rib_far_2", dy=-5.0).moved("lower_plate_rib_far_2", **plate)


def test_unequal_spacings_that_match_are_no_fault(tmp_path, along):
    assert _uneven(along).read(tmp_path).codes == []


def test_a_part_counted_from_its_other_end_is_told_by_unequal_spacings(tmp_path, along):
    found = _uneven(along).renumbered("lower_rib_far", 4).read(tmp_path)
    finding = found.only("row-other-way")
    assert finding.severity is Severity.ERROR
    assert "22.0 | 17.0 | 27.0 mm on far forearm rib" in finding.text
    assert "27.0 | 17.0 | 22.0 mm on outer forearm plate" in finding.text
    assert {"lower_far_rib", "lower_rib_far", "lower_plate"} <= set(finding.about)
    assert "from the other end" in finding.remedy


def test_a_trim_cut_turned_over_is_told_by_unequal_spacings(tmp_path, along):
    work = SOUND.moved("upper_edge_3", **along("upper_edge_3", "upper_edge_4", 4.0))
    work = work.moved("upper_trim_3", **along("upper_trim_3", "upper_trim_4", 4.2))
    (tmp_path / "matching").mkdir()
    assert work.read(tmp_path / "matching").codes == []
    turned = work.mirrored("upper_trim", about_x=125.0).renumbered("upper_trim", 9)
    finding = turned.read(tmp_path).only("row-other-way")
    assert {"upper_trim_row", "upper_trim", "upper_plate"} <= set(finding.about)
    assert "Mirror" in finding.remedy


def test_equal_spacings_do_not_tell_a_turned_trim_and_say_so(tmp_path):
    turned = SOUND.mirrored("upper_trim", about_x=125.0).renumbered("upper_trim", 9)
    found = turned.read(tmp_path)
    assert found.codes == []
    assert "cannot tell" in found.measure("rows:upper_trim_row").text


@pytest.mark.parametrize(("part", "about_x"), [("top_lame", 433.0), ("cop", 433.0)])
def test_a_lame_turned_over_is_told_at_its_pivots(tmp_path, part, about_x):
    """Its two pivots change places, and with their holes it would hang upside down."""
    found = SOUND.mirrored(part, about_x=about_x).read(tmp_path)
    told = [finding for finding in found.findings if finding.code == "sides-disagree"]
    assert told
    assert all(part in finding.about for finding in told)
    name = found.pattern.part(part).name
    assert all(f"Mirror {name} in the drawing" in finding.remedy for finding in told)
    assert set(found.codes) == {"sides-disagree"}, "what follows from it is not told beside it"


def test_lames_in_each_others_places_are_told_by_their_fit(tmp_path):
    found = SOUND.swapped("second_lame", "third_lame").read(tmp_path)
    finding = found.only("lames-swapped")
    assert {"second_lame", "third_lame"} <= set(finding.about)
    assert "Swap them" in finding.remedy
    assert "nearer the cop" in finding.remedy


def test_a_pivot_4_mm_off_its_axis_is_told_as_an_angle(tmp_path):
    hole, other = "second_lame_out_near", "second_lame_out_far"
    found = SOUND.moved(hole, dy=4.0).read(tmp_path)
    finding = found.only("pivot-off-axis")
    span_mm = dist(*(found.pattern.hole(each).centre for each in (hole, other)))
    assert span_mm - (span_mm**2 - 16) ** 0.5 == pytest.approx(0.05, abs=0.01)
    assert f"{degrees(atan2(4, (span_mm**2 - 16) ** 0.5)):.1f}° off square" in finding.text
    assert f"'{hole}' of the second lame lies 4.0 mm off the axis" in finding.text
    assert f"Move '{hole}' 4.0 mm up the limb" in finding.remedy
    assert {"second_lame", hole} <= set(finding.about)


def test_soft_leather_forgives_a_pivot_2_mm_off(tmp_path):
    """Common practice, no source: soft leather forgives 2 to 3 mm."""
    assert SOUND.moved("second_lame_out_near", dy=2.0).read(tmp_path).codes == []


def test_a_hole_4_mm_from_an_edge_is_told_with_what_it_lacks(tmp_path, along):
    plate = along("upper_plate_rib_far_3", "upper_plate_rib_far_4", 6.0)
    work = SOUND.moved("upper_rib_far_4", dy=-6.0).moved("upper_plate_rib_far_4", **plate)
    finding = work.read(tmp_path).only("hole-near-edge")
    least_mm = 8.0
    assert finding.text == (
        "Hole 'upper_rib_far_4' in far rib lies 4.0 mm from the nearest edge; "
        f"{least_mm:.1f} mm is the least: what a stack of 6.4 mm asks for."
    )
    assert f"Move it {least_mm - 4.0:.1f} mm inward" in finding.remedy
    assert set(finding.about) == {"upper_rib_far", "upper_rib_far_4"}


@pytest.mark.parametrize(
    ("joint", "kind", "short", "holds"),
    [
        ("hang_1", "rivet", 12.7, 15.9),
        ("boss_far", "rivet", 6, 8),
        ("high_tab_1", "rivet", 7.9, 9.5),
        ("top_near", "screw", 6.4, 8),
        ("leather_plate", "screw", 5, 6),
    ],
)
def test_a_post_one_size_short_is_told_with_the_one_that_holds(
    tmp_path, joint, kind, short, holds
):
    head = f'[joints.{joint}]\nkind = "{kind}"\n'
    found = SOUND.worded(head, f"{head}post_mm = {short}\n").read(tmp_path)
    finding = found.only("post-too-short")
    assert finding.about == (joint,)
    assert f"the {short:g} mm post is" in finding.text
    assert f"Take the {holds:g} mm post" in finding.remedy


def test_a_trim_set_before_what_it_hides_is_answered_with_the_head_it_hides():
    derived = derive_folder(samples_folder() / "arm_harness", read_shelf(), one_maker("UTC"))
    setting = {
        name: derived.work.setting(f"{name}.left").id
        for name in ("leather_cop", "boss_far", "boss_near")
    }
    order = [step for step in derived.order if step != setting["leather_cop"]]
    last = max(order.index(setting[name]) for name in ("boss_far", "boss_near"))
    order.insert(last + 1, setting["leather_cop"])
    judged = judge(
        Exercise(shown=derived.order),
        order,
        derived.relations,
        name=lambda step: derived.work.step(step).title,
    )
    assert not judged.right
    assert judged.first_break.relation.reason.rule == "hidden-before-cover"
    assert judged.first_break.relation.first == setting["leather_cop"]
    assert "Lantern boss (left) lies on the head" in judged.sentence
    assert "no setter reaches that head" in judged.sentence
    assert len(judged.verdict.breaks) == 1
    assert judged.repair.moved
