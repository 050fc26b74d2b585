"""Names of parts keep off holes and fasteners where there is room."""

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath

from armorplan.desktop.name_places import name_place

NAME = (30.0, 8.0)


def plate(width=100.0, height=60.0):
    path = QPainterPath()
    path.addRect(QRectF(0, 0, width, height))
    return path


def box_at(spot):
    box = QRectF(0, 0, *NAME)
    box.moveCenter(spot)
    return box


def test_a_free_name_stands_where_it_is_wanted():
    wanted = QPointF(50, 30)
    assert name_place(plate(), wanted, NAME, []) == wanted
    assert name_place(plate(), wanted, NAME, [QRectF(0, 0, 10, 10)]) == wanted


def test_a_name_gives_way_to_a_head_and_stays_inside():
    head = QRectF(45, 25, 10, 10)
    spot = name_place(plate(), QPointF(50, 30), NAME, [head])
    assert not box_at(spot).intersects(head)
    assert plate().contains(box_at(spot))


def test_where_there_is_no_free_place_it_covers_as_little_as_can_be():
    heads = [QRectF(x, 5, 10, 10) for x in (0, 20, 40, 60, 75)]
    strap = plate(120, 20)
    spot = name_place(strap, QPointF(40, 10), NAME, heads)
    covered = sum(box_at(spot).intersected(h).width() for h in heads if box_at(spot).intersects(h))
    assert strap.contains(box_at(spot))
    assert covered < sum(
        box_at(QPointF(40, 10)).intersected(h).width()
        for h in heads
        if box_at(QPointF(40, 10)).intersects(h)
    )


def test_a_name_too_large_for_its_part_stays_where_it_is_wanted():
    assert name_place(plate(20, 20), QPointF(10, 10), NAME, []) == QPointF(10, 10)
