"""While a build is followed along its order the piece in hand comes near, until one moves by hand."""

import pytest
from desktop.fake_reach import FakeTrack
from desktop.fake_session import FakeSession
from PySide6.QtCore import QPoint, QRectF, QSizeF

from armorplan.app.reach_rows import WayIn
from armorplan.desktop.closing_desk import Closing
from armorplan.desktop.widgets import parts_near
from armorplan.desktop.widgets.parts_canvas import PartsCanvas
from armorplan.desktop.widgets.parts_near import in_hand
from armorplan.desktop.widgets.parts_overlays import ScaleBar


@pytest.fixture
def session() -> FakeSession:
    return FakeSession.of(120)


@pytest.fixture
def track(session) -> FakeTrack:
    return session.tracing_reach()()


@pytest.fixture
def canvas(qtbot, session, monkeypatch) -> PartsCanvas:
    monkeypatch.setattr(parts_near, "NEAR_AFTER_MS", 0)
    made = PartsCanvas()
    qtbot.addWidget(made)
    made.resize(500, 400)
    made.show_diagram(session.diagram())
    made.show()
    made.fit()
    return made


def closing(track: FakeTrack, at: int = 0, joint: str = "") -> Closing:
    frame = track.frame(at)
    reach = frame.joints[0]
    way = WayIn(joint=joint, title=joint, reach=reach) if joint else None
    return Closing(track=track, frame=frame, way=way)


def piece(canvas: PartsCanvas, joint: str) -> QRectF:
    drawing = canvas.drawing
    return drawing.box_of(drawing.mates(drawing.parts_of((joint,))))


def test_the_piece_that_is_set_next_comes_near_and_all_is_shown_again_after(canvas, track):
    whole = canvas.scale_now()
    now = closing(track)
    canvas.show_closing(now)
    assert canvas.near == piece(canvas, now.frame.coming[0])
    assert canvas.scale_now() > 1.5 * whole
    view = canvas.mapToScene(canvas.viewport().rect()).boundingRect()
    assert view.contains(canvas.near)
    canvas.show_closing(None)
    assert not canvas.is_near
    assert canvas.scale_now() == pytest.approx(whole)


def test_a_joint_that_is_chosen_in_another_piece_brings_that_piece_near(canvas, track, qtbot):
    canvas.show_closing(closing(track))
    here = canvas.near
    other = next(
        joint for joint in canvas.drawing.heads() if not here.intersects(piece(canvas, joint))
    )
    canvas.show_closing(closing(track, joint=other))
    assert canvas.near == here, "it stays while one goes on"
    qtbot.waitUntil(lambda: canvas.near == piece(canvas, other))


@pytest.mark.parametrize("move", ["fit", "zoom", "pan"])
def test_who_zooms_moves_or_asks_for_everything_is_left_alone(canvas, track, qtbot, move):
    canvas.show_closing(closing(track))
    if move == "fit":
        canvas.fit()
    elif move == "zoom":
        canvas.zoom(1.5)
    else:
        canvas.pan_by(QPoint(20, 0))
    scale = canvas.scale_now()
    canvas.show_closing(closing(track, at=1))
    qtbot.wait(30)
    assert not canvas.is_near
    assert canvas.scale_now() == scale


def test_where_marks_have_no_room_only_the_parts_in_hand_come_near(canvas, track):
    now, drawing = closing(track), canvas.drawing
    parts = drawing.parts_of(now.frame.coming)
    small = in_hand(drawing, now, QRectF(), QSizeF(60, 50))
    assert small == drawing.box_of(parts)
    assert small != in_hand(drawing, now, QRectF(), QSizeF(600, 500))


def test_names_keep_off_the_marks_of_reach(canvas, track):
    item = next(iter(canvas.drawing.items.values()))
    plain, off = item.taken(1.0), item.taken(1.0, 18.0)
    assert len(plain) == len(off)
    for head, one, other in zip(item.heads, plain, off, strict=False):
        assert other.contains(one)
        assert other.width() >= min(18.0, head.room_mm)


def test_with_reach_the_parts_take_the_height_that_names_had_and_names_keep_off_the_scale_bar(
    canvas, track
):
    canvas.resize(500, 330)
    plain = canvas.head_px + canvas.foot_px
    canvas.show_closing(closing(track))
    canvas.fit()
    assert canvas.head_px + canvas.foot_px < plain
    bar = canvas.mapToScene(canvas.findChild(ScaleBar).geometry()).boundingRect()
    names = canvas.drawing.names.boxes_shown()
    assert bar in names
    assert not any(bar.intersects(box) for box in names if box != bar)
