"""What of a DXF is read, and how it is told what is not. The files are written by ezdxf."""

import io
from math import pi

import ezdxf
import pytest
import shapely
from files.loose.messy import as_dxf, differences, lantern_plates, plain, seeded
from files.loose.reading_kit import fault, loose

from armorplan.geometry.brought.sorting import sorted_out
from armorplan.kernel.errors import UnreadableError

VERSIONS = ("R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018")


def document(version="R2010", units=4):
    made = ezdxf.new(version)
    made.header["$INSUNITS"] = units
    return made, made.modelspace()


def written(made):
    stream = io.StringIO()
    made.write(stream)
    return stream.getvalue().encode()


def read(folder, made, **more):
    return loose(folder, written(made), name="watch.dxf", **more)


@pytest.mark.parametrize("version", VERSIONS)
def test_every_version_as_text_and_binary(tmp_path, version):
    plates = lantern_plates(seeded(4), 2)
    for binary in (False, True):
        data = as_dxf(plain(plates), version=version, binary=binary)
        found = loose(tmp_path, data, name="watch.dxf")
        # ``as_dxf`` writes y up the page, the reader turns it down again.
        assert not differences(sorted_out(found, mm_each=1.0), plates)


def test_y_runs_down(tmp_path):
    made, space = document()
    space.add_line((0, 0), (10, 90))
    (stroke,) = read(tmp_path, made).strokes
    assert stroke.points == ((0.0, 0.0), (10.0, -90.0))


def test_blocks_nested_in_arrays_turned_and_mirrored(tmp_path):
    made, space = document()
    hole = made.blocks.new("hole")
    hole.add_circle((1, 0), 2)
    pair = made.blocks.new("pair")
    pair.add_blockref("hole", (0, 0))
    pair.add_blockref("hole", (10, 0), dxfattribs={"xscale": -1})
    space.add_blockref("pair", (100, 0), dxfattribs={"rotation": 90})
    rows = {"column_count": 3, "column_spacing": 20, "row_count": 2, "row_spacing": 30}
    space.add_blockref("hole", (200, 0), dxfattribs=rows)
    found = read(tmp_path, made).strokes
    centres = sorted((round(x, 6), round(y, 6)) for x, y in (s.circle[0] for s in found))
    assert centres == sorted(
        [(100.0, -1.0), (100.0, -9.0)]
        + [(201.0 + 20 * a, -30.0 * b) for a in range(3) for b in range(2)]
    )
    assert {s.group for s in found} == {"hole"}
    assert len({s.key for s in found}) == 8


def test_a_block_scaled_unevenly_makes_ovals(tmp_path):
    made, space = document()
    made.blocks.new("hole").add_circle((0, 0), 2)
    space.add_blockref("hole", (0, 0), dxfattribs={"xscale": 5, "yscale": 2})
    (stroke,) = read(tmp_path, made).strokes
    assert stroke.circle is None
    assert shapely.Polygon(stroke.points).area == pytest.approx(pi * 10 * 4, rel=0.02)


def test_what_is_drawn_from_behind_is_mirrored(tmp_path):
    made, space = document()
    space.add_circle((5, 7), 2, dxfattribs={"extrusion": (0, 0, -1)})
    space.add_lwpolyline([(1, 0), (9, 0), (9, 5)], dxfattribs={"extrusion": (0, 0, -1)})
    circle, line = read(tmp_path, made).strokes
    assert circle.circle == (pytest.approx((-5.0, -7.0)), 4.0)
    assert line.points[0] == pytest.approx((-1.0, 0.0))


def test_layers_colours_and_what_is_off(tmp_path):
    made, space = document()
    made.layers.add("Gravur äöü", color=1)
    made.layers.add("off", color=2).off()
    made.layers.add("frozen").freeze()
    for looks in (
        {"layer": "Gravur äöü"},
        {"layer": "Gravur äöü", "color": 5},
        {"layer": "切る", "true_color": 0x123456},
        {"layer": "off"},
        {"layer": "frozen"},
        {"invisible": 1},
    ):
        space.add_line((0, 0), (100, 0), dxfattribs=looks)
    found = read(tmp_path, made)
    assert [(s.layer, s.colour) for s in found.strokes] == [
        ("Gravur äöü", "#ff0000"),
        ("Gravur äöü", "#0000ff"),
        ("切る", "#123456"),
    ]
    (told,) = [f for f in found.findings if f.code == "hidden"]
    assert sum("Not read." in f.text for f in found.findings) >= 1
    assert told.remedy


def test_texts(tmp_path):
    made, space = document()
    space.add_line((0, 0), (100, 0))
    space.add_text("top lame", height=5, dxfattribs={"insert": (10, 20)})
    space.add_text("cop", height=4).set_placement((30, 40), align=_middle())
    space.add_mtext(r"{\H3;left\Prim}", dxfattribs={"insert": (1, 2), "char_height": 3})
    made.blocks.new("plate").add_attdef("NAME", (0, 0))
    put = space.add_blockref("plate", (50, 0))
    put.add_attrib("NAME", "wing", (51, 1))
    found = read(tmp_path, made)
    assert {(t.text, t.at, t.height) for t in found.lettering} == {
        ("top lame", (10.0, -20.0), 5.0),
        ("cop", (30.0, -40.0), 4.0),
        ("left rim", (1.0, -2.0), 3.0),
        ("wing", (51.0, -1.0), 2.5),
    }


def _middle():
    from ezdxf.enums import TextEntityAlignment

    return TextEntityAlignment.MIDDLE


def test_blocks_that_cannot_be_put(tmp_path):
    made, space = document()
    space.add_line((0, 0), (100, 0))
    one, other = made.blocks.new("one"), made.blocks.new("other")
    one.add_blockref("other", (0, 0))
    other.add_blockref("one", (0, 0))
    other.add_circle((0, 0), 3)
    space.add_blockref("one", (0, 0))
    space.add_blockref("nowhere", (0, 0))
    made.add_xref_def("outside.dxf", "outside")
    space.add_blockref("outside", (0, 0))
    found = read(tmp_path, made)
    assert len(found.strokes) == 2
    assert {f.code for f in found.findings} == {
        "block-in-itself", "missing-block", "outside-file",
    }  # fmt: skip


def test_what_is_no_line_is_counted(tmp_path):
    made, space = document()
    space.add_line((0, 0), (100, 0))
    space.add_solid([(0, 0), (1, 0), (1, 1)])
    space.add_point((1, 1))
    hatch = space.add_hatch()
    hatch.paths.add_polyline_path([(0, 0), (1, 0), (1, 1)])
    found = read(tmp_path, made)
    assert sorted(f.text.split()[0] for f in found.findings) == ["HATCH", "POINT", "SOLID"]


def test_numbers_that_are_none(tmp_path):
    made, space = document()
    space.add_line((0, 0), (100, 0))
    space.add_line((float("nan"), 0), (100, 0))
    space.add_circle((0, 0), float("inf"))
    space.add_lwpolyline([(0, 0), (1e300, 5), (4, 4)])
    found = read(tmp_path, made)
    assert len(found.strokes) == 1
    assert len(found.findings) == 3


def test_only_a_page_of_paper_is_drawn_on(tmp_path):
    made, _ = document()
    made.layout("Layout1").add_circle((0, 0), 30)
    assert len(read(tmp_path, made).strokes) == 1


def test_a_damaged_file_is_recovered(tmp_path):
    whole = as_dxf(plain(lantern_plates(seeded(4), 2))).decode()
    at = whole.index("ENTITIES")
    # The tables are lost, and the end is cut off within an entity.
    cut = "  0\nSECTION\n  2\n" + whole[at : at + int((len(whole) - at) * 0.6)]
    assert len(loose(tmp_path, cut.encode(), name="watch.dxf").strokes) > 5


@pytest.mark.parametrize("wrong", ["7.1x", "7,125"])
def test_a_damaged_number_is_told(tmp_path, wrong):
    made, space = document()
    space.add_line((7.125, 3), (50, 60))
    data = written(made).replace(b"7.125", wrong.encode())
    (finding,) = loose(tmp_path, data, name="watch.dxf").findings
    assert finding.code == "damaged-number"
    assert f'1 number is damaged, the first "{wrong}" near line' in finding.text


def test_what_is_no_number_at_all_is_told_with_its_line(tmp_path):
    made, space = document()
    space.add_line((7.125, 3), (50, 60))
    with pytest.raises(UnreadableError) as error:
        loose(tmp_path, written(made).replace(b"7.125", b"xx"), name="watch.dxf")
    assert "a number near line" in fault(error).text


def test_a_circle_in_a_block_stretched_to_an_ellipse_keeps_its_area(tmp_path):
    """The second opinion: the formula of an ellipse, pi times both halves."""
    made, space = document()
    made.blocks.new("stud").add_circle((0, 0), 2)
    space.add_blockref("stud", (30, 30), dxfattribs={"xscale": 1, "yscale": 2})
    (stroke,) = read(tmp_path, made).strokes
    assert shapely.Polygon(stroke.points).area == pytest.approx(pi * 2 * 4, rel=1e-3)


def test_nothing_but_what_is_no_line(tmp_path):
    made, space = document()
    space.add_solid([(0, 0), (1, 0), (1, 1)])
    with pytest.raises(UnreadableError) as error:
        read(tmp_path, made)
    found = fault(error)
    assert "SOLID entities" in found.text
    assert "Explode" in found.remedy
