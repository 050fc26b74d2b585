"""Numbers, standings and pictures of the page of shapes in words; which measure speaks of what."""

from dataclasses import replace
from math import pi

import pytest
from desktop.fake_shapes import (
    BEND,
    GAPS,
    LAMES,
    MOVED,
    ROWS_OUT,
    SLIDE,
    SPACING,
    STACK,
    some_shapes,
)

from armorplan.app.rows import Selection
from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.shapes_bending import face, formed_size, outlines, radii, slide_mm, spot_at
from armorplan.desktop.shapes_choice import about, matching, of_finding
from armorplan.desktop.shapes_html import HEADS, shape_html
from armorplan.desktop.shapes_picture_words import picture_words
from armorplan.desktop.shapes_words import (
    counted,
    counted_short,
    figure_text,
    number_text,
    spoken,
    standing_of,
    topic_title,
)
from armorplan.geometry.pictures import RowsPicture
from armorplan.geometry.ways_in import Getting, ReachPicture, Section
from armorplan.kernel.figures import Figure


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (4.2, "4.2"),
        (0.06, "0.06"),
        (12.53, "12.5"),
        (180.0, "180"),
        (-2.0, "\N{MINUS SIGN}2"),
        (-0.001, "0"),
    ],
)
def test_numbers_are_as_fine_as_a_maker_reads_them(value, text):
    assert number_text(value) == text


def test_a_figure_has_its_unit(qapp):
    assert figure_text(SLIDE) == "13.3\N{NO-BREAK SPACE}%"
    assert figure_text(replace(SLIDE, value=30.0, unit="°")) == "30°"
    assert figure_text(Figure(name="K", value=0.42, unit="", formula="", source="")) == "0.42"


def test_counts_name_the_gravest_first(qapp):
    assert counted(some_shapes()) == "1 to mend, 1 to look at, 1 to know, 2 sound"
    assert counted_short(some_shapes()) == "✖ 1  ▲ 1  ● 1  ✓ 2"
    assert topic_title("rows that meet") == "Rows that meet"


def test_words_and_the_switch_narrow_the_list():
    rows = some_shapes()
    assert [r.id for r in matching(rows, "PETAL left", only_to_look_at=False)] == ["rows:left"]
    assert [r.id for r in matching(rows, "", only_to_look_at=True)] == ["rows:left", "lames:elbow"]
    assert matching(rows, "petal anvil", only_to_look_at=False) == ()


def test_the_way_leads_to_what_speaks_of_the_very_thing_and_is_gravest():
    rows = some_shapes()
    assert of_finding(rows, GAPS) == "lames:elbow"
    assert of_finding(rows, MOVED) == "rows:left"
    assert of_finding(rows, replace(MOVED, text="Another.")) == ""
    assert about(rows, Selection(joints=("piece_0.upper_0",))) == "rows:left"
    assert about(rows, Selection(joints=("piece_0.upper_1",))) == "rows:right"
    assert about(rows, Selection(parts=("piece_0.petal_mid",))) == "rows:left"
    assert about(rows, Selection(parts=("nothing",))) == ""
    whole = Selection(parts=("piece_0.lame_1",), joints=("piece_0.upper_1", "piece_0.upper_0"))
    assert about(rows, whole) == "lames:elbow"
    chosen = Selection(joints=("piece_0.upper_0",), measures=("posts:upper_0",))
    assert about(rows, chosen) == "posts:upper_0"


def test_a_finding_that_the_text_tells_already_is_not_told_twice():
    row = replace(some_shapes()[0], text=f"Three holes meet. {MOVED.text}")
    html = shape_html(row, LIGHT, HEADS, wide=True)
    assert html.count(MOVED.text) == 1
    assert MOVED.remedy in html


@pytest.mark.parametrize("wide", [True, False])
def test_every_figure_stands_with_formula_and_source(wide):
    row = replace(some_shapes()[0], figures=(SPACING, SLIDE), title="<left> & right")
    html = shape_html(row, LIGHT, HEADS, wide=wide)
    for words in (
        "slide per spacing",
        "d / R = 4.0 / 30 = 13.3 %",
        "circle geometry",
        "measured on the drawing",
        "&lt;left&gt; &amp; right",
        MOVED.text,
        MOVED.remedy,
        "▲",
        "to look at",
    ):
        assert words in html
    assert LIGHT.drying in html
    assert DARK.drying in shape_html(row, DARK, HEADS, wide=wide)


def test_pictures_say_what_they_show(qapp):
    rows = picture_words(ROWS_OUT)
    out = "Out: hole 3 of middle petal <left>, to move 2.0\N{NO-BREAK SPACE}mm to the left."
    assert out in rows
    upper, lower = ROWS_OUT.rows
    sound = picture_words(RowsPicture(rows=(upper, replace(lower, off_mm=(0.0, 0.1, 0.0, 0.2)))))
    assert "No hole is out of its place." in sound
    bend = picture_words(BEND)
    assert "Bent 120° round a radius of 30 mm" in bend
    assert "cuff" in bend
    assert "lining" in bend
    lames = picture_words(LAMES)
    assert "At 0°: cop over first lame by 10.0\N{NO-BREAK SPACE}mm." in lames
    assert "At 60°: a gap of 2.0\N{NO-BREAK SPACE}mm between cop and first lame." in lames
    assert "post 9.5 mm" in picture_words(STACK)


def test_no_size_is_told_of_a_bend_whose_legs_are_not_known():
    assert "Formed, it is" in picture_words(BEND)
    unknown = picture_words(replace(BEND, legs_known=False))
    assert "Formed" not in unknown
    assert "How long its legs stay straight is not known, nor its size once bent." in unknown


def test_a_half_turn_is_as_wide_as_its_outer_diameter():
    half = replace(BEND, angle_deg=180.0, legs_mm=(0.0, 0.0))
    wide, high = formed_size(half)
    assert wide == pytest.approx(2 * 38.0)
    assert high == pytest.approx(38.0)


def test_legs_of_a_right_angle_go_straight_on_from_the_arc():
    square = replace(BEND, angle_deg=90.0, legs_mm=(10.0, 10.0))
    inner, outer = radii(square)[0]
    assert (inner, outer) == (34.0, 38.0)
    ends = face(square, outer)
    across = ends[-1][0] - ends[0][0]
    assert across == pytest.approx(2 * (38.0 + 10.0) * 2**-0.5)


def test_a_hole_past_the_arc_lies_as_far_along_its_leg():
    at_end = spot_at(BEND, 30.0, 60.0)
    past = spot_at(BEND, 30.0, 60.0 + 180.0 / pi)  # one radian: 30 mm of leg
    long = ((past[0] - at_end[0]) ** 2 + (past[1] - at_end[1]) ** 2) ** 0.5
    assert long == pytest.approx(30.0)


def test_holes_part_by_the_angle_between_them_on_the_outer_layer():
    assert slide_mm(BEND) == pytest.approx(6.0 * pi / 180 * 36.0)
    assert slide_mm(replace(BEND, outer_deg=())) == 0.0


def test_a_layer_with_legs_of_its_own_ends_where_they_end():
    upper, lower = BEND.layers
    square = replace(
        BEND,
        angle_deg=90.0,
        legs_mm=(10.0, 10.0),
        layers=(replace(upper, legs_mm=(10.0, 4.0)), lower),
    )
    first, second = outlines(square)
    face_mm = len(first) // 2
    flush, back = (
        (first[end][0] - second[end][0], first[end][1] - second[end][1])
        for end in (0, face_mm - 1)
    )
    assert flush[0] == pytest.approx(-4.0 * 2**-0.5)
    assert back == pytest.approx(((4.0 - 6.0) * 2**-0.5, (-4.0 - 6.0) * 2**-0.5))


def _reach_row(*gettings: Getting, severity: str = "") -> ShapeRow:
    sections = tuple(Section(when="", getting=getting) for getting in gettings)
    return ShapeRow(
        id="reach:row:long",
        topic="reach",
        title="long row",
        verdict="cannot be set once the rest of it is set",
        text=".",
        severity=severity,
        picture=ReachPicture(joint="a", sections=sections),
    )


def test_what_no_tool_gets_to_later_sets_an_order_and_is_not_called_sound():
    row = _reach_row(Getting.REACHED, Getting.CANNOT)
    assert counted([row]) == "1 to set in order"
    assert counted_short([row]) == "→ 1"
    assert spoken(row).startswith("to set in order: long row")
    html = shape_html(row, LIGHT, HEADS, wide=True)
    assert "→&nbsp;to set in order" in html
    assert "✓" not in html


def test_what_is_in_reach_at_last_is_sound_and_what_is_to_mend_stays_so():
    assert standing_of(_reach_row(Getting.FLAT, Getting.REACHED)) == ""
    assert standing_of(_reach_row(Getting.REACHED, Getting.CANNOT, severity="error")) == "error"
    assert standing_of(_reach_row(Getting.CANNOT, Getting.CANNOT)) == ""
