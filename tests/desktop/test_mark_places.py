"""Words of marks: near what they belong to, on nothing that is taken, within the view."""

from itertools import combinations

import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath

from armorplan.desktop.mark_places import REACHES_PX, Anchor, Ground, leader, words_place

WORDS = (60.0, 20.0)
EVERYWHERE = QRectF()
SPOT = Anchor(QPointF(200, 200), along=(1.0, 0.0))


def area(*box):
    path = QPainterPath()
    path.addRect(*box)
    return Anchor(path.boundingRect().center(), area=path)


def test_words_stand_beside_a_line_and_across_the_way_it_runs():
    box = words_place(SPOT, WORDS, Ground(), EVERYWHERE)
    assert box == QRectF(170, 200 - REACHES_PX[0] - 20, 60, 20)
    upright = words_place(Anchor(QPointF(200, 200), along=(0.0, 1.0)), WORDS, Ground(), EVERYWHERE)
    assert upright.center().y() == 200


def test_words_avoid_what_is_taken_and_each_other():
    ground = Ground()
    ground.take([QRectF(150, 150, 100, 45)], 3.0)
    boxes = []
    for _ in range(8):
        box = words_place(SPOT, WORDS, ground, EVERYWHERE)
        ground.take([box], 3.0)
        boxes.append(box)
    assert not any(one.intersects(other) for one, other in combinations(boxes, 2))
    assert not any(box.intersects(QRectF(150, 150, 100, 45)) for box in boxes)


def test_words_that_would_hide_too_much_are_left_out():
    ground = Ground()
    ground.take([QRectF(-1000, -1000, 3000, 3000)], 3.0)
    assert words_place(SPOT, WORDS, ground, EVERYWHERE) is None


def test_words_keep_within_the_view():
    room = QRectF(0, 0, 400, 205)
    box = words_place(SPOT, WORDS, Ground(), room)
    assert room.contains(box)
    low = words_place(Anchor(QPointF(200, 10), along=(1.0, 0.0)), WORDS, Ground(), room)
    assert low.top() > 10


def test_words_that_must_stand_near_are_left_out_elsewhere():
    ground = Ground()
    ground.take([QRectF(120, 160, 160, 80)], 3.0)
    assert words_place(SPOT, WORDS, ground, EVERYWHERE) is not None
    assert words_place(SPOT, WORDS, ground, EVERYWHERE, near=True) is None


def test_an_area_has_its_words_within_it():
    zone = area(100, 100, 200, 80)
    box = words_place(zone, WORDS, Ground(), EVERYWHERE)
    assert zone.area.contains(box)
    assert leader(zone, box) is None
    ground = Ground()
    ground.take([QRectF(170, 125, 60, 30)], 3.0)
    beside = words_place(zone, WORDS, ground, EVERYWHERE)
    assert zone.area.contains(beside)
    assert not beside.intersects(QRectF(170, 125, 60, 30))


def test_an_area_too_small_for_its_words_has_them_over_its_middle():
    zone = area(100, 100, 30, 30)
    assert words_place(zone, WORDS, Ground(), EVERYWHERE).center() == QPointF(115, 115)


def test_a_line_leads_to_words_that_stand_far_off():
    near = QRectF(170, 171, 60, 20)
    assert leader(SPOT, near) is None
    start, end = leader(SPOT, QRectF(170, 80, 60, 20))
    assert (start, end) == (QPointF(200, 200), QPointF(200, 100))


def test_the_line_of_an_area_begins_on_the_side_of_its_words():
    zone = area(100, 100, 200, 80)
    start, end = leader(zone, QRectF(400, 130, 60, 20))
    assert zone.area.contains(start)
    assert start.x() > 250
    assert end.x() == pytest.approx(400)
