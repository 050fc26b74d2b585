"""The diagram of the parts: real holes, hits, the shared choice, and the walk by keys."""

import pytest
from desktop.fake_session import FakeSession
from PySide6.QtCore import QPoint, QPointF, Qt

from armorplan.app.rows import BenchState, Diagram, DiagramHole, DiagramJoint, DiagramPart
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.picture_colours import Look, leather
from armorplan.desktop.theme import Mode, apply_theme
from armorplan.desktop.widgets.parts_canvas import PartsCanvas
from armorplan.desktop.widgets.parts_diagram import PartsDiagram
from armorplan.desktop.widgets.parts_items import PLAIN_SCALE
from armorplan.desktop.widgets.parts_overlays import scale_length_mm

UPPER = "part:piece_0.petal_top"
JOINT = "joint:piece_0.upper_1"

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


@pytest.fixture
def view(bridge, qtbot):
    made = PartsDiagram(bridge)
    qtbot.addWidget(made)
    made.resize(900, 700)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.canvas.setFocus()
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
    canvas.zoom(PLAIN_SCALE * 0.99 / canvas.scale_now())
    assert canvas.names_shown() == ()
    canvas.zoom(4)
    assert canvas.names_shown() == ("plate", "strap")


def test_a_name_wider_than_its_part_waits_for_more_zoom(canvas):
    canvas.zoom(PLAIN_SCALE * 1.01 / canvas.scale_now())
    assert "plate" in canvas.names_shown()
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
    assert canvas.names_shown() == ()
    canvas.zoom(5)
    assert canvas.names_shown() == ("keeper",)


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


def test_choosing_a_part_lights_it_and_dims_the_rest(view, bridge, qtbot):
    spot = view.canvas.mapFromScene(QPointF(20, 35))
    qtbot.mouseClick(view.canvas.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    assert bridge.selection.parts == ("piece_0.petal_top",)
    assert view.canvas.look_of(UPPER) is Look.LIT
    assert view.canvas.look_of("part:piece_0.boss") is Look.DIM
    assert view.canvas.look_of(JOINT) is Look.LIT
    qtbot.keyClick(view.canvas, Qt.Key.Key_Escape)
    assert view.canvas.look_of("part:piece_0.boss") is Look.PLAIN


def test_a_step_chosen_elsewhere_lights_its_parts_and_fasteners(view, bridge, session):
    rivet = next(s for s in session.steps if s.joints)
    bridge.choose_steps((rivet.id,))
    lit = {key for key in view.canvas.places() if view.canvas.look_of(key) is Look.LIT}
    assert lit == {*(f"part:{p}" for p in rivet.parts), *(f"joint:{j}" for j in rivet.joints)}


def test_a_chosen_fastener_tells_its_stack_its_step_and_what_waits(view, bridge, session):
    bridge.choose_joint("piece_0.upper_1")
    card = view.card
    assert card.isVisible()
    said = card.accessibleDescription()
    joint = next(j for j in session.diagram().joints if j.id == "piece_0.upper_1")
    for part in (joint.fastener, *joint.stack, "Rivet 2 of the upper row", "waits", "boss"):
        assert part in said
    assert said.index(joint.stack[0]) < said.index(joint.stack[1])
    bridge.choose_steps(())
    assert card.isHidden()


def test_the_card_leaves_the_chosen_fastener_in_sight(view, bridge, session):
    for joint in session.diagram().joints:
        bridge.choose_joint(joint.id)
        head = view.canvas.places()[f"joint:{joint.id}"]
        assert not view.card.geometry().contains(view.canvas.mapFromScene(QPointF(*head)))


def test_the_arrows_reach_every_part_and_fastener(view, qtbot):
    places = view.canvas.places()
    assert len(places) > 20
    keys = (Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Down)
    seen, ahead = set(), [view.canvas.first()]
    while ahead:
        here = ahead.pop()
        if here in seen:
            continue
        seen.add(here)
        for key in keys:
            view.canvas.hands.walk_to(here)
            qtbot.keyClick(view.canvas, key)
            ahead.append(view.canvas.hands.here)
    assert seen == set(places)


def test_page_down_goes_through_everything_in_the_order_of_the_list(view, qtbot):
    qtbot.keyClick(view.canvas, Qt.Key.Key_Home)
    walked = [view.canvas.hands.here]
    for _ in range(view.twin_model.rowCount() - 1):
        qtbot.keyClick(view.canvas, Qt.Key.Key_PageDown)
        walked.append(view.canvas.hands.here)
    rows = range(view.twin_model.rowCount())
    assert walked == [view.twin_model.key_at(view.twin_model.index(r, 0)) for r in rows]
    qtbot.keyClick(view.canvas, Qt.Key.Key_Home)
    assert view.canvas.hands.here == walked[0]


def test_enter_chooses_what_holds_the_ring_and_the_ring_shows(view, bridge, qtbot):
    view.canvas.hands.walk_to(JOINT)
    before = view.canvas.viewport().grab().toImage()
    view.canvas.hands.walk_to("part:piece_0.strap")
    assert view.canvas.viewport().grab().toImage() != before
    view.canvas.hands.walk_to(JOINT)
    qtbot.keyClick(view.canvas, Qt.Key.Key_Return)
    assert bridge.selection.joints == ("piece_0.upper_1",)


def test_other_keys_are_left_to_the_window(view, qtbot):
    pressed = []
    view.keyPressEvent = lambda event: pressed.append(event.key())
    qtbot.keyClick(view.canvas, Qt.Key.Key_F6)
    qtbot.keyClick(view.canvas, Qt.Key.Key_Left, Qt.KeyboardModifier.AltModifier)
    assert view.canvas.hands.here == ""


def test_the_list_shares_the_choice_both_ways(view, bridge, qtbot):
    view.findChild(object, "parts_diagram_as_list").click()
    assert view.twin.isVisible()
    bridge.choose_part("piece_0.boss")
    lit = {view.twin_model.key_at(i) for i in view.twin.selectionModel().selectedRows()}
    assert lit == {"part:piece_0.boss", "joint:piece_0.boss_0"}
    view.twin.setFocus()
    view.twin.setCurrentIndex(view.twin_model.index_of(UPPER))
    assert bridge.selection.parts == ("piece_0.petal_top",)
    qtbot.keyClick(view.twin, Qt.Key.Key_Down)
    current = view.twin_model.key_at(view.twin.currentIndex())
    assert view.canvas.look_of(current) is Look.LIT


def test_the_list_is_a_sound_model_and_speaks_whole_sentences(view, qtmodeltester):
    qtmodeltester.check(view.twin_model)
    spoken = view.twin_model.index_of(JOINT).data(Qt.ItemDataRole.AccessibleTextRole)
    assert "rivet" in spoken
    assert "waits" in spoken


def test_what_is_done_changes_the_heads_and_keeps_the_place(view, bridge, session):
    view.canvas.zoom(2)
    scale = view.canvas.scale_now()
    rivet = next(s for s in session.steps if "piece_0.upper_1" in s.joints)
    bridge.done((rivet.id,))
    row = view.twin_model.index_of(JOINT).data()
    assert BenchState.EARLY.value in row
    assert view.canvas.scale_now() == scale


def test_another_build_is_shown_whole(view, bridge, clock):
    view.canvas.zoom(6)
    bridge.open(FakeSession.of(150))
    assert any(key.startswith("part:piece_2") for key in view.canvas.places())
    seen = view.canvas.mapToScene(view.canvas.viewport().rect()).boundingRect()
    assert seen.contains(view.canvas.bounds())


def test_a_change_of_theme_recolours_the_drawing(qapp, light_theme, view):
    middle = view.canvas.mapToScene(4, view.canvas.height() // 2)
    ground = (middle.x(), middle.y())
    assert colour_at(view.canvas, *ground) == LIGHT.panel
    apply_theme(qapp, Mode.DARK)
    qapp.processEvents()
    assert colour_at(view.canvas, *ground) == DARK.panel
    assert colour_at(view.canvas, 20, 35) == leather(DARK, "lame", 0)


def test_everything_has_a_name_for_who_cannot_see_it(view):
    for widget in (
        view.canvas,
        view.twin,
        *view.findChildren(type(view.findChild(object, "parts_diagram_whole"))),
    ):
        assert widget.accessibleName(), widget


def test_it_needs_no_second_bridge(bridge, qtbot):
    first, second = PartsDiagram(bridge), PartsDiagram(bridge)
    for made in (first, second):
        qtbot.addWidget(made)
    assert isinstance(bridge, Bridge)
    first._choose_key(UPPER)
    assert second.canvas.look_of(UPPER) is Look.LIT
