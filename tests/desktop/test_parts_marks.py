"""Marks over the parts: seen, reached by key and mouse, and chosen."""

from dataclasses import replace

import pytest
from desktop.fake_session import FakeSession
from PySide6.QtCore import QPointF, QRectF, Qt

from armorplan.app.rows import DiagramMark
from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.colours import LIGHT
from armorplan.desktop.theme import Mode, apply_theme
from armorplan.desktop.widgets.fastener_card import CARD_PX
from armorplan.desktop.widgets.parts_diagram import PartsDiagram
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.pictures import Layer, StackPicture
from armorplan.kernel.findings import Severity

PART = "piece_0.petal_mid"
HOLE = (35.0, 62.0)
STACK = StackPicture(
    layers=(
        Layer(name="Middle petal", thick_mm=3.7, kind="plate"),
        Layer(name="Top petal", thick_mm=3.7, kind="plate"),
    ),
    post_mm=9.0,
    window_mm=(8.4, 9.4),
    head_mm=9.0,
    hole_mm=3.2,
)
ROWS = (
    ShapeRow(
        id="rows:upper",
        topic="rows that meet",
        title="upper row",
        verdict="hole 1 is 2.0 mm out",
        text="Move it.",
        severity="error",
        parts=(PART, "piece_0.petal_top"),
        joints=("piece_0.upper_0",),
    ),
    ShapeRow(
        id="bends:mid",
        topic="bends",
        title="bend of the middle petal",
        verdict="rivet flat, then bend",
        text="5 %.",
        parts=(PART,),
    ),
    ShapeRow(
        id="posts:upper",
        topic="fasteners and posts",
        title="rivets",
        verdict="post 9 mm",
        text="Holds.",
        joints=("piece_0.upper_1",),
        picture=STACK,
    ),
)
MOVE = Mark(
    kind=MarkKind.MOVE,
    part=PART,
    spots=(HOLE, (37.0, 62.0)),
    label="2.0 mm",
    severity=Severity.ERROR,
)
ZONE = Mark(
    kind=MarkKind.ZONE,
    part=PART,
    spots=((60.0, 70.0), (110.0, 70.0), (110.0, 120.0), (60.0, 120.0)),
    label="rivet flat, then bend",
)
MARKS = (
    DiagramMark(measure="rows:upper", mark=MOVE),
    DiagramMark(measure="bends:mid", mark=ZONE),
)


@pytest.fixture
def session():
    return replace(FakeSession.of(), shape_rows=ROWS, marks=MARKS)


@pytest.fixture
def light_theme(qapp):
    palette = qapp.palette()
    apply_theme(qapp, Mode.LIGHT)
    yield
    qapp.styleHints().setColorScheme(Qt.ColorScheme.Unknown)
    qapp.setPalette(palette)


@pytest.fixture
def view(light_theme, session, qtbot):
    made = PartsDiagram(Bridge(session, session.clock))
    qtbot.addWidget(made)
    made.resize(900, 700)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.canvas.setFocus()
    return made


@pytest.fixture
def bridge(view):
    return view._bridge


def spot_of_words(view, measure):
    place = view.canvas.places()[f"mark:{measure}"]
    return view.canvas.mapFromScene(QPointF(*place))


def colours_around(view, x, y):
    """Return the colours in a square of 15 pixels around a spot of the drawing."""
    image = view.canvas.viewport().grab().toImage()
    ratio = image.devicePixelRatio()
    at = view.canvas.mapFromScene(QPointF(x, y)) * ratio
    side = range(-7, 8)
    return {image.pixelColor(at.x() + dx, at.y() + dy).name() for dx in side for dy in side}


def test_a_fault_is_drawn_with_its_sign_and_millimetres(view):
    assert view.canvas.marks.words() == ("✖ 2.0 mm",)
    assert LIGHT.alarm in colours_around(view, *HOLE)
    assert "mark:bends:mid" not in view.canvas.places()


def test_all_marks_are_drawn_when_asked_for(view):
    before = colours_around(view, 85, 110)
    view.canvas.draw_all_marks(wanted=True)
    assert "mark:bends:mid" in view.canvas.places()
    assert colours_around(view, 85, 110) != before
    view.canvas.draw_all_marks(wanted=False)
    assert colours_around(view, 85, 110) == before


def test_words_keep_their_size_and_stand_near_at_every_zoom(view):
    marks = view.canvas.marks
    sizes = set()
    for factor in (1.0, 1.5, 2.0, 0.25):
        view.canvas.zoom(factor)
        scale = view.canvas.scale_now()
        one = marks._drawn[0]
        sizes.add((round(one.box.width(), 3), round(one.box.height(), 3)))
        away = (one.box.center() - QPointF(*HOLE) * scale).manhattanLength()
        assert away < 260
    assert len(sizes) == 1
    assert sizes.pop()[1] >= view.canvas.fontMetrics().height()


def test_a_click_on_the_words_chooses_what_was_measured(view, bridge, qtbot):
    at = spot_of_words(view, "rows:upper")
    qtbot.mouseClick(view.canvas.viewport(), Qt.MouseButton.LeftButton, pos=at)
    assert bridge.selection.measures == ("rows:upper",)
    assert bridge.selection.parts == ROWS[0].parts
    assert [one.chosen for one in view.canvas.marks._shown] == [True]


def test_the_keys_reach_the_marks_after_everything_else(view, bridge, qtbot):
    qtbot.keyClick(view.canvas, Qt.Key.Key_Home)
    qtbot.keyClick(view.canvas, Qt.Key.Key_End)
    assert view.canvas.hands.here == "mark:rows:upper"
    assert not view.canvas._ring.boundingRect().isEmpty()
    qtbot.keyClick(view.canvas, Qt.Key.Key_Return)
    assert bridge.selection.measures == ("rows:upper",)


def test_the_list_says_what_the_shapes_tell_and_chooses_it(view, bridge):
    model = view.twin_model
    rows = [model.data(model.index(n, 0)) for n in range(model.rowCount())]
    assert rows[-2:] == [
        "✖ upper row – hole 1 is 2.0 mm out",
        "bend of the middle petal – rivet flat, then bend",
    ]
    spoken = model.data(model.index(len(rows) - 2, 0), Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == "error: upper row: hole 1 is 2.0 mm out"
    view.twin.activated.emit(model.index(len(rows) - 1, 0))
    assert bridge.selection.measures == ("bends:mid",)
    assert "mark:bends:mid" in view.canvas.places()
    assert view.twin.selectionModel().selectedRows()[0].row() == len(rows) - 1


def test_words_keep_off_the_names(view):
    names = view.canvas.drawing.names.boxes_shown()
    view.canvas.draw_all_marks(wanted=True)
    scale = view.canvas.scale_now()
    for one in view.canvas.marks._drawn:
        for name in names if one.box else ():
            box = name.__class__(name.topLeft() * scale, name.size() * scale)
            assert not one.box.intersects(box)


def test_the_card_shows_the_stack_to_scale(view, bridge):
    bridge.choose_joint("piece_0.upper_1")
    assert view.card.isVisible()
    assert view.card._sketch.isVisible()
    assert not view.card._section.isVisible()
    said = view.card.accessibleDescription()
    assert "7.4 mm pinched" in said
    assert "post 9 mm, 1.6 over" in said
    bridge.choose_joint("piece_0.upper_2")
    assert view.card._section.isVisible()
    assert not view.card._sketch.isVisible()


def test_a_high_card_says_less_in_a_low_picture(view, bridge):
    view.resize(520, 300)
    bridge.choose_joint("piece_0.upper_1")
    assert not view.card._waiting.isVisible()
    view.resize(900, 900)
    bridge.choose_joint("piece_0.boss_0")
    assert view.card._step.isVisible()


def test_a_card_in_a_narrow_picture_leaves_half_of_it(view, bridge):
    view.resize(560, 500)
    bridge.choose_joint("piece_0.upper_1")
    assert view.card.width() <= view.canvas.width() / 2
    view.resize(1200, 500)
    bridge.choose_joint("piece_0.upper_0")
    bridge.choose_joint("piece_0.upper_1")
    assert view.card.width() >= CARD_PX


def test_sound_words_lie_on_their_part_or_nowhere_when_all_are_drawn(view, session):
    canvas = view.canvas
    ghost = Mark(kind=MarkKind.GHOST, part=PART, spots=ZONE.spots, label="a long name of a part")
    session.marks = (*MARKS, DiagramMark(measure="posts:upper", mark=ghost))
    view.refresh()
    canvas.draw_all_marks(wanted=True)
    assert ZONE.label not in canvas.marks.words()
    outline = canvas.drawing.items[PART].outline
    for factor in (1.0, 3.0):
        canvas.zoom(factor)
        for one in canvas.marks._drawn:
            if one.shown.aside and one.box is not None:
                scale = canvas.scale_now()
                on = QRectF(one.box.topLeft() / scale, one.box.size() / scale)
                assert outline.contains(on)
    assert ghost.label in canvas.marks.words()
