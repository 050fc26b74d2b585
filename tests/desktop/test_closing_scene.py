"""Where reach is drawn: what is set lies under the rest, and which rows find words first."""

from dataclasses import replace

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QFont

from armorplan.app.reach_rows import JointReach, Opening, ReachFrame, RowReach, WayIn
from armorplan.desktop.closing_scene import (
    BARE_PX,
    LABELS_MOST,
    LEAST_PX,
    SIDE_PX,
    Drawn,
    LabelKind,
    RowLine,
    Scene,
    joint_marks,
    labels,
    row_lines,
)
from armorplan.desktop.closing_words import opening_words
from armorplan.geometry.reach.model import Margin, Standing, Through, Way

AT_HAND = Margin(standing=Standing.CURVED)
SCENE = Scene(scale=1.0, spots={}, room_px=lambda _: 40.0, taken=(), room=QRectF())


def row(name: str, *gapes: float | None) -> RowReach:
    joints = tuple(f"{name}_{n}" for n in range(len(gapes)))
    is_set = tuple(gape == 0.0 for gape in gapes)
    return RowReach(id=name, name=name, joints=joints, is_set=is_set, gapes_mm=gapes)


def line(at: float, of: RowReach, *, barring: bool = False) -> RowLine:
    spots = tuple(QPointF(40.0 * n, at) for n in range(len(of.joints)))
    return RowLine(spots, of, barring)


def test_marks_of_what_is_set_lie_under_the_others():
    joints = (
        JointReach(id="a", is_set=False, margin=AT_HAND),
        JointReach(id="b", is_set=True, margin=AT_HAND),
        JointReach(id="c", is_set=False),
        JointReach(id="hidden", is_set=False, margin=AT_HAND),
    )
    spots = {"a": QPointF(0, 0), "b": QPointF(9, 0), "c": QPointF(90, 0)}
    room = {"a": 9.0, "b": 200.0}
    found = list(joint_marks(ReachFrame(at=1, joints=joints, rows=()), spots, room.__getitem__))
    assert [mark.joint.id for mark in found] == ["b", "a"]
    assert [mark.side_px for mark in found] == [SIDE_PX, LEAST_PX]


def test_a_row_that_does_not_show_whole_is_not_drawn():
    frame = ReachFrame(at=0, joints=(), rows=(row("left", None, None), row("right", None, None)))
    spots = {"left_0": QPointF(0, 0), "left_1": QPointF(9, 0), "right_0": QPointF(0, 9)}
    found = list(row_lines(frame, spots, frozenset(("left",))))
    assert [(one.row.id, one.barring) for one in found] == [("left", True)]


def test_words_go_first_to_what_bars_then_to_what_is_being_closed(qapp):
    rows = (
        line(0, row("open", None, None, None)),
        line(200, row("half", 0.0, 5.0, 9.0)),
        line(400, row("shut", 0.0, 0.0)),
        line(600, row("bars", None, None), barring=True),
    )
    drawn = Drawn(marks=(), rows=rows, legs=())
    found = list(labels(drawn, None, SCENE, QFont(qapp.font())))
    assert [one.words for one in found] == ["bars: open", "half: gapes 9 mm", "open: open"]
    assert [one.kind for one in found] == [LabelKind.BARRING, LabelKind.ROW, LabelKind.ROW]


def test_words_lie_on_no_other_words(qapp):
    rows = tuple(line(12.0 * n, row(f"row {n}", None, None, None)) for n in range(12))
    drawn = Drawn(marks=(), rows=rows, legs=())
    boxes = [one.box for one in labels(drawn, None, SCENE, QFont(qapp.font()))]
    assert len(boxes) > 1
    for place, one in enumerate(boxes):
        for other in boxes[:place]:
            shared = one & other
            assert shared.width() * shared.height() < 0.2 * one.width() * one.height()


def test_of_very_many_rows_only_some_have_words(qapp):
    gapes = (None,) * 4
    rows = tuple(line(90.0 * n, row(f"row {n}", *gapes)) for n in range(LABELS_MOST + 9))
    drawn = Drawn(marks=(), rows=rows, legs=())
    assert len(list(labels(drawn, None, SCENE, QFont(qapp.font())))) == LABELS_MOST


def test_an_open_row_drawn_shorter_than_its_words_has_none_unless_it_bars(qapp):
    short = line(0, row("a row with a very long name", None, None))
    half = line(200, row("another row with a long name", 0.0, 9.0))
    drawn = Drawn(marks=(), rows=(short, half), legs=())
    font = QFont(qapp.font())
    words = [one.words for one in labels(drawn, None, SCENE, font)]
    assert words == ["another row with a long name: gapes 9 mm"]
    bars = Drawn(marks=(), rows=(replace(short, barring=True),), legs=())
    assert len(list(labels(bars, None, SCENE, font))) == 1


def deep(name: str, along_mm: float, standing: Standing, *, is_set: bool = False) -> JointReach:
    way = Way(through=Through.RIM, name="rim-1", along_mm=along_mm, least_mm=0.0)
    return JointReach(id=name, is_set=is_set, margin=Margin(standing=standing, way=way))


def test_how_deep_a_joint_to_set_lies_stands_beside_its_mark_if_there_is_room(qapp):
    joints = (
        deep("deep", 73.2, Standing.INSIDE),
        deep("hand", 20.0, Standing.CURVED),
        deep("done", 81.0, Standing.INSIDE, is_set=True),
        deep("tight", 64.0, Standing.INSIDE),
        deep("gone", 304.0, Standing.CANNOT),
    )
    spots = {joint.id: QPointF(100.0 * n, 0) for n, joint in enumerate(joints)}
    frame = ReachFrame(at=0, joints=joints, rows=())
    marks = tuple(
        joint_marks(frame, spots, lambda joint: BARE_PX - 1 if joint == "tight" else 40.0)
    )
    assert [mark.joint.id for mark in marks if mark.bare] == ["tight"]
    found = list(labels(Drawn(marks=marks, rows=(), legs=()), None, SCENE, QFont(qapp.font())))
    assert [(one.words, one.kind) for one in found] == [
        ("304", LabelKind.DEPTH),
        ("73", LabelKind.DEPTH),
        ("64", LabelKind.DEPTH),
    ]
    for one in found:
        assert not any(one.box.intersects(mark.box) for mark in marks)


def test_a_number_lies_on_no_mark_and_no_two_read_as_one(qapp):
    joints = tuple(deep(f"j{n}", 60.0 + n, Standing.INSIDE) for n in range(20))
    spots = {joint.id: QPointF(12.0 * n, 5.0 * (n % 3)) for n, joint in enumerate(joints)}
    frame = ReachFrame(at=0, joints=joints, rows=())
    marks = tuple(joint_marks(frame, spots, lambda _: 12.0))
    drawn = Drawn(marks=marks, rows=(), legs=())
    found = list(labels(drawn, None, SCENE, QFont(qapp.font())))
    assert len(found) > 3
    for place, one in enumerate(found):
        assert not any(one.box.intersects(mark.box) for mark in marks)
        for other in found[:place]:
            apart = one.box.adjusted(-3, 0, 3, 0)
            assert not apart.intersects(other.box)


def test_what_is_set_has_no_shade_and_is_never_harder():
    reach = deep("a", 150.0, Standing.INSIDE)
    (mark,) = joint_marks(
        ReachFrame(at=0, joints=(reach,), rows=()), {"a": QPointF()}, lambda _: 40.0
    )
    assert (mark.look.shade, mark.look.worse) == (2, False)
    done = replace(mark, joint=replace(reach, is_set=True, worse=True))
    assert (done.look.shade, done.look.worse) == (0, False)
    harder = replace(mark, joint=replace(reach, worse=True))
    assert harder.look.worse


def test_the_row_a_tool_goes_in_through_tells_the_width_that_the_way_in_tells(qapp):
    half = line(0, row("left", 0.0, 45.0, None))
    reach = deep("a", 75.0, Standing.INSIDE)
    way = WayIn(
        joint="a",
        title="a",
        reach=reach,
        legs=(((80.0, 0.0), (80.0, 60.0)),),
        opening=Opening(words="by the open left", wide_mm=38.0, row="left"),
    )
    drawn = Drawn(marks=(), rows=(half,), legs=((QPointF(80, 0), QPointF(80, 60)),))
    words = [one.words for one in labels(drawn, way, SCENE, QFont(qapp.font()))]
    assert words == ["up to 75 mm", "left: gapes 38 mm"]
    assert opening_words(way.opening) == "by the open left, which gapes 38 mm there"
