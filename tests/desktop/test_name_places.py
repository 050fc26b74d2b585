"""Names of parts keep off holes and fasteners where there is room."""

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath

from armorplan.desktop.name_places import Ground, lead_to, name_place

NAME = (30.0, 8.0)


BESIDE_IS_TAKEN = Ground(
    parts=[
        QRectF(-50, -40, 220, 40),
        QRectF(-50, 20, 220, 40),
        QRectF(-50, 0, 50, 20),
        QRectF(120, 0, 50, 20),
    ]
)


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
    assert name_place(plate(), wanted, NAME, [], Ground()) == wanted
    assert name_place(plate(), wanted, NAME, [QRectF(0, 0, 10, 10)], Ground()) == wanted


def test_a_name_gives_way_to_a_head_and_stays_inside():
    head = QRectF(45, 25, 10, 10)
    spot = name_place(plate(), QPointF(50, 30), NAME, [head], Ground())
    assert not box_at(spot).intersects(head)
    assert plate().contains(box_at(spot))


def test_where_there_is_no_free_place_it_covers_as_little_as_can_be():
    heads = [QRectF(x, 5, 10, 10) for x in (0, 20, 40, 60, 75)]
    strap = plate(120, 20)
    spot = name_place(strap, QPointF(40, 10), NAME, heads, BESIDE_IS_TAKEN)
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
    below = name_place(strap, wanted, NAME, heads, Ground(others))
    assert box_at(below).top() > 20
    under = QRectF(0, 22, 120, 20)
    above = name_place(strap, wanted, NAME, heads, Ground([*others, under]))
    assert box_at(above).bottom() < 0
    around = [under, QRectF(0, -22, 120, 20)]
    assert box_at(name_place(strap, wanted, NAME, heads, Ground(around))).left() > 120
    around += [QRectF(122, 0, 40, 20), QRectF(-42, 0, 40, 20)]
    squeezed = name_place(strap, wanted, NAME, heads, Ground(around))
    assert strap.contains(box_at(squeezed))


def test_a_name_that_covers_but_a_small_hole_stays_inside():
    strap = plate(40, 10)
    spot = name_place(strap, QPointF(20, 5), NAME, [QRectF(18, 3, 4, 4)], Ground())
    assert strap.contains(box_at(spot))


def test_a_name_too_large_for_its_part_has_no_place_where_nothing_is_free():
    around = Ground([QRectF(-50, -30, 120, 30), QRectF(-50, 20, 120, 30),
                     QRectF(-50, 0, 50, 20), QRectF(20, 0, 50, 20)])  # fmt: skip
    assert name_place(plate(20, 20), QPointF(10, 10), NAME, [], around) is None
    assert name_place(plate(20, 20), QPointF(10, 10), NAME, [], Ground()) is not None


def test_a_name_lies_on_no_other_name_and_keeps_to_the_room():
    wanted, held = QPointF(50, 30), QRectF(40, 25, 20, 10)
    spot = name_place(plate(), wanted, NAME, [], Ground(names=[held]))
    assert spot is not None
    assert not box_at(spot).intersects(held)
    room = QRectF(-5, 0, 40, 100)
    beside = name_place(plate(20, 20), QPointF(10, 10), NAME, [], Ground(room=room))
    assert beside is not None
    assert room.contains(box_at(beside))
    tight = Ground(room=QRectF(0, 0, 20, 20))
    assert name_place(plate(20, 20), QPointF(10, 10), NAME, [], tight) is None


def test_a_name_with_no_room_at_its_part_stands_off_it_and_a_line_leads_there():
    strap, size = plate(60.0, 6.0), (50.0, 12.0)
    at_it = [
        QRectF(0.0, -12.0, 12.0, 10.0),
        QRectF(0.0, 8.0, 12.0, 40.0),
        QRectF(-20.0, -12.0, 15.0, 60.0),
        QRectF(65.0, -12.0, 15.0, 60.0),
    ]
    box = QRectF(0.0, 0.0, *size)
    box.moveCenter(name_place(strap, QPointF(30.0, 3.0), size, [], Ground(at_it)))
    assert box.bottom() < -12.0
    assert lead_to(strap.boundingRect(), box) is not None


def test_a_line_from_a_name_begins_on_the_part_and_crosses_nothing():
    bounds = QRectF(0.0, 0.0, 60.0, 6.0)
    near, far = QRectF(5.0, 9.0, 50.0, 12.0), QRectF(5.0, 40.0, 50.0, 12.0)
    assert lead_to(bounds, near) is None
    assert bounds.contains(lead_to(bounds, far))
    assert Ground().lets_through(bounds, far)
    assert not Ground([QRectF(0.0, 20.0, 60.0, 10.0)]).lets_through(bounds, far)
