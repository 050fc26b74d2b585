"""Marks at a zoom: an arrow stays readable, an area says by its hatch how grave it is."""

from itertools import combinations

import pytest
from contrasts import contrast
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPainterPath

from armorplan.desktop.colours import DARK, LIGHT, MARK_RATIO
from armorplan.desktop.mark_shapes import LEAST_ARROW_PX, mark_area, mark_shape, paint_mark
from armorplan.desktop.picture_colours import severity_colour
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.kernel.findings import Severity

SQUARE = ((10.0, 10.0), (60.0, 10.0), (60.0, 60.0), (10.0, 60.0))
GRAVITIES = (*Severity, None)


def shape(kind, spots, scale=1.0, severity=Severity.ERROR):
    return mark_shape(Mark(kind=kind, part="plate", spots=spots, severity=severity), scale)


def picture(made, colours=LIGHT):
    image = QImage(80, 80, QImage.Format.Format_RGB32)
    image.fill(QColor(colours.leather))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    paint_mark(painter, made, colours, chosen=False)
    painter.end()
    return image


def grey(image):
    return image.convertToFormat(QImage.Format.Format_Grayscale8)


def test_a_move_of_a_millimetre_is_an_arrow_one_can_see():
    small = shape(MarkKind.MOVE, ((10.0, 10.0), (11.0, 10.0)), 1.5)
    tip = small.solid.boundingRect().right()
    assert tip == pytest.approx(15 + LEAST_ARROW_PX)
    assert small.anchor.along == (1.0, 0.0)


def test_a_long_move_ends_where_the_hole_should_lie():
    long = shape(MarkKind.MOVE, ((10.0, 10.0), (10.0, 70.0)), 2.0)
    assert long.solid.boundingRect().bottom() == pytest.approx(140)


def test_a_move_by_nothing_points_somewhere():
    still = shape(MarkKind.MOVE, ((10.0, 10.0), (10.0, 10.0)))
    assert still.solid.boundingRect().width() > LEAST_ARROW_PX


def test_a_span_runs_from_spot_to_spot_with_ticks():
    span = shape(MarkKind.SPAN, ((10.0, 20.0), (50.0, 20.0)), 2.0)
    box = span.stroke.boundingRect()
    assert (box.left(), box.right()) == (20, 100)
    assert box.top() < 40 < box.bottom()
    assert span.anchor.at == QPointF(60, 40)


def test_an_axis_runs_on_beyond_its_ends():
    box = shape(MarkKind.LINE, ((10.0, 20.0), (50.0, 20.0))).stroke.boundingRect()
    assert box.left() < 10
    assert box.right() > 50


@pytest.mark.parametrize("kind", [MarkKind.ZONE, MarkKind.GHOST])
def test_an_area_follows_its_corners(kind):
    made = shape(kind, SQUARE, 2.0)
    assert made.stroke.boundingRect() == QRectF(20, 20, 100, 100)
    assert made.is_area
    assert shape(kind, SQUARE[:2]) is None


def test_a_line_needs_two_spots():
    assert shape(MarkKind.SPAN, SQUARE[:1]) is None


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_zones_of_each_gravity_are_told_apart_without_colour(colours):
    images = [
        grey(picture(shape(MarkKind.ZONE, SQUARE, severity=gravity), colours))
        for gravity in GRAVITIES
    ]
    for one, other in combinations(images, 2):
        differing = sum(
            one.pixelColor(x, y).lightness() != other.pixelColor(x, y).lightness()
            for x in range(12, 58)
            for y in range(12, 58)
        )
        assert differing > 0.05 * 46 * 46


def test_the_outline_of_another_part_is_dashed_and_lets_the_part_shine_through():
    image = picture(shape(MarkKind.GHOST, SQUARE))
    along_edge = {image.pixelColor(x, 10).name() for x in range(14, 56)}
    assert len(along_edge) > 1
    inside = image.pixelColor(35, 35)
    assert inside != QColor(LIGHT.panel)
    assert abs(inside.lightness() - QColor(LIGHT.leather).lightness()) < 25


@pytest.mark.parametrize("colours", [LIGHT, DARK])
@pytest.mark.parametrize("gravity", GRAVITIES)
def test_lines_are_told_from_their_halo(colours, gravity):
    """WCAG 2.2, success criterion 1.4.11: parts of a picture have a contrast of at least 3 to 1."""
    assert contrast(severity_colour(colours, gravity), colours.panel) >= MARK_RATIO


def test_an_axis_is_dash_dotted_and_a_span_is_not():
    axis = picture(shape(MarkKind.LINE, ((10.0, 40.5), (70.0, 40.5))))
    span = picture(shape(MarkKind.SPAN, ((10.0, 40.5), (70.0, 40.5))))
    tone = QColor(severity_colour(LIGHT, Severity.ERROR)).name()
    drawn = [sum(i.pixelColor(x, 40).name() == tone for x in range(12, 68)) for i in (axis, span)]
    assert drawn[1] == 56
    assert 0 < drawn[0] < 56


def test_a_chosen_mark_has_a_heavier_line():
    made = shape(MarkKind.SPAN, ((10.0, 40.0), (70.0, 40.0)))
    tone = QColor(severity_colour(LIGHT, Severity.ERROR))
    counts = []
    for chosen in (False, True):
        image = QImage(80, 80, QImage.Format.Format_RGB32)
        image.fill(Qt.GlobalColor.white)
        painter = QPainter(image)
        paint_mark(painter, made, LIGHT, chosen=chosen)
        painter.end()
        counts.append(sum(image.pixelColor(40, y) == tone for y in range(80)))
    assert counts[1] > counts[0]


def test_of_another_part_only_what_lies_on_this_one_is_drawn():
    plate = QPainterPath()
    plate.addRect(QRectF(0.0, 0.0, 30.0, 100.0))
    ghost = Mark(kind=MarkKind.GHOST, part="plate", spots=SQUARE)
    assert mark_area(ghost, plate).boundingRect() == QRectF(10.0, 10.0, 20.0, 50.0)
    drawn = mark_shape(ghost, 2.0, mark_area(ghost, plate))
    assert drawn.stroke.boundingRect() == QRectF(20.0, 20.0, 40.0, 100.0)
    assert drawn.anchor.at == QPointF(40.0, 70.0)


def test_another_part_that_lies_off_this_one_is_drawn_whole_and_a_bend_always_is():
    plate = QPainterPath()
    plate.addRect(QRectF(200.0, 0.0, 30.0, 100.0))
    whole = QRectF(10.0, 10.0, 50.0, 50.0)
    for kind in (MarkKind.GHOST, MarkKind.ZONE):
        mark = Mark(kind=kind, part="plate", spots=SQUARE)
        assert mark_area(mark, plate).boundingRect() == whole
    plate.translate(-180.0, 0.0)
    zone = Mark(kind=MarkKind.ZONE, part="plate", spots=SQUARE)
    assert mark_area(zone, plate).boundingRect() == whole
