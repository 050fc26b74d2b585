"""Names over the drawing: chosen first, never on one another, the sides as headings."""

from itertools import combinations

import pytest
from PySide6.QtWidgets import QGraphicsItem

from armorplan.app.rows import Diagram, DiagramPart, Selection
from armorplan.desktop.name_places import name_place
from armorplan.desktop.widgets import part_names
from armorplan.desktop.widgets.parts_canvas import PartsCanvas
from armorplan.desktop.widgets.parts_overlays import NameItem
from armorplan.desktop.widgets.side_heads import sides_of


def part(part_id, at, size, side="", name=""):
    (x, y), (wide, high) = at, size
    plain = name or part_id.partition(".")[0].replace("_", " ")
    return DiagramPart(
        id=part_id,
        name=f"{plain} ({side})" if side else plain,
        kind="plate",
        piece="Tasset",
        outline=((x, y), (x + wide, y), (x + wide, y + high), (x, y + high)),
        slots=(),
        label_at=(x + wide / 2, y + high / 2),
        layer=0,
        side=side,
        plain_name=plain,
    )


def pair():
    """Two plates and three narrow straps in rows without a gap for a name, left and right."""
    shapes = {
        "upper_plate": ((0, 0), (120, 70)),
        "lower_plate": ((0, 80), (120, 70)),
        "strap_of_the_top": ((0, 160), (90, 8)),
        "strap_of_the_middle": ((0, 170), (90, 8)),
        "strap_of_the_foot": ((0, 180), (90, 8)),
    }
    left = [part(f"{key}.left", at, size, "left") for key, (at, size) in shapes.items()]
    right = [
        part(f"{key}.right", (280 - at[0] - size[0], at[1]), size, "right")
        for key, (at, size) in shapes.items()
    ]
    return Diagram(parts=(*left, *right), holes=(), joints=())


@pytest.fixture
def canvas(qtbot):
    made = PartsCanvas()
    qtbot.addWidget(made)
    made.resize(640, 420)
    made.show_diagram(pair())
    made.show()
    return made


def name_boxes(canvas):
    """Return where names are drawn, in pixels of the view."""
    found = {}
    for item in canvas.scene().items():
        if isinstance(item, NameItem) and item.isVisible():
            at = canvas.mapFromScene(item.pos())
            found[item.part_id] = item.boundingRect().translated(at.x(), at.y())
    return found


def assert_apart_and_in_view(canvas):
    boxes = name_boxes(canvas)
    assert boxes
    for one, other in combinations(boxes.values(), 2):
        assert not one.adjusted(1, 1, -1, -1).intersects(other)
    view = canvas.viewport().rect().toRectF()
    assert all(view.contains(box.adjusted(1, 1, -1, -1)) for box in boxes.values())


@pytest.mark.parametrize("size", [(640, 420), (480, 240), (900, 300), (360, 500)])
def test_names_never_lie_on_one_another_or_leave_the_view(canvas, size):
    canvas.resize(*size)
    canvas.fit()
    assert_apart_and_in_view(canvas)
    for chosen in canvas.drawing.items:
        canvas.light(Selection(parts=(chosen,)))
        assert chosen in canvas.drawing.names.shown()
        assert_apart_and_in_view(canvas)


def test_what_is_chosen_moves_no_name_and_dims_back_to_the_same(canvas):
    before = name_boxes(canvas)
    canvas.light(Selection(parts=("strap_of_the_middle.left",)))
    lit = name_boxes(canvas)
    assert "strap_of_the_middle.left" in lit
    assert all(lit[key] == box for key, box in before.items() if key in lit)
    canvas.light(Selection())
    assert name_boxes(canvas) == before


def test_of_a_pair_the_sides_are_headings_and_names_go_without(canvas):
    assert set(sides_of(pair().parts)) == {"left", "right"}
    names = canvas.drawing.names
    assert names.heads.lines() == 1
    assert {names.heads.short_name(p) for p in pair().parts if "plate" in p.id} == {
        "upper plate",
        "lower plate",
    }
    heads = [i for i in canvas.scene().items() if type(i).__name__ == "_Head"]
    assert len(heads) == 2
    assert all(
        h.flags() & QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations for h in heads
    )
    view = canvas.viewport().rect()
    assert all(view.contains(canvas.mapFromScene(head.pos())) for head in heads)


def test_a_part_made_once_below_a_heading_says_so(canvas):
    once = part("collar", (0, 200), (100, 60))
    beside = part("belt", (500, 0), (100, 60))
    canvas.show_diagram(Diagram(parts=(*pair().parts, once, beside), holes=(), joints=()))
    heads = canvas.drawing.names.heads
    assert heads.short_name(once) == "collar (made once)"
    assert heads.short_name(beside) == "belt"


def test_where_the_sides_lie_over_each_other_names_keep_them(canvas):
    over = part("collar.right", (60, 200), (100, 60), "right")
    mixed = Diagram(parts=(*pair().parts, over), holes=(), joints=())
    assert sides_of(mixed.parts) == {}
    canvas.show_diagram(mixed)
    assert canvas.drawing.names.heads.lines() == 0
    assert canvas.drawing.names.heads.short_name(mixed.parts[0]) == "upper plate (left)"


def test_names_are_sought_again_only_where_something_else_is_lit(canvas, monkeypatch):
    sought = []
    monkeypatch.setattr(
        part_names, "name_place", lambda *told: sought.append(told) or name_place(*told)
    )
    canvas.zoom(0.4)
    sought.clear()
    one = Selection(parts=("strap_of_the_top.left",))
    canvas.light(one)
    first = name_boxes(canvas)
    assert sought
    sought.clear()
    canvas.light(one)
    assert (sought, name_boxes(canvas)) == ([], first)
