"""The drawing table: what is chosen on it by mouse and keys, and what it says of that."""

import pytest
from desktop.drafts import BENCH
from PySide6.QtCore import QPointF, Qt

from armorplan.app.draft import drafted
from armorplan.desktop.shape_edit_scene import scene_of
from armorplan.desktop.shape_edit_words import choice_words
from armorplan.desktop.widgets.shape_edit_canvas import TableCanvas
from armorplan.files.source import read_folder
from armorplan.kernel.shipped import samples_folder

NONE = Qt.KeyboardModifier.NoModifier
CONTROL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
ALT = Qt.KeyboardModifier.AltModifier
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture(scope="module")
def scene():
    files = read_folder(samples_folder() / "elbow_cop")
    return scene_of(drafted(files, BENCH, is_hasty=True))


@pytest.fixture
def canvas(qtbot, scene):
    made = TableCanvas()
    qtbot.addWidget(made)
    made.resize(700, 600)
    made.show_scene(scene)
    made.show()
    qtbot.waitExposed(made)
    made.setFocus()
    return made


@pytest.fixture
def moves(canvas):
    found = []
    canvas.moved.connect(found.append)
    return found


def spot(canvas, x, y):
    return canvas.mapFromScene(QPointF(x, y))


def hole_spot(canvas, scene, name):
    return spot(canvas, *scene.pattern.hole(name).centre)


def click(qtbot, canvas, scene, name, held=NONE):
    qtbot.mouseClick(canvas.viewport(), LEFT, held, hole_spot(canvas, scene, name))


def drag(qtbot, canvas, start, end):
    qtbot.mousePress(canvas.viewport(), LEFT, NONE, start)
    for share in (0.5, 1.0):
        qtbot.mouseMove(canvas.viewport(), start + (end - start) * share)
    qtbot.mouseRelease(canvas.viewport(), LEFT, NONE, end)


def test_a_click_chooses_a_hole_and_ctrl_takes_another_in(canvas, scene, qtbot):
    click(qtbot, canvas, scene, "left_1")
    assert canvas.choice.holes == ("left_1",)
    click(qtbot, canvas, scene, "left_2", CONTROL)
    assert canvas.choice.holes == ("left_1", "left_2")
    click(qtbot, canvas, scene, "left_1", CONTROL)
    assert canvas.choice.holes == ("left_2",)


def test_a_click_beside_holes_chooses_the_part_and_off_it_nothing(canvas, scene, qtbot):
    x, y = scene.pattern.hole("left_1").centre
    qtbot.mouseClick(canvas.viewport(), LEFT, NONE, spot(canvas, x - 25, y + 5))
    assert canvas.choice.parts == (scene.pattern.hole("left_1").part,)
    corner = canvas.bounds().topLeft()
    qtbot.mouseClick(canvas.viewport(), LEFT, NONE, spot(canvas, corner.x() + 1, corner.y() + 1))
    assert canvas.choice.keys == ()


def test_a_box_takes_the_holes_in_it(canvas, scene, qtbot):
    row = [hole for hole in scene.pattern.part("petal_left").holes if hole.id.startswith("left_")]
    xs, ys = [h.centre[0] for h in row], [h.centre[1] for h in row]
    start = spot(canvas, max(xs) + 12, min(ys) - 12)
    assert not canvas.key_at(start)
    drag(qtbot, canvas, start, spot(canvas, min(xs) - 5, max(ys) + 5))
    assert set(canvas.choice.holes) >= {hole.id for hole in row}
    assert {scene.pattern.hole(hole).part for hole in canvas.choice.holes} == {"petal_left"}


def test_dragging_a_hole_tells_the_way_and_shows_it_on_the_way(canvas, scene, moves, qtbot):
    start = hole_spot(canvas, scene, "left_3")
    qtbot.mousePress(canvas.viewport(), LEFT, NONE, start)
    qtbot.mouseMove(canvas.viewport(), start + spot(canvas, 12, 0) - spot(canvas, 0, 0))
    x, _ = scene.pattern.hole("left_3").centre
    assert canvas.over.moved["left_3"][0] == pytest.approx(x + 12, abs=0.6)
    end = start + spot(canvas, 20, 0) - spot(canvas, 0, 0)
    qtbot.mouseRelease(canvas.viewport(), LEFT, NONE, end)
    ((right, down),) = moves
    assert right == pytest.approx(20, abs=0.6)
    assert (right, down) == (round(right, 1), 0.0)


def test_escape_lets_go_of_what_is_dragged(canvas, scene, moves, qtbot):
    start = hole_spot(canvas, scene, "left_3")
    qtbot.mousePress(canvas.viewport(), LEFT, NONE, start)
    qtbot.mouseMove(canvas.viewport(), start + spot(canvas, 20, 0) - spot(canvas, 0, 0))
    assert canvas.over.moved
    qtbot.keyClick(canvas, Qt.Key.Key_Escape)
    assert not canvas.over.moved
    assert canvas.choice.holes == ("left_3",)
    qtbot.mouseRelease(canvas.viewport(), LEFT, NONE, start)
    assert moves == []


@pytest.mark.parametrize(("held", "far_mm"), [(ALT, 0.1), (CONTROL, 1.0), (CONTROL | SHIFT, 5.0)])
def test_arrows_move_by_a_tenth_by_one_by_five(canvas, scene, moves, qtbot, held, far_mm):
    click(qtbot, canvas, scene, "left_3")
    qtbot.keyClick(canvas, Qt.Key.Key_Right, held)
    qtbot.keyClick(canvas, Qt.Key.Key_Up, held)
    assert moves == [(far_mm, 0.0), (0.0, -far_mm)]


def test_keys_alone_walk_choose_and_take_in(canvas, scene, moves, qtbot):
    canvas.hands.walk_to("hole:left_2")
    qtbot.keyClick(canvas, Qt.Key.Key_Return)
    assert canvas.choice.holes == ("left_2",)
    qtbot.keyClick(canvas, Qt.Key.Key_Down)
    assert canvas.hands.here == "hole:left_3"
    qtbot.keyClick(canvas, Qt.Key.Key_Space)
    assert canvas.choice.holes == ("left_2", "left_3")
    qtbot.keyClick(canvas, Qt.Key.Key_Escape)
    assert canvas.choice.keys == ()
    assert moves == []


def test_the_ring_keeps_its_size_in_pixels_when_one_zooms(canvas):
    canvas.hands.walk_to("hole:left_2")
    canvas.zoom(4.0)
    wide = canvas._ring._path.boundingRect().width()
    assert wide == pytest.approx(canvas.edge_of("hole:left_2").boundingRect().width())


def test_it_says_the_spacing_of_a_row_and_whether_a_hole_is_in_a_joint(canvas, scene, qtbot):
    click(qtbot, canvas, scene, "left_2")
    title, told = choice_words(scene, canvas.choice)
    assert title == "Hole left_2"
    assert "left_row_2" in told
    assert "Number 2 of 7" in told
    whole = canvas.choice.whole_rows(scene)
    assert len(whole.holes) == 7
    assert choice_words(scene, whole)[0] == "7 holes"
