"""Faults, and what only looks like one, in small patterns that say just that.

Checked against circle geometry: two 4 mm layers slide by d / R of their spacing, 4.2, 8.9 and 13 % at R
95, 45 and 30 mm. The limits of 5 and 10 % are common practice, no source.
"""

import pytest
from samples.small_patterns import (
    flared_lame,
    frustum_on_strap,
    row_along_the_axis,
    two_layers,
    two_rows,
)

from armorplan.geometry.placing import fit
from armorplan.geometry.stacks import POSTED
from armorplan.kernel.findings import Severity


def bend(found):
    (measure,) = [
        m for m in found.measures() if m.id.startswith("bends:") and m.id.endswith("outer:inner")
    ]
    return measure


def slide_pct(measure):
    (figure,) = [f for f in measure.figures if f.name == "slide per spacing"]
    return figure.value


def test_a_tight_cuff_is_bent_before_its_rivets(tmp_path):
    found = two_layers(radius_mm=30.0, angle_deg=120.0).read(tmp_path)
    finding = found.only("bend-before-rivets")
    assert finding.severity is Severity.WARNING
    assert slide_pct(bend(found)) == pytest.approx(100 * 4 / 30)
    assert "13 %" in finding.text
    assert "Bend first" in finding.remedy
    assert "8.4 mm in all" in finding.remedy  # 4 mm × 120° × π / 180
    assert {"outer", "inner", "across_1"} <= set(finding.about)


def test_a_wide_plate_is_riveted_flat_and_then_bent(tmp_path):
    found = two_layers(radius_mm=95.0, angle_deg=60.0).read(tmp_path)
    assert found.codes == []
    assert slide_pct(bend(found)) == pytest.approx(100 * 4 / 95)
    assert bend(found).verdict == "rivet flat, then bend"


def test_in_between_it_is_bent_damp_or_with_oval_holes(tmp_path):
    found = two_layers(radius_mm=45.0, angle_deg=120.0).read(tmp_path)
    finding = found.only("bend-damp-or-oval")
    assert slide_pct(bend(found)) == pytest.approx(100 * 4 / 45)
    assert "damp" in finding.remedy
    assert "oval" in finding.remedy


@pytest.mark.parametrize(("radius_mm", "angle_deg"), [(95.0, 60.0), (45.0, 120.0), (30.0, 180.0)])
def test_a_row_along_the_axis_is_riveted_flat_and_bent_after(tmp_path, radius_mm, angle_deg):
    """Common practice, no source: nothing slides along the axis of a bend."""
    found = row_along_the_axis(radius_mm=radius_mm, angle_deg=angle_deg).read(tmp_path)
    assert found.codes == []
    assert bend(found).verdict == "rivet flat, then bend"


def test_a_whole_row_moved_by_2_mm_is_to_move_back(tmp_path):
    finding = two_rows(shift_mm=2.0).read(tmp_path).only("rows-shifted")
    assert "2.0 mm" in finding.text
    assert "move the whole row 2.0 mm back on inner" in finding.remedy
    assert {"outer", "inner", "low_1", "low_5"} <= set(finding.about)


def test_rows_in_their_places_are_no_fault(tmp_path):
    assert two_rows(shift_mm=0.0).read(tmp_path).codes == []


def _laid(found, seam):
    (row,) = [each for each in found.pattern.seams if each.id == seam]
    stacks = [found.pattern.joint(joint) for joint in row.joints]
    assert all(joint.kind in POSTED for joint in stacks)
    outer, inner = zip(*(joint.stack for joint in stacks), strict=True)
    return fit(*([found.pattern.hole(h).centre for h in side] for side in (outer, inner)))


def test_a_flared_lame_that_curves_against_its_shell_is_not_called_turned(tmp_path):
    """Laid flat it fits better turned over, and yet it is sound: the seam draws it into its flare."""
    found = flared_lame(shell_mm=150.0, lame_mm=420.0, chord_mm=28.0).read(tmp_path)
    laid = _laid(found, "flare")
    assert laid.residual_mm > laid.mirrored_residual_mm > 1
    assert found.codes == []
    assert found.measure("rows:flare").verdict == "meet"


def test_a_flared_lame_with_a_hole_2_mm_off_is_told(tmp_path):
    """The curve hides no misfit: the same lame with one hole moved along its row."""
    work = flared_lame(shell_mm=150.0, lame_mm=420.0, chord_mm=28.0).moved("lame_4", dx=2.0)
    finding = work.read(tmp_path).only("hole-off-row")
    assert "'lame_4'" in finding.text
    assert "2.0 mm" in finding.text


def test_a_frustum_plate_on_a_straight_strap_is_no_misfit(tmp_path):
    found = frustum_on_strap(arc_mm=560.0, chord_mm=25.0).read(tmp_path)
    assert _laid(found, "edge").worst_mm > 1
    assert found.codes == []
    assert found.measure("rows:edge").verdict == "meet"
