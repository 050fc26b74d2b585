"""The generator of the arm harness: whatever the arm, its rows match and its layers nest.

Checked against solid geometry of cones (height 300, radii 90 and 60: slant 301.496 mm, arcs 904.489
and 602.993 mm, 35.8213°, area 142 076.77 mm²) and of circles: nested layers differ by the distance of
their middles × angle.
"""

import re
from dataclasses import replace
from functools import cache
from itertools import count, pairwise
from math import atan2, degrees, dist, pi, radians

import pytest
from samples import arm_harness_sample as sample
from samples.arm_harness_bends import bends, girths
from samples.arm_harness_measures import LAME_MM, PLATE_MM, WATCHMAN, Arm, Cone
from samples.planted import Work, arm_harness
from samples.shapes import sheet
from shapely import Polygon

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.kernel.shipped import samples_folder

PATTERN = read_pattern(read_folder(samples_folder() / "arm_harness"), read_shelf()).pattern
SLENDER = Arm(upper_girth_mm=310, above_elbow_mm=265, below_elbow_mm=295, wrist_girth_mm=210)
BROAD = Arm(
    upper_girth_mm=390,
    above_elbow_mm=330,
    below_elbow_mm=360,
    wrist_girth_mm=255,
    upper_length_mm=135,
    forearm_length_mm=205,
)
every_arm = pytest.mark.parametrize(
    "arm", [WATCHMAN, SLENDER, BROAD], ids=["own", "slim", "broad"]
)


@cache
def spots(arm):
    return {name: at for shape in sample.shapes(arm) for name, at, _ in shape.holes}


def test_a_cone_is_cut_flat_as_solid_geometry_has_it():
    cone = Cone(60.0, 90.0, 300.0)
    assert cone.slant_mm == pytest.approx(301.496, abs=0.001)
    apex = (0.0, 60.0 / cone.lean)
    assert dist(apex, cone.flat(0.0, 1.0)) == pytest.approx(602.993, abs=0.001)
    assert dist(apex, cone.flat(cone.slant_mm, 1.0)) == pytest.approx(904.489, abs=0.001)
    assert degrees(2 * pi * cone.lean) == pytest.approx(35.8213, abs=0.0001)
    turns = [radians(n / 10 - 180) for n in range(3601)]
    low = [cone.flat(0.0, turn) for turn in turns]
    high = [cone.flat(cone.slant_mm, turn) for turn in reversed(turns)]
    assert Polygon(low + high).area == pytest.approx(142_076.77, abs=0.5)


SEAMS = {seam.id: seam for seam in PATTERN.seams}
TRIMS = ("upper_trim_row", "wrist_trim_row")
WIDER = (*TRIMS, *(f"{name}_tab_row" for name in ("high", "low", "fore", "wrist")))
"""Rows whose outer layer is made wider for the bend."""


def _spans(arm, seam):
    at = spots(arm)
    rows = [PATTERN.joint(joint).stack for joint in SEAMS[seam].joints]
    for here, beyond in pairwise(rows):
        yield [dist(at[a], at[b]) for a, b in zip(here, beyond, strict=True)]


@every_arm
@pytest.mark.parametrize("seam", [row for row in SEAMS if row not in WIDER])
def test_rows_match_whatever_the_arm(arm, seam):
    for spans in _spans(arm, seam):
        assert max(spans) - min(spans) < 0.1
        assert 19.99 <= spans[0] <= 30.01


@every_arm
@pytest.mark.parametrize("row", TRIMS)
def test_a_trim_is_longer_than_its_edge_by_distance_times_angle(arm, row):
    """Both rows turn round the limb by the same angle: the outer one is longer by d × θ."""
    cone = arm.upper_cone if row == "upper_trim_row" else arm.lower_cone
    first, *_, last = SEAMS[row].joints
    at = spots(arm)
    ends = [at[PATTERN.joint(joint).stack[1]] for joint in (first, last)]
    apex_y = cone.low_mm / cone.lean  # in the plate's own millimetres, its apex below it
    turn = sum(atan2(abs(x), apex_y - y) for x, y in ends) / cone.lean
    sums = [sum(column) for column in zip(*_spans(arm, row), strict=True)]
    apart_mm = (PLATE_MM + PATTERN.part(row.removesuffix("_row")).thickness_mm) / 2
    assert sums[0] - sums[1] == pytest.approx(apart_mm * turn, rel=0.02)


@every_arm
def test_each_layer_of_the_elbow_is_longer_by_its_half_turn(arm):
    at = spots(arm)
    names = {
        "upper_plate": "upper_pivot", "top_lame": "top_lame_out", "second_lame": "second_lame_out",
        "third_lame": "third_lame_out", "cop": "cop_lower", "lower_lame": "lower_lame_out",
    }  # fmt: skip
    span = {part: dist(at[f"{pivot}_far"], at[f"{pivot}_near"]) for part, pivot in names.items()}
    for inner, outer in pairwise(["top_lame", "second_lame", "third_lame", "cop"]):
        assert span[outer] - span[inner] == pytest.approx(pi * LAME_MM, abs=0.1)
    assert span["cop"] - span["lower_lame"] == pytest.approx(pi * LAME_MM, abs=0.1)
    step = pi * (LAME_MM + PLATE_MM) / 2
    assert span["top_lame"] - span["upper_plate"] == pytest.approx(step, abs=1.0)


def spread(arm):
    """Return the sheet of an arm with its parts far from each other."""
    places = ((350.0 + 500 * (n % 6), 350.0 + 500 * (n // 6)) for n in count())
    laid = [replace(shape, at=at) for shape, at in zip(sample.shapes(arm), places, strict=False)]
    return sheet(laid, title="Arm harness", width_mm=3200, height_mm=3200)


@every_arm
def test_drawing_and_text_for_any_arm_are_sound(arm, tmp_path):
    """The whole check is silent on the harness of an arm as its measures ask for it."""
    text = arm_harness().text
    for form, (radius_mm, angle_deg) in bends(arm).items():
        table = re.search(rf"\[forms\.{form}\]\n(?:[^\[\n].*\n)+", text)[0]
        new = re.sub(r"radius_mm = .*", f"radius_mm = {radius_mm:.1f}", table)
        text = text.replace(table, re.sub(r"angle_deg = .*", f"angle_deg = {angle_deg}", new))
    for place, (least, most) in girths(arm).items():
        table = re.search(rf"\[strap_places\.{place}\]\n(?:[^\[\n].*\n)+", text)[0]
        text = text.replace(
            table, re.sub(r"girth_mm = .*", f"girth_mm = [{least:g}, {most:g}]", table)
        )
    assert Work(text, spread(arm)).read(tmp_path).findings == ()
