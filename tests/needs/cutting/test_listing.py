"""The cut list: lengths and areas by formula, minutes as the steps have them, what no laser cuts."""

from dataclasses import replace
from math import pi

import pytest
from needs.cutting.cutting_sketches import plate, scene

from armorplan.kernel.findings import Severity
from armorplan.needs.cutting.listing import cut_list
from armorplan.needs.cutting.model import Bed, CutAsked, Cutter
from armorplan.pattern.parts import Hole

BED = Bed(wide_mm=600.0, high_mm=400.0)


def listed(*parts, mirrored=False, tanning="vegetable", **asked):
    return cut_list(scene(*parts, mirrored=mirrored, tanning=tanning), CutAsked(**asked))


def test_lengths_and_areas_are_those_of_the_shapes():
    found = listed(replace(plate(), count=2), mirrored=True)
    (leather,) = found.leathers
    (row,) = leather.parts
    assert (row.sides, row.pieces, leather.pieces) == (("left", "right"), 4, 4)
    assert (row.area_dm2, row.outline_mm) == (pytest.approx(2.0), pytest.approx(600.0))
    assert (row.holes, row.holes_mm) == (1, pytest.approx(4 * pi))
    assert leather.cut_mm == pytest.approx(4 * (600 + 4 * pi))
    assert (leather.net_dm2, leather.buy_dm2) == (pytest.approx(8.0), pytest.approx(8.0 / 0.75))


def test_minutes_are_those_of_the_catalogue():
    (leather,) = listed(replace(plate(), count=2)).leathers
    (row,) = leather.parts
    # 2 to begin, 1 a part, 0.1 for each of 120 cm; half a minute for each of two holes.
    assert row.hand_min == pytest.approx(2 + 2 * 1 + 0.1 * 120 + 2 * 0.5)
    assert row.machine_min == pytest.approx(2 * (0.5 + 0.01 * (60 + 0.4 * pi)))
    assert leather.machine_min == 11  # 8 for one bed, 1.2 and 1 for both, rounded up


def test_each_bed_is_set_up():
    large = [replace(plate(f"plate{n}", 580.0, 380.0), backbone_deg=0.0) for n in range(3)]
    (leather,) = listed(*large, cutter=Cutter.LASER, bed=BED).leathers
    assert [bed.number for bed in leather.beds] == [1, 2, 3]
    parts = sum(part.machine_min for part in leather.parts)
    assert leather.machine_min == pytest.approx(parts + 3 * 8, abs=1)
    assert leather.beds[0].filled_pct == pytest.approx(100 * 580 * 380 / (600 * 400))


def test_a_part_larger_than_the_bed_is_told_with_both_sizes():
    found = listed(plate(), plate("wing", 700.0, 90.0), bed=BED)
    assert found.leathers[0].too_large == ("wing",)
    assert [blank.part for blank in found.leathers[0].beds[0].blanks] == ["plate"]
    (finding,) = found.findings
    assert (finding.code, finding.about) == ("larger-than-the-bed", ("wing",))
    assert "700 × 90 mm" in finding.text
    assert "600 × 400 mm" in finding.text


@pytest.mark.parametrize(
    ("tanning", "code", "severity"),
    [
        ("chrome", "not-for-the-laser", Severity.ERROR),
        ("coated", "not-for-the-laser", Severity.ERROR),
        ("plastic", "not-for-the-laser", Severity.ERROR),
        ("", "tanning-not-known", Severity.WARNING),
    ],
)
def test_a_laser_gets_only_what_is_known_to_be_vegetable_tanned(tanning, code, severity):
    found = listed(plate(), tanning=tanning, cutter=Cutter.LASER, bed=BED)
    (finding,) = found.findings
    assert (finding.code, finding.severity) == (code, severity)
    assert found.leathers[0].beds == ()
    table = listed(plate(), tanning=tanning, cutter=Cutter.KNIFE_TABLE, bed=BED)
    assert table.findings == ()
    assert len(table.leathers[0].beds) == 1


def test_the_cautions_are_those_of_what_cuts():
    laser = " ".join(listed(plate(), cutter=Cutter.LASER).cautions)
    for word in ("PVC", "chrom", "extraction", "extinguisher", "local codes"):
        assert word in laser
    assert "PVC" not in " ".join(listed(plate(), cutter=Cutter.HAND).cautions)


def test_a_kerf_widens_holes_and_the_path_makes_up_for_it():
    (leather,) = listed(plate(), plate("other"), kerf_mm=0.3).leathers
    (size,) = leather.holes
    assert (size.drawn_mm, size.count) == (4.0, 2)
    assert (size.plain_mm, size.path_mm) == (pytest.approx(4.3), pytest.approx(3.7))
    assert listed(plate()).leathers[0].holes == ()


def test_a_hole_no_wider_than_the_kerf_is_told():
    tiny = Hole(id="plate_hole", part="plate", centre=(10.0, 10.0), diameter_mm=0.5)
    found = listed(replace(plate(), holes=(tiny,)), kerf_mm=0.5)
    (finding,) = found.findings
    assert finding.code == "hole-no-wider-than-kerf"
    assert "1 of 0.5 mm" in finding.text
