"""Which way is up on a part as drawn: said in words, and drawn as an arrow that points there."""

import pytest
from PySide6.QtCore import QPointF

from armorplan.app.rows import DiagramPart
from armorplan.desktop.part_words import part_row
from armorplan.desktop.up_words import beside_arrow, up_arrow, way_words


def part(**changes):
    base = {
        "id": "wing",
        "name": "Wing",
        "kind": "plate",
        "piece": "Arm",
        "outline": ((0.0, 0.0), (90.0, 0.0), (90.0, 60.0), (0.0, 60.0)),
        "slots": (),
        "label_at": (45.0, 30.0),
        "layer": 0,
    }
    return DiagramPart(**(base | changes))


@pytest.mark.parametrize(
    ("up_deg", "said"),
    [
        (90.0, "up the page"),
        (0.0, "to the right"),
        (358.0, "to the right"),
        (180.0, "to the left"),
        (270.0, "down the page"),
        (-90.0, "down the page"),
        (73.0, "up the page (73°)"),
        (135.0, "up the page and to the left"),
    ],
)
def test_a_way_on_the_page_has_words_and_its_degrees_where_they_are_odd(up_deg, said):
    assert way_words(up_deg) == said


def test_the_list_says_what_is_up_and_which_face_is_drawn():
    row = part_row(part(up_deg=180.0), 2)
    assert row.spoken.endswith("up on the wearer lies to the left")
    assert row.cells[0].endswith("up ←")
    row = part_row(part(from_inside=True), 2)
    assert row.spoken.endswith("up the page, drawn from inside")
    assert row.cells[0].endswith("up ↑, drawn from inside")
    assert beside_arrow(part(from_inside=True)) == "up, drawn from inside"


@pytest.mark.parametrize(
    ("up_deg", "tip"), [(90.0, (0, -8)), (0.0, (8, 0)), (180.0, (-8, 0)), (270.0, (0, 8))]
)
def test_the_arrow_points_up_the_page_at_ninety_degrees(qapp, up_deg, tip):
    path = up_arrow(QPointF(0.0, 0.0), 16.0, up_deg)
    assert path.contains(QPointF(*tip) * 0.9)
    behind = QPointF(*tip) * -0.9
    wide = QPointF(behind.y(), behind.x()) * 0.3
    assert not path.contains(behind + wide)
