"""Straps across the backbone, tooling on the hidden side."""

from dataclasses import replace

import pytest

from armorplan.geometry.backbone import lay_findings, long_side_deg
from armorplan.pattern.parts import PartKind
from armorplan.rules.sketches import sketch, sketch_part

PLATE = sketch_part("plate")
STRAP = replace(sketch_part("strap", kind=PartKind.STRAP))


def found(part):
    return [f.code for f in lay_findings(sketch(part))]


@pytest.mark.parametrize(("backbone_deg", "noted"), [(0, False), (30, False), (31, True),
    (90, True), (149, True), (150, False), (180, False), (270, True)])  # fmt: skip
def test_a_strap_lies_along_the_backbone(backbone_deg, noted):
    assert bool(found(replace(STRAP, backbone_deg=float(backbone_deg)))) is noted


def test_only_straps_and_only_where_the_backbone_is_said():
    assert found(STRAP) == []
    assert found(replace(PLATE, backbone_deg=90.0)) == []


def test_the_long_side_counts_up_the_page():
    # y runs down the drawing: this outline rises to the right.
    rising = ((0.0, 0.0), (100.0, -100.0), (107.0, -93.0), (7.0, 7.0))
    assert long_side_deg(replace(STRAP, outline=rising)) == pytest.approx(45.0)
    assert long_side_deg(STRAP) == pytest.approx(0.0)
    square = ((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0))
    assert long_side_deg(replace(STRAP, outline=square)) is None
    assert long_side_deg(replace(STRAP, outline=((0.0, 0.0), (40.0, 0.0)))) is None


@pytest.mark.parametrize("grain_out", [True, False])
def test_tooling_that_nobody_sees(grain_out):
    codes = found(replace(PLATE, tooling="rope", grain_out=grain_out))
    assert codes == ([] if grain_out else ["tooling-faces-inward"])
