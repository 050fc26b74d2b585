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
    spot = name_place(strap, QPointF(40, 10), NAME, heads, [QRectF(-50, -50, 220, 120)])
    covered = sum(box_at(spot).intersected(h).width() for h in heads if box_at(spot).intersects(h))
    assert strap.contains(box_at(spot))
    assert covered < sum(
        box_at(QPointF(40, 10)).intersected(h).width()
        for h in heads
        if box_at(QPointF(40, 10)).intersects(h)
    )


def test_a_crowded_strap_has_its_name_beside_it_where_nothing_lies():
    heads = [QRectF(x, 2, 14, 16) for x in range(0, 120, 16)]
    strap, wanted = plate(120, 20), QPointF(60, 10)
    others = [QRectF(0, 200, 120, 20)]
    below = name_place(strap, wanted, NAME, heads, others)
    assert box_at(below).top() > 20
    under = QRectF(0, 22, 120, 20)
    above = name_place(strap, wanted, NAME, heads, [*others, under])
    assert box_at(above).bottom() < 0
    around = [under, QRectF(0, -22, 120, 20)]
    assert box_at(name_place(strap, wanted, NAME, heads, around)).left() > 120
    around += [QRectF(122, 0, 40, 20), QRectF(-42, 0, 40, 20)]
    squeezed = name_place(strap, wanted, NAME, heads, around)
    assert strap.contains(box_at(squeezed))


def test_a_name_that_covers_but_a_small_hole_stays_inside():
    strap = plate(40, 10)
    spot = name_place(strap, QPointF(20, 5), NAME, [QRectF(18, 3, 4, 4)], [])
    assert strap.contains(box_at(spot))


def test_a_name_too_large_for_its_part_stays_where_it_is_wanted():
    assert name_place(
        plate(20, 20),
        QPointF(10, 10),
        NAME,
        [],
        [plate(40, 40).boundingRect(), QRectF(-50, -30, 120, 90)],
    ) == QPointF(10, 10)
