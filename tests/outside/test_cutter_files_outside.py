"""Drawings for the cutter, read by libraries of others: svgelements reads the SVG, ezdxf the DXF.

What is held is areas by formula, the layers, and lengths in mm.
"""

from dataclasses import replace
from io import StringIO
from math import pi

import ezdxf
import pytest
from ezdxf import units
from needs.cutting.cutting_sketches import plate, scene
from shapely import Polygon
from svgelements import SVG, Circle, Group, Text
from svgelements import Polygon as Corners

from armorplan.needs.cutting.blanks import cut_shape
from armorplan.needs.cutting.listing import cut_list
from armorplan.needs.cutting.model import Bed, CutAsked, Cutter, CutterBed
from armorplan.pattern.parts import Slot
from armorplan.sheets.cut_dxf import cut_dxf
from armorplan.sheets.cut_svg import cut_svg

PPI_MM = 25.4
"""svgelements counts in pixels of this many an inch: 25.4 makes its unit the mm."""
NAME = "Wing <of> the & lantern"
SLOT = Slot(
    id="s",
    part="plate",
    outline=((50.0, 50.0), (70.0, 50.0), (70.0, 54.0), (50.0, 54.0)),
    length_mm=20.0,
    width_mm=4.0,
)


@pytest.fixture(scope="module")
def bed() -> CutterBed:
    """A bed of 600 × 400 mm with the left and right of one plate."""
    cut = scene(replace(plate(), name=NAME, slots=(SLOT,)), mirrored=True)
    size = Bed(wide_mm=600.0, high_mm=400.0)
    found = cut_list(cut, CutAsked(cutter=Cutter.LASER, bed=size))
    return CutterBed(
        key="cop-1",
        pattern="Cop",
        title=f"{NAME}, bed 1",
        wide_mm=600.0,
        high_mm=400.0,
        shapes=tuple(cut_shape(cut, blank) for blank in found.leathers[0].beds[0].blanks),
    )


def layers(bed: CutterBed) -> dict:
    read = SVG.parse(StringIO(cut_svg(bed).decode()), ppi=PPI_MM)
    assert (read.width, read.height) == pytest.approx((600.0, 400.0), rel=1e-6)
    return {group.id: list(group.select()) for group in read if isinstance(group, Group)}


def test_svg_areas_are_those_of_the_parts_in_mm(bed):
    found = layers(bed)
    outlines = [one for one in found["layer_2_outline"] if isinstance(one, Corners)]
    assert [Polygon([(p.x, p.y) for p in one]).area for one in outlines] == pytest.approx(
        [200.0 * 100.0] * 2, abs=1.0
    )
    circles = [one for one in found["layer_1_inside"] if isinstance(one, Circle)]
    assert [one.rx for one in circles] == pytest.approx([2.0, 2.0])
    slots = [one for one in found["layer_1_inside"] if isinstance(one, Corners)]
    assert [Polygon([(p.x, p.y) for p in one]).area for one in slots] == pytest.approx(
        [80.0] * 2, rel=1e-5
    )


def test_svg_names_are_text_and_never_cut(bed):
    found = layers(bed)
    texts = [one.text for one in found["layer_3_guide"] if isinstance(one, Text)]
    assert sorted(texts) == [f"{NAME} (left)", f"{NAME} (right)"]
    assert not any(
        isinstance(one, Text)
        for name in ("layer_1_inside", "layer_2_outline")
        for one in found[name]
    )


def test_dxf_areas_are_those_of_the_parts_in_mm(bed):
    read = ezdxf.read(StringIO(cut_dxf(bed).decode()))
    assert read.header["$INSUNITS"] == units.MM
    assert not read.audit().has_errors
    rings = {
        layer: [
            Polygon([(x, y) for x, y, *_ in line.get_points()])
            for line in read.modelspace().query(f'LWPOLYLINE[layer=="{layer}"]')
            if line.closed
        ]
        for layer in ("1_inside", "2_outline")
    }
    assert [ring.area for ring in rings["2_outline"]] == pytest.approx([20_000.0] * 2)
    assert [ring.area for ring in rings["1_inside"]] == pytest.approx([80.0] * 2, rel=1e-5)
    circles = read.modelspace().query('CIRCLE[layer=="1_inside"]')
    assert sum(pi * one.dxf.radius**2 for one in circles) == pytest.approx(2 * pi * 4)
    # y runs up there: what lies at the top of the bed lies high.
    top = max(ring.bounds[3] for ring in rings["2_outline"])
    assert top == pytest.approx(400.0 - 5.0)


def test_both_drawings_lay_the_parts_alike(bed):
    read = ezdxf.read(StringIO(cut_dxf(bed).decode()))
    dxf = sorted(
        (round(one.dxf.center.x, 2), round(400.0 - one.dxf.center.y, 2))
        for one in read.modelspace().query("CIRCLE")
    )
    svg = sorted(
        (round(float(one.cx), 2), round(float(one.cy), 2))
        for one in layers(bed)["layer_1_inside"]
        if isinstance(one, Circle)
    )
    assert dxf == svg
