"""The diagram of the parts: the shared choice, the card, and the walk by keys."""

import pytest
from desktop.fake_session import FakeSession
from PySide6.QtCore import QPointF, Qt

from armorplan.app.rows import BenchState
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.picture_colours import Look, leather
from armorplan.desktop.theme import Mode, apply_theme
from armorplan.desktop.widgets.parts_diagram import PartsDiagram

UPPER = "part:piece_0.petal_top"
JOINT = "joint:piece_0.upper_1"


@pytest.fixture
def light_theme(qapp):
    palette = qapp.palette()
    apply_theme(qapp, Mode.LIGHT)
    yield
    qapp.styleHints().setColorScheme(Qt.ColorScheme.Unknown)
    qapp.setPalette(palette)


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
