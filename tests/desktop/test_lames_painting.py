"""A chain of lames seen from the side: the end of the bend first, what opens drawn and named."""

from itertools import combinations

import pytest
from desktop.fake_shapes import LAMES
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QFont, QImage, QPainter

from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.shapes_words import mm_text, standing_colour
from armorplan.desktop.widgets.shape_lame_drawing import (
    bounds_of,
    laid,
    overlap_words,
    scale_of,
    uncross,
)
from armorplan.desktop.widgets.shape_lames_painting import lames_height, lames_least, paint_lames
from armorplan.desktop.widgets.shape_sheet_painting import Sheet
from armorplan.geometry.pictures import LamesPicture


@pytest.fixture(params=[LIGHT, DARK], ids=["light", "dark"])
def sheet(request, qapp):
    return Sheet(colours=request.param, font=QFont(qapp.font()))


def painted(sheet, picture, wide, high):
    image = QImage(wide, high, QImage.Format.Format_RGB32)
    image.fill(QColor(sheet.colours.panel))
    painter = QPainter(image)
    paint_lames(painter, sheet, picture, QRectF(0, 0, wide, high))
    painter.end()
    return image


def coloured(image, colour, box):
    wanted = QColor(colour).rgb()
    xs = range(round(box.left()), round(box.right()))
    ys = range(round(box.top()), round(box.bottom()))
    return sum(image.pixel(x, y) == wanted for x in xs for y in ys)


def first(count):
    """The straight limb and what follows it: none of it opens."""
    return LamesPicture(positions=LAMES.positions[:count])


def test_a_gap_at_the_end_is_drawn_in_the_colour_of_its_gravity(sheet):
    high = round(lames_height(sheet, LAMES, 440))
    drawing = QRectF(0, 0, 210, high * 0.6)
    colour = standing_colour("error", sheet.colours)
    assert coloured(painted(sheet, LAMES, 440, high), colour, drawing) > 20
    assert coloured(painted(sheet, first(2), 440, high), colour, drawing) == 0


def test_the_end_of_the_bend_is_larger_than_the_way_there(sheet):
    high = round(lames_height(sheet, LAMES, 440))
    edge = sheet.colours.edge
    image = painted(sheet, LAMES, 440, high)
    upper, lower = QRectF(0, 0, 440, high * 0.55), QRectF(0, high * 0.55, 440, high * 0.44)
    assert coloured(image, edge, upper) > coloured(image, edge, lower) / 4 * 1.5


@pytest.mark.parametrize("wide", [120, 260, 440, 560, 900])
def test_it_is_never_asked_for_less_than_can_be_read(sheet, wide):
    assert 0 < lames_least(sheet, LAMES, wide) <= lames_height(sheet, LAMES, wide)


@pytest.mark.parametrize("size", [(120, 40), (260, 500), (560, 110), (900, 300)])
def test_it_is_painted_at_any_size(sheet, size):
    assert not painted(sheet, LAMES, *size).isNull()


def test_nothing_and_one_position_are_painted(sheet):
    assert lames_height(sheet, LamesPicture(positions=()), 300) == 0
    painted(sheet, LamesPicture(positions=()), 300, 100)
    painted(sheet, first(1), 300, 100)


def test_overlaps_are_told_by_the_numbers_of_their_plates():
    end = LAMES.positions[-1]
    room = QRectF(0, 0, 200, 200)
    drawn = laid(end, room, scale_of(end, room))
    assert overlap_words(drawn, end.overlaps[0]) == f"1 over 2: gap {mm_text(2.0)}"
    assert room.contains(drawn.at((bounds_of(end).right(), bounds_of(end).top())))


def crossings(spots, places):
    def turn(a, b, c):
        return (b.x() - a.x()) * (c.y() - a.y()) - (b.y() - a.y()) * (c.x() - a.x())

    lines = [(spots[at], places[at]) for at in sorted(places)]
    return sum(
        turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0
        for (a, b), (c, d) in combinations(lines, 2)
    )


def test_lines_to_the_words_do_not_cross():
    spots = [QPointF(x, y) for x, y in ((10, 90), (80, 20), (40, 60), (70, 95), (5, 30))]
    places = {at: QPointF(120, 20.0 * at) for at in range(5)}
    assert crossings(spots, places) > 0
    before = {place.y() for place in places.values()}
    uncross(spots, places)
    assert crossings(spots, places) == 0
    assert {place.y() for place in places.values()} == before
