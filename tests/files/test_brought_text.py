"""A drawing that is written clean reads back as it was meant, in mm."""

import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.files.brought_text import (
    MARGIN_MM,
    Drawn,
    Written,
    corner_of,
    svg_text,
    toml_text,
    uuid_of,
)
from armorplan.files.drawing import read_drawing
from armorplan.geometry.areas import ring_area_mm2

SQUARE = Drawn(id="square", ring=((10.0, 10.0), (50.0, 10.0), (50.0, 40.0), (10.0, 40.0)))
HOLE = Drawn(id="hole", circle=((20.0, 20.0), 3.5))


def read(cut, engraved=()):
    return read_drawing("x.svg", svg_text("Cuff <&> strap", cut, engraved))


def test_outlines_and_holes_come_back_with_their_ids_and_sizes():
    drawing = read([SQUARE, HOLE])
    assert drawing.findings == ()
    (outline,) = drawing.outlines
    assert outline.id == "square"
    assert ring_area_mm2(outline.ring) == pytest.approx(40 * 30)
    (circle,) = drawing.circles
    assert (circle.id, circle.centre, circle.diameter_mm) == ("hole", (20.0, 20.0), 3.5)


def test_engraved_lines_are_seen_and_not_read_but_for_a_fold():
    fold = Drawn(id="line_7", ring=((30.0, 12.0), (30.0, 38.0)), closed=False)
    rope = Drawn(ring=((15.0, 15.0), (18.0, 18.0), (21.0, 15.0)), closed=False)
    text = svg_text("x", [SQUARE], [fold, rope])
    drawing = read_drawing("x.svg", text)
    assert text.count("<path") == 3
    assert [line.id for line in drawing.lines] == ["line_7"]
    assert [outline.id for outline in drawing.outlines] == ["square"]


@settings(max_examples=20)
@given(st.floats(-5000, 5000), st.floats(-5000, 5000))
def test_the_corner_brings_everything_onto_the_page(x, y):
    moved = Drawn(id="a", ring=tuple((px + x, py + y) for px, py in SQUARE.ring))
    cx, cy = corner_of([moved])
    assert min(px for px, _ in moved.ring) - cx == pytest.approx(MARGIN_MM, abs=0.001)
    assert min(py for _, py in moved.ring) - cy == pytest.approx(MARGIN_MM, abs=0.001)


def test_corners_that_fall_together_are_written_once():
    twice = Drawn(id="a", ring=((0, 0), (40, 0), (40, 0.0001), (40, 30), (0, 30), (0, 0.0001)))
    (outline,) = read([twice]).outlines
    assert len(outline.ring) == 4


def test_tables_are_what_was_said_with_a_word_above():
    text = toml_text(
        "format = 1\n",
        [
            Written(
                path=("parts", "a b"), values={"name": 'so "it" is', "count": None}, above="One."
            ),
            Written(path=("forms", "x"), values={"axis": [[1.0, 2.5], [3, 4]]}),
        ],
    )
    assert "# One.\n" in text
    assert tomllib.loads(text) == {
        "format": 1,
        "parts": {"a b": {"name": 'so "it" is'}},
        "forms": {"x": {"axis": [[1.0, 2.5], [3, 4]]}},
    }


def test_the_same_drawing_is_the_same_pattern():
    assert uuid_of("one") == uuid_of("one") != uuid_of("other")
