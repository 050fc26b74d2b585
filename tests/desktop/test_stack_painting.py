"""The section of a stack: to scale, with words that never lie on one another."""

from dataclasses import replace
from itertools import pairwise

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QFontMetricsF, QImage, QPainter

from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.picture_colours import leather
from armorplan.desktop.stack_words import beside, stack_of, stack_sentence
from armorplan.desktop.widgets.stack_painting import (
    DOME_SHARE,
    StackSketch,
    paint_stack,
    spread,
    stack_height_px,
    wide_mm,
)
from armorplan.geometry.pictures import Layer, StackPicture

SCALE = 20.0
PICTURE = StackPicture(
    layers=(
        Layer(name="trim", thick_mm=2.0, kind="trim"),
        Layer(name="plate", thick_mm=4.0, kind="plate"),
        Layer(name="washers", thick_mm=1.0, kind="washer"),
    ),
    post_mm=9.0,
    window_mm=(8.4, 9.4),
    head_mm=9.0,
    hole_mm=3.0,
)


def painted(qapp, picture, colours=LIGHT):
    line = QFontMetricsF(qapp.font()).height()
    size = (700, round(stack_height_px(picture, SCALE, line)))
    image = QImage(*size, QImage.Format.Format_RGB32)
    image.fill(QColor(colours.panel))
    painter = QPainter(image)
    painter.setFont(qapp.font())
    paint_stack(painter, QRectF(0, 0, *size), picture, colours, SCALE)
    painter.end()
    return image


def depths_of(image, colour, x):
    """Return the rows of a column that have a colour."""
    return [y for y in range(image.height()) if image.pixelColor(round(x), y).name() == colour]


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_layers_are_as_thick_as_they_are_pinched(qapp, colours):
    image = painted(qapp, PICTURE, colours)
    x = 2 + 1.5 * SCALE
    count = len(PICTURE.layers)
    trim = depths_of(image, leather(colours, "trim", count), x)
    plate = depths_of(image, leather(colours, "plate", count - 1), x)
    assert trim[-1] - trim[0] == pytest.approx(2.0 * SCALE, abs=6)
    assert plate[-1] - plate[0] == pytest.approx(4.0 * SCALE, abs=6)
    top = round(9.0 * DOME_SHARE * SCALE)
    assert trim[0] == pytest.approx(top, abs=4)


def test_the_post_stands_out_by_what_it_is_longer(qapp):
    image = painted(qapp, PICTURE)
    middle = 2 + wide_mm(PICTURE) * SCALE / 2
    shaft = image.pixelColor(round(middle), round((9.0 * DOME_SHARE + 3) * SCALE)).name()
    drawn = depths_of(image, shaft, middle)
    assert max(drawn) == pytest.approx((9.0 * DOME_SHARE + 9.0) * SCALE, abs=4)
    short = painted(qapp, replace(PICTURE, post_mm=6.0))
    assert max(depths_of(short, shaft, middle)) < max(drawn) - 2 * SCALE


def test_a_window_that_the_post_misses_is_in_another_colour(qapp):
    holds = painted(qapp, PICTURE)
    misses = painted(qapp, replace(PICTURE, post_mm=8.0))
    right = 2 + wide_mm(PICTURE) * SCALE + 7
    at = round((9.0 * DOME_SHARE + 8.9) * SCALE)
    assert holds.pixelColor(round(right), at) != misses.pixelColor(round(right), at)


def test_words_tell_layers_window_and_post():
    assert [line.text for line in beside(PICTURE)] == [
        "2 mm trim",
        "4 mm plate",
        "1 mm washers",
        "8.4 to 9.4 mm hold",
        "post 9 mm, 2 over",
    ]
    assert beside(replace(PICTURE, post_mm=None))[-1].text == "no post on sale fits"
    assert beside(replace(PICTURE, post_mm=6.0))[-2].text == "post 6 mm, 2.4 short"
    assert beside(replace(PICTURE, post_mm=10.0))[-1].text == "post 10 mm, 0.6 long"
    told = stack_sentence(PICTURE)
    assert told.startswith("7 mm pinched; 2 mm trim")
    assert told.endswith("cap pressed on inside.")


def test_lines_of_words_are_spread_and_stay_in_their_box():
    placed = spread([10.0, 11.0, 12.0, 95.0], 20.0, QRectF(0, 0, 100, 100))
    assert all(two - one >= 20 for one, two in pairwise(placed))
    assert placed[0] >= 10
    assert placed[-1] <= 90


def test_a_thin_stack_leaves_room_for_its_words(qapp):
    thin = replace(PICTURE, window_mm=(2.0, 2.5), post_mm=2.0, head_mm=4.0)
    assert stack_height_px(thin, 2.0, 20.0) >= 5 * 20


@pytest.mark.parametrize("foot", ["cap", "burr", "screw", "bent"])
@pytest.mark.parametrize("post_mm", [9.0, None])
def test_every_foot_is_drawn_in_its_own_way(qapp, foot, post_mm):
    others = {"cap", "burr", "screw", "bent"} - {foot}
    image = painted(qapp, replace(PICTURE, foot=foot, post_mm=post_mm))
    for other in others:
        assert image != painted(qapp, replace(PICTURE, foot=other, post_mm=post_mm))


def test_the_widget_is_as_high_as_it_needs_and_says_what_it_shows(qtbot):
    made = StackSketch(5.0, 250)
    qtbot.addWidget(made)
    assert made.sizeHint().height() == 0
    made.show_picture(PICTURE)
    assert made.sizeHint().height() >= 5 * made.fontMetrics().height()
    assert made.accessibleName() == stack_sentence(PICTURE)
    made.grab()


def test_joints_alike_share_a_section_with_names_of_their_own():
    row = ShapeRow(
        id="posts:a", topic="", title="", verdict="", text="", joints=("a", "b"), picture=PICTURE
    )
    found = stack_of("b", ("rim", "lame"), (row,))
    assert [layer.name for layer in found.layers] == ["rim", "lame", "washers"]
    assert stack_of("b", ("one of many",), (row,)) == PICTURE
    assert stack_of("c", ("rim", "lame"), (row,)) is None
