"""The drawing of the parts: real holes and slots, heads to scale, hits, zoom and names."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt

from armorplan.app.rows import BenchState, Diagram, DiagramHole, DiagramJoint, DiagramPart
from armorplan.desktop.colours import LIGHT
from armorplan.desktop.picture_colours import leather
from armorplan.desktop.theme import Mode, apply_theme
from armorplan.desktop.widgets.part_names import LEAST_SCALE
from armorplan.desktop.widgets.parts_canvas import PartsCanvas
from armorplan.desktop.widgets.parts_items import PLAIN_SCALE
from armorplan.desktop.widgets.parts_overlays import scale_length_mm

PLATE = DiagramPart(
    id="plate",
    name="plate",
    kind="plate",
    piece="Tasset",
    outline=((0, 0), (100, 0), (100, 60), (0, 60)),
    slots=(((60, 20), (80, 20), (80, 26), (60, 26)),),
    label_at=(30, 50),
    layer=0,
)
STRAP = DiagramPart(
    id="strap",
    name="strap",
    kind="strap",
    piece="Tasset",
    outline=((0, 80), (120, 80), (120, 100), (0, 100)),
    slots=(),
    label_at=(80, 90),
    layer=1,
)
HOLES = (
    DiagramHole(id="plate_1", part="plate", joint=None, centre=(20, 20), diameter_mm=10),
    DiagramHole(id="plate_2", part="plate", joint="hang", centre=(40, 20), diameter_mm=4),
    DiagramHole(id="strap_1", part="strap", joint="hang", centre=(10, 90), diameter_mm=4),
)
HANG = DiagramJoint(
    id="hang",
    kind="rivet",
    fastener="tubular rivet 9 mm",
    head_mm=9,
    stack=("strap", "plate"),
    parts=("strap", "plate"),
    step=None,
    state=BenchState.READY,
)
SMALL = Diagram(parts=(PLATE, STRAP), holes=HOLES, joints=(HANG,))


@pytest.fixture
def light_theme(qapp):
    palette = qapp.palette()
    apply_theme(qapp, Mode.LIGHT)
    yield
    qapp.styleHints().setColorScheme(Qt.ColorScheme.Unknown)
    qapp.setPalette(palette)


@pytest.fixture
def canvas(light_theme, qtbot):
    made = PartsCanvas()
    qtbot.addWidget(made)
    made.resize(600, 500)
    made.show_diagram(SMALL)
    made.show()
    return made


def spot_of(canvas, x, y):
    return canvas.mapFromScene(QPointF(x, y))


def colour_at(canvas, x, y):
    image = canvas.viewport().grab().toImage()
    ratio = image.devicePixelRatio()
    spot = spot_of(canvas, x, y)
    return image.pixelColor(round(spot.x() * ratio), round(spot.y() * ratio)).name()


def test_holes_and_slots_show_the_ground_through_the_leather(canvas):
    fill = leather(LIGHT, "plate", 0)
    assert colour_at(canvas, 90, 50) == fill
    assert colour_at(canvas, 20, 20) == LIGHT.panel
    assert colour_at(canvas, 70, 23) == LIGHT.panel
    assert colour_at(canvas, 40, 20) == LIGHT.panel
    assert colour_at(canvas, 50, 75) == LIGHT.panel


def test_the_hole_of_a_joint_that_slides_is_its_slot(canvas):
    slide = DiagramHole(id="plate_3", part="plate", joint=None, centre=(70, 23), diameter_mm=6)
    canvas.show_diagram(replace(SMALL, holes=(*HOLES, slide)))
    assert colour_at(canvas, 70, 23) == LIGHT.panel
    assert colour_at(canvas, 62, 23) == LIGHT.panel


def test_heads_are_drawn_to_scale_with_the_mark_of_their_state(canvas):
    canvas.zoom(8 / canvas.scale_now())
    canvas.centerOn(10, 90)
    # READY is a filled diamond; the head reaches 4.5 mm from the middle and ends there.
    assert colour_at(canvas, 10, 90) == LIGHT.ready
    assert colour_at(canvas, 10 + 4.1, 90) == LIGHT.bar
    assert colour_at(canvas, 10 + 5.6, 90) == leather(LIGHT, "strap", 1)


def test_the_mouse_finds_parts_fasteners_and_their_other_holes(canvas):
    assert canvas.key_at(spot_of(canvas, 90, 50)) == "part:plate"
    assert canvas.key_at(spot_of(canvas, 10, 90)) == "joint:hang"
    assert canvas.key_at(spot_of(canvas, 40, 20)) == "joint:hang"
    assert canvas.key_at(spot_of(canvas, 20, 20)) == "part:plate"
    assert canvas.key_at(spot_of(canvas, 110, 30)) == ""


def test_a_click_chooses_and_a_drag_only_moves(canvas, qtbot):
    viewport = canvas.viewport()
    spot = spot_of(canvas, 90, 50)
    with qtbot.waitSignal(canvas.hands.chosen) as told:
        qtbot.mouseClick(viewport, Qt.MouseButton.LeftButton, pos=spot)
    assert told.args == ["part:plate"]
    with qtbot.waitSignal(canvas.hands.chosen) as told:
        qtbot.mouseClick(viewport, Qt.MouseButton.LeftButton, pos=spot_of(canvas, 110, 30))
    assert told.args == [""]
    canvas.zoom(2)
    spot = spot_of(canvas, 90, 50)
    with qtbot.assertNotEmitted(canvas.hands.chosen):
        qtbot.mousePress(viewport, Qt.MouseButton.LeftButton, pos=spot)
        qtbot.mouseMove(viewport, spot - QPoint(30, 20))
        qtbot.mouseMove(viewport, spot - QPoint(60, 40))
        qtbot.mouseRelease(viewport, Qt.MouseButton.LeftButton, pos=spot - QPoint(60, 40))
    assert (spot_of(canvas, 90, 50) - spot).manhattanLength() >= 90


def test_names_hide_when_zoomed_far_out(canvas):
    canvas.zoom(LEAST_SCALE * 0.99 / canvas.scale_now())
    assert canvas.drawing.names.shown() == ()
    canvas.zoom(6)
    assert canvas.drawing.names.shown() == ("plate", "strap")


def test_a_name_wider_than_its_part_waits_for_more_zoom(canvas):
    canvas.zoom(PLAIN_SCALE * 1.01 / canvas.scale_now())
    assert "plate" in canvas.drawing.names.shown()
    narrow = Diagram(
        parts=(
            DiagramPart(
                id="keeper",
                name="keeper with a long name",
                kind="keeper",
                piece="Tasset",
                outline=((0, 0), (20, 0), (20, 30), (0, 30)),
                slots=(),
                label_at=(10, 15),
                layer=0,
            ),
        ),
        holes=(),
        joints=(),
    )
    canvas.show_diagram(narrow)
    canvas.zoom(2 / canvas.scale_now())
    assert canvas.drawing.names.shown() == ()
    canvas.zoom(5)
    assert canvas.drawing.names.shown() == ("keeper",)


def test_zoom_keeps_the_point_under_the_mouse_and_zero_shows_all(canvas, qtbot):
    at = QPointF(150, 120)
    held = canvas.mapToScene(at.toPoint())
    canvas.zoom(2, at)
    assert (canvas.mapFromScene(held) - at.toPoint()).manhattanLength() <= 2
    qtbot.keyClick(canvas, Qt.Key.Key_0)
    seen = canvas.mapToScene(canvas.viewport().rect()).boundingRect()
    assert seen.contains(canvas.bounds())
    before = canvas.scale_now()
    qtbot.keyClick(canvas, Qt.Key.Key_Plus)
    assert canvas.scale_now() > before
    qtbot.keyClick(canvas, Qt.Key.Key_Minus)
    assert canvas.scale_now() == pytest.approx(before)


def test_shift_with_arrows_moves_the_drawing(canvas, qtbot):
    canvas.zoom(3)
    before = spot_of(canvas, 50, 50)
    qtbot.keyClick(canvas, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClick(canvas, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    after = spot_of(canvas, 50, 50)
    assert (after.x() < before.x(), after.y() < before.y()) == (True, True)


def test_the_scale_bar_is_a_round_length_that_fits():
    for scale in (0.05, 0.3, 1.0, 1.37, 4.0, 20.0):
        length = scale_length_mm(scale, 130)
        assert length * scale <= 130
        assert length * scale >= 130 / 2.5 - 1e-9
        assert f"{length:e}"[0] in "125"
