"""Arrows that say what is up: on chosen parts and on all, off heads and names, at every zoom."""

import pytest
from desktop.test_part_names import part
from PySide6.QtCore import QRectF

from armorplan.app.rows import Diagram, DiagramHole, Selection
from armorplan.desktop.widgets.parts_canvas import PartsCanvas

PLATE, STRAP = "plate", "strap"
HOLE = DiagramHole(id="h", part=PLATE, joint=None, centre=(60.0, 60.0), diameter_mm=8.0)


@pytest.fixture
def canvas(qtbot):
    made = PartsCanvas()
    qtbot.addWidget(made)
    made.resize(700, 500)
    made.show_diagram(
        Diagram(
            parts=(
                part(PLATE, (0.0, 0.0), (120.0, 120.0)),
                part(STRAP, (0.0, 200.0), (120.0, 6.0)),
            ),
            holes=(HOLE,),
            joints=(),
        )
    )
    made.show()
    qtbot.waitExposed(made)
    made.fit()
    return made


def in_mm(canvas, part_id):
    box, _ = canvas.ups.shown()[part_id]
    scale = canvas.scale_now()
    return QRectF(box.topLeft() / scale, box.size() / scale)


def test_only_what_is_chosen_has_an_arrow_or_all_that_have_room(canvas):
    assert canvas.ups.shown() == {}
    canvas.light(Selection(parts=(STRAP,)))
    assert list(canvas.ups.shown()) == [STRAP]
    canvas.light(Selection())
    canvas.draw_all_marks(wanted=True)
    assert list(canvas.ups.shown()) == [PLATE]


def test_it_lies_on_its_part_off_holes_and_names_or_beside_a_thin_one(canvas):
    canvas.light(Selection(parts=(PLATE, STRAP)))
    plate, strap = in_mm(canvas, PLATE), in_mm(canvas, STRAP)
    items = canvas.drawing.items
    assert items[PLATE].outline.contains(plate)
    assert not plate.intersects(QRectF(56.0, 56.0, 8.0, 8.0))
    assert not strap.intersects(items[STRAP].outline.boundingRect())
    for name in canvas.drawing.names.boxes_shown():
        assert not name.intersects(plate)
        assert not name.intersects(strap)


def test_it_keeps_its_size_at_every_zoom(canvas):
    canvas.light(Selection(parts=(PLATE,)))
    before, words = canvas.ups.shown()[PLATE]
    canvas.zoom(2.0)
    after, same = canvas.ups.shown()[PLATE]
    assert (after.size(), same) == (before.size(), words)
