"""The drawing table on a real pattern: edited by keys, by typing and by suggestion, taken back."""

from dataclasses import replace
from itertools import pairwise
from math import dist

import pytest
from desktop.drafts import open_draft
from folders_cli import copy_sample
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtWidgets import QCheckBox, QComboBox, QLabel, QLineEdit, QListWidget, QPushButton

from armorplan.app.draft import Draft
from armorplan.desktop.draft_desk import DraftDesk
from armorplan.desktop.shape_edit_acts import ACTS
from armorplan.desktop.shape_edit_choice import Choice
from armorplan.desktop.widgets.shape_edit_joints import usual_motion
from armorplan.desktop.widgets.shape_edit_page import TablePage
from armorplan.files.source import read_folder
from armorplan.kernel.findings import Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.joining import Motion

CONTROL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
ALT = Qt.KeyboardModifier.AltModifier
CHOICES = (
    "part",
    "kind",
    "fastener",
    "outside",
    "turned",
    "meets",
    "use",
    "leather",
    "left",
    "right",
    "motion",
    "piece",
)


@pytest.fixture
def folder(tmp_path):
    return copy_sample(tmp_path)


@pytest.fixture
def desk(qapp, folder):
    made = DraftDesk()
    yield made
    assert made.close()


@pytest.fixture
def unreckoned(monkeypatch, request):
    """Steps and order are reckoned only where a test waits for them: that takes its time."""
    if "reckoned" not in request.node.name:
        monkeypatch.setattr(Draft, "checked", lambda draft: replace(draft, is_hasty=False))


@pytest.fixture
def page(desk, folder, unreckoned, qtbot):
    made = TablePage(desk)
    qtbot.addWidget(made)
    desk.open(open_draft(folder))
    made.show()
    qtbot.waitExposed(made)
    made.go(())
    qtbot.waitUntil(lambda: made.desk.scene is not None)
    yield made
    made.close()
    made.close_jobs()


def choose(page, *keys):
    page.doing.choose(Choice(keys))


def act(page, name):
    action = page.menus.by_id[name]
    assert action.isEnabled(), name
    action.trigger()


def field(page, name):
    kind = QComboBox if name in CHOICES else QLineEdit
    return page.asking.findChild(kind, f"ask_{name}")


def made(page, qtbot, count=1):
    """Wait until so many edits are made and shown."""
    desk = page._drafts
    qtbot.waitUntil(
        lambda: desk.stack.index() == count and page.desk._shown.draft.texts == desk.draft.texts
    )


def place(page, name):
    return page.desk.scene.pattern.hole(name).centre


def test_it_opens_with_nothing_chosen_or_at_what_was_chosen_at_the_bench(page, qtbot):
    assert page.canvas.choice.keys == ()
    assert page.side.entry == ("pattern", "")
    page.go(("left_row_2",))
    assert set(page.canvas.choice.holes) == {"left_2", "middle_left_2"}
    assert page.side.entry == ("joints", "left_row_2")


def test_presses_of_arrows_become_one_move_that_is_taken_back_as_one(page, qtbot):
    x, y = place(page, "left_2")
    choose(page, "hole:left_2")
    for _ in range(3):
        qtbot.keyClick(page.canvas, Qt.Key.Key_Right, CONTROL)
    qtbot.keyClick(page.canvas, Qt.Key.Key_Up, ALT)
    assert page.canvas.over.moved["left_2"] == pytest.approx((x + 3, y - 0.1))
    made(page, qtbot)
    assert place(page, "left_2") == pytest.approx((x + 3, y - 0.1), abs=1e-6)
    assert page.canvas.over.moved == {}
    page.findChild(QPushButton, "edit_undo").click()
    made(page, qtbot, 0)
    assert place(page, "left_2") == pytest.approx((x, y))


def test_a_hole_off_its_row_is_told_and_marked_at_once_and_the_rest_reckoned_after(page, qtbot):
    choose(page, "hole:left_2")
    qtbot.keyClick(page.canvas, Qt.Key.Key_Right, CONTROL | SHIFT)
    made(page, qtbot)
    shown = page.findings.list
    told = [shown.item(at).text() for at in range(shown.count())]
    assert any("'left_2' of left petal" in text for text in told)
    where = place(page, "left_2")
    assert Severity.ERROR in {mark.severity for mark in page.canvas.over.marks}
    assert where in {mark.at for mark in page.canvas.over.marks}
    choose(page, "part:boss")
    act(page, "next_finding")
    assert "left_2" in page.canvas.choice.holes
    assert page.findings.list.currentRow() == 0
    assert page.canvas.hasFocus()
    qtbot.keyClick(page.canvas, Qt.Key.Key_N)
    assert page.findings.list.currentRow() == 1
    page.findings.list.setFocus()
    qtbot.keyClick(page.findings.list, Qt.Key.Key_N)
    assert page.findings.list.currentRow() == 2 % page.findings.list.count()
    qtbot.keyClick(page.findings.list, Qt.Key.Key_Escape)
    assert page.canvas.hasFocus()
    qtbot.waitUntil(lambda: not page.desk._shown.draft.is_hasty)
    assert "reckoned" not in page.findChild(QLabel, "table_findings_head").text()


def test_place_and_diameter_are_typed(page, qtbot):
    choose(page, "hole:left_2")
    x, y = place(page, "left_2")
    act(page, "place_hole")
    line = page.side.place.lines["x"]
    line.setText(f"{x - 0.5:g}".replace(".", ","))
    qtbot.keyClick(line, Qt.Key.Key_Return)
    made(page, qtbot)
    assert place(page, "left_2") == pytest.approx((round(x - 0.5, 4), y), abs=0.01)
    page.side.place.lines["across"].setText("5 mm")
    page.side.place.commit()
    made(page, qtbot, 2)
    assert page.desk.scene.pattern.hole("left_2").diameter_mm == pytest.approx(5)
    page.side.place.lines["across"].setText("wide")
    page.side.place.commit()
    assert "Type numbers in mm" in page.findChild(QLabel, "edit_said").text()


def test_a_new_hole_is_typed_or_clicked_chosen_and_taken_out_again(page, qtbot):
    choose(page, "part:boss")
    act(page, "add_hole")
    assert field(page, "part").currentData() == "boss"
    x, y = float(field(page, "x").text()), float(field(page, "y").text())
    spot = page.canvas.mapFromScene(x + 6.0, y)
    qtbot.mouseClick(page.canvas.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    assert float(field(page, "x").text()) == pytest.approx(x + 6, abs=0.7)
    assert page.canvas.over.ghosts
    field(page, "across").setText("")
    page.asking.do()
    assert "ø" in page.asking.findChild(QLabel, "ask_refusal").text()
    field(page, "across").setText("3,5")
    qtbot.keyClick(field(page, "across"), Qt.Key.Key_Return)
    made(page, qtbot)
    (new,) = page.canvas.choice.holes
    assert page.desk.scene.pattern.hole(new).part == "boss"
    assert page.desk.scene.pattern.hole(new).diameter_mm == pytest.approx(3.5)
    assert page.canvas.over.ghosts == ()
    qtbot.keyClick(page.canvas, Qt.Key.Key_Delete)
    made(page, qtbot, 2)
    assert f"hole:{new}" not in page.canvas.places()


def test_what_is_asked_is_dropped_when_something_else_is_chosen_or_by_escape(page, qtbot):
    for leave in (lambda: choose(page, "hole:left_3"), page.asking.drop):
        choose(page, "hole:left_2")
        act(page, "move_holes")
        field(page, "x").setText("4")
        assert page.canvas.over.ghosts
        leave()
        assert page.asking.isHidden()
        assert page.canvas.over.ghosts == ()
    act(page, "move_holes")
    qtbot.keyClick(field(page, "x"), Qt.Key.Key_Escape)
    assert page.asking.isHidden()
    assert page._drafts.stack.count() == 0


def test_a_state_that_cannot_be_looked_at_is_told(page, monkeypatch, qtbot):
    def fail(_draft):
        message = "no way"
        raise ValueError(message)

    monkeypatch.setattr("armorplan.desktop.shape_edit_desk.scene_of", fail)
    choose(page, "hole:left_2")
    qtbot.keyClick(page.canvas, Qt.Key.Key_Left, CONTROL)
    line = page.findChild(QLabel, "edit_said")
    qtbot.waitUntil(lambda: "no way" in line.text())
    assert page._drafts.is_dirty


def test_another_pattern_takes_the_table(page, tmp_path, qtbot):
    page.desk.move(("left_2",), (1.0, 0.0))
    page.canvas.zoom(3)
    page._drafts.open(open_draft(samples_folder() / "three_lames"))
    qtbot.waitUntil(lambda: page.desk.scene.pattern.slug == "three_lames")
    assert page.canvas.is_fitted
    assert page.windowTitle().startswith("Drawing table – ")


def test_layers_change_places_by_keys_for_one_joint_or_the_whole_row(page, qtbot):
    choose(page, "hole:left_2")
    before = {j.id: j.stack for j in page.desk.scene.pattern.joints}
    layers = page.findChild(QListWidget, "stack_layers")
    act(page, "go_layers")
    layers.setCurrentRow(0)
    qtbot.keyClick(layers, Qt.Key.Key_Down, ALT)
    made(page, qtbot)
    now = {j.id: j.stack for j in page.desk.scene.pattern.joints}
    assert now["left_row_2"] == before["left_row_2"][::-1]
    assert now["left_row_3"] == before["left_row_3"]
    page.side.stack.whole.setChecked(True)
    layers.setCurrentRow(0)
    qtbot.keyClick(layers, Qt.Key.Key_Down, ALT)
    made(page, qtbot, 2)
    now = {j.id: j.stack for j in page.desk.scene.pattern.joints}
    assert now["left_row_2"] == before["left_row_2"]
    assert now["left_row_3"] == before["left_row_3"]
    page.side.stack.whole.setChecked(False)
    none = QModelIndex()
    assert layers.model().moveRow(none, 1, none, 0)  # what dragging a line does
    made(page, qtbot, 3)
    assert page.desk.scene.pattern.joint("left_row_2").stack == before["left_row_2"][::-1]


def test_a_row_taken_apart_is_suggested_and_joined_again(page, qtbot):
    scene = page.desk.scene
    row = next(seam for seam in scene.pattern.seams if seam.id == "left_row")
    stacks = {frozenset(scene.pattern.joint(j).stack) for j in row.joints}
    choose(page, "hole:left_1")
    act(page, "whole_row")
    act(page, "drop_joints")
    made(page, qtbot)
    act(page, "matches")
    panel = page.side.matches
    qtbot.waitUntil(lambda: panel.match is not None)
    lines = [panel.list.item(at).text() for at in range(panel.list.count())]
    assert len(set(lines)) == len(lines) > 1
    while {frozenset(pair) for pair in panel.match.pairs} != stacks:
        panel.pass_over()
    assert page.canvas.over.ghosts
    panel.accept()
    field(page, "outside").setCurrentIndex(1)
    outside = field(page, "outside").currentData()
    page.asking.do()
    made(page, qtbot, 2)
    pattern = page.desk.scene.pattern
    joined = {frozenset(j.stack): j.stack for j in pattern.joints if frozenset(j.stack) in stacks}
    assert set(joined) == stacks
    assert {pattern.hole(stack[0]).part for stack in joined.values()} == {outside}


def test_a_row_is_spaced_in_both_layers_by_count_or_by_mm(page, qtbot):
    choose(page, "hole:left_2")
    act(page, "space_row")
    field(page, "count").setText("6")
    page.asking.do()
    made(page, qtbot)
    rows = [row for row in page.desk.scene.rows if row.seam == "left_row"]
    assert [len(row.holes) for row in rows] == [6, 6]
    choose(page, "hole:left_1")
    act(page, "space_row")
    field(page, "spacing").setText("16")
    page.asking.do()
    made(page, qtbot, 2)
    (row, _) = (row for row in page.desk.scene.rows if row.seam == "left_row")
    gaps = [dist(one, other) for one, other in pairwise(row.line)]
    assert gaps == pytest.approx([16] * len(gaps), abs=1.5)


def test_a_row_is_drawn_along_an_edge_and_chosen(page, qtbot):
    choose(page, "part:boss")
    act(page, "add_row")
    field(page, "inset").setText("7")
    field(page, "spacing").setText("12")
    page.asking.do()
    made(page, qtbot)
    assert len(page.canvas.choice.holes) > 1
    assert {page.desk.scene.pattern.hole(h).part for h in page.canvas.choice.holes} == {"boss"}
    assert "mm from hole to hole" in page.findChild(QLabel, "edit_said").text()


def test_the_up_arrow_turns_by_keys_and_the_facts_are_beside(page, qtbot):
    choose(page, "hole:left_2")
    qtbot.keyClick(page.canvas, Qt.Key.Key_P)
    assert page.canvas.choice.parts == ("petal_left",)
    up_deg = page.desk.scene.pattern.part("petal_left").up_deg
    qtbot.keyClick(page.canvas, Qt.Key.Key_BracketLeft)
    made(page, qtbot)
    assert page.desk.scene.pattern.part("petal_left").up_deg == up_deg + 5
    act(page, "part_facts")
    assert page.side.entry == ("parts", "petal_left")
    assert page.side.form.has_keyboard()


def test_a_bend_is_drawn_by_two_clicks_and_drawn_anew(page, qtbot):
    choose(page, "part:boss")
    act(page, "new_bend")
    for at in ((300.0, 230.0), (310.0, 260.0)):
        spot = page.canvas.mapFromScene(*at)
        qtbot.mouseClick(page.canvas.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    assert page.canvas.over.ghosts[0].pairs[0][1] == pytest.approx((310, 260), abs=0.7)
    field(page, "radius").setText("60")
    field(page, "angle").setText("40°")
    page.asking.do()
    made(page, qtbot)
    (form,) = page.canvas.choice.forms
    act(page, "bend_line")
    field(page, "x2").setText("305")
    field(page, "angle").setText("50")
    page.asking.do()
    made(page, qtbot, 2)
    (axis,) = (axis for axis in page.desk.scene.axes if axis.form == form)
    assert axis.ends[1][0] == 305
    assert (axis.radius_mm, axis.angle_deg) == (60, 50)
    act(page, "drop_bend")
    made(page, qtbot, 3)
    assert not page.desk.scene.axes


def test_where_a_strap_closes_is_told_with_the_holes_chosen(page, qtbot):
    scene = page.desk.scene
    strap = scene.pattern.part("closing_strap")
    holes = tuple(hole.id for hole in strap.holes if hole.id not in scene.through)
    for most in ("330", "355"):
        choose(page, *(f"hole:{hole}" for hole in holes))
        act(page, "strap_place")
        field(page, "meets").setCurrentIndex(field(page, "meets").findData("buckle_strap"))
        field(page, "least").setText("310")
        field(page, "most").setText(most)
        page.asking.do()
        made(page, qtbot, 1 if most == "330" else 2)
    (now,) = page.desk.scene.pattern.strap_places
    assert (now.meets, now.girth_mm, now.holes) == ("buckle_strap", (310, 355), holes)


def test_a_leather_and_a_coat_come_from_the_shelf(page, qtbot):
    choose(page, "part:boss")
    act(page, "new_leather")
    field(page, "name").setText("stout")
    field(page, "thick").setText("4")
    page.asking.do()
    made(page, qtbot)
    assert page._drafts.draft.entry("materials", "stout")["thickness_mm"] == 4
    act(page, "new_coat")
    page.asking.do()
    made(page, qtbot, 2)
    assert any(t.parts == ("boss",) for t in page.desk.scene.pattern.treatments)


def test_a_piece_is_turned_over_and_back(page, qtbot):
    before = place(page, "left_2")
    choose(page, "hole:left_2")
    act(page, "turn_over")
    made(page, qtbot)
    assert place(page, "left_2")[0] != pytest.approx(before[0], abs=1)
    assert place(page, "left_2")[1] == pytest.approx(before[1])
    assert len(page.canvas.choice.parts) == 8
    act(page, "turn_over")
    made(page, qtbot, 2)
    assert place(page, "left_2") == pytest.approx(before)


def test_left_and_right_are_drawn_apart_and_folded_into_one_again(page, qtbot):
    drafts = page._drafts
    drafts.edit(lambda draft: draft.put((("pieces", "elbow_cop", "mirrored"), True)), "mirrored")
    made(page, qtbot)
    choose(page, "part:boss")
    act(page, "unpair")
    made(page, qtbot, 2)
    pattern = page.desk.scene.pattern
    assert [piece.mirrored for piece in pattern.pieces] == [False, False]
    assert len(pattern.parts) == 16
    choose(page, *(f"part:{part.id}" for part in pattern.parts))
    act(page, "pair")
    assert field(page, "left").currentData() != field(page, "right").currentData()
    page.asking.do()
    made(page, qtbot, 3)
    (piece,) = page.desk.scene.pattern.pieces
    assert piece.mirrored
    assert len(page.desk.scene.pattern.parts) == 8


def said(page):
    return page.findChild(QLabel, "edit_said").text()


def test_a_key_that_can_do_nothing_yet_says_what_it_needs(page, qtbot):
    qtbot.keyClick(page.canvas, Qt.Key.Key_Q, SHIFT)
    assert said(page) == "Draw left and right apart: Choose a part, or a hole in it first."
    choose(page, "part:petal_left")
    qtbot.keyClick(page.canvas, Qt.Key.Key_T)
    assert said(page).startswith("left petal is a cop. Choose the strap")
    assert page.asking.isHidden()
    choose(page, "hole:left_2")
    qtbot.keyClick(page.canvas, Qt.Key.Key_T)
    act(page, "move_holes")
    assert said(page) == ""


def test_one_free_hole_of_a_row_stands_for_the_row(page):
    strap = page.desk.scene.pattern.part("closing_strap")
    free = {hole.id for hole in strap.holes if hole.id not in page.desk.scene.through}
    assert len(free) > 2
    choose(page, f"hole:{min(free)}")
    act(page, "whole_row")
    assert set(page.canvas.choice.holes) == free


def test_what_is_asked_below_does_not_change_the_scale(page):
    choose(page, "hole:left_2")
    scale = page.canvas.scale_now()
    for slug in ("move_holes", "add_hole"):
        act(page, slug)
        page.layout().activate()
        assert page.canvas.scale_now() == scale
    page.asking.drop()
    page.layout().activate()
    assert page.canvas.scale_now() == pytest.approx(scale)


def test_parts_are_put_to_another_piece_and_joined_to_turn(page, qtbot):
    choose(page, "part:boss")
    act(page, "put_to_piece")
    assert field(page, "piece").currentData() == ""
    field(page, "name").setText("Badge")
    page.asking.do()
    made(page, qtbot)
    assert page.desk.scene.pattern.part("boss").piece == "badge"
    joint = page.desk.scene.pattern.joint("boss_left")
    choose(page, f"hole:{joint.stack[0]}")
    act(page, "drop_joints")
    made(page, qtbot, 2)
    choose(page, *(f"hole:{hole}" for hole in joint.stack))
    act(page, "join")
    assert field(page, "motion").currentData() == "fixed"
    field(page, "motion").setCurrentIndex(field(page, "motion").findData("turning"))
    page.asking.do()
    made(page, qtbot, 3)
    (now,) = (j for j in page.desk.scene.pattern.joints if j.stack == joint.stack)
    assert now.motion is Motion.TURNING
    assert "said in a movement" in said(page)
    assert "2 pieces" in said(page)


def test_an_outline_that_is_no_part_is_chosen_and_made_one(page, qtbot):
    drawn = '<path id="tab" d="M 398 2 H 428 V 20 H 398 Z"/></svg>'

    def draw(draft):
        text = dict(draft.texts)["elbow_cop.svg"].replace("</svg>", drawn)
        return draft.with_files({"elbow_cop.svg": text})

    page._drafts.edit(draw, "drawn by hand", is_hasty=True)
    made(page, qtbot)
    spot = page.canvas.mapFromScene(413.0, 11.0)
    qtbot.mouseClick(page.canvas.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    assert page.canvas.choice.spare == ("tab",)
    assert "30 by 18 mm" in page.side.findChild(QLabel, "table_told").text()
    act(page, "add_part")
    field(page, "kind").setCurrentIndex(field(page, "kind").findData("strap"))
    page.asking.do()
    made(page, qtbot, 2)
    assert page.canvas.choice.parts == ("tab",)
    assert page.desk.scene.pattern.part("tab").kind.value == "strap"
    assert page.desk.scene.spare == ()


def test_lames_are_taken_to_turn_on_one_joint_or_two():
    lames = open_draft(samples_folder() / "three_lames").draft.pattern
    assert usual_motion(lames, ("top_lame", "middle_lame"), 2) is Motion.TURNING
    assert usual_motion(lames, ("top_lame", "middle_lame"), 5) is Motion.FIXED
    assert usual_motion(lames, ("boss", "cop"), 1) is Motion.FIXED


def test_a_part_and_a_hole_get_another_id(page, qtbot):
    for count, (key, name) in enumerate([("part:boss", "badge"), ("hole:left_2", "l2")], start=1):
        choose(page, key)
        act(page, "rename")
        field(page, "name").setText(name)
        page.asking.do()
        made(page, qtbot, count)
        assert page.canvas.choice.keys == (key.partition(":")[0] + ":" + name,)


def test_what_is_saved_is_the_drawing_with_just_that_hole_moved(page, folder, qtbot):
    before = (folder / "elbow_cop.svg").read_text(encoding="utf-8").splitlines()
    choose(page, "hole:left_2")
    qtbot.keyClick(page.canvas, Qt.Key.Key_Left, CONTROL)
    with qtbot.waitSignal(page._drafts.saved):
        qtbot.keyClick(page, Qt.Key.Key_S, CONTROL)
    after = (folder / "elbow_cop.svg").read_text(encoding="utf-8").splitlines()
    assert len([1 for one, other in zip(before, after, strict=True) if one != other]) == 1
    assert not page._drafts.is_dirty
    assert read_folder(folder)


def test_changed_shapes_are_saved_as_a_version_once_unless_that_is_not_wanted(page, qtbot):
    box = page.findChild(QCheckBox, "edit_as_version")
    versions = []
    for hole, wanted in (("left_2", False), ("left_3", True), ("left_4", True)):
        assert box.isHidden()
        choose(page, f"hole:{hole}")
        qtbot.keyClick(page.canvas, Qt.Key.Key_Left, CONTROL)
        if hole == "left_2":
            page.commit()
            qtbot.waitUntil(box.isVisible)
        box.setChecked(wanted)
        with qtbot.waitSignal(page._drafts.saved):
            qtbot.keyClick(page, Qt.Key.Key_S, CONTROL)  # the last move may be on its way
        versions.append(page._drafts.draft.pattern.version)
    assert versions == [1, 2, 2]
    (note,) = page._drafts.draft.pattern.versions
    assert note.changed == ("left petal: 1 hole moved by up to 1.0 mm.",)


def test_keys_of_acts_differ_and_every_act_says_what_it_does():
    assert len({act.key for act in ACTS}) == len(ACTS)
    assert all(act.does.endswith(".") and act.text for act in ACTS)


def test_what_has_the_ring_is_told_to_screen_readers(page, qtbot):
    page.canvas.hands.walk_to("hole:left_2")
    assert page.canvas.accessibleDescription().startswith("Hole left_2. In left petal.")


def test_what_cannot_be_done_with_what_is_chosen_is_not_offered(page):
    choose(page, "part:boss")
    by_id = page.menus.by_id
    assert by_id["part_facts"].isEnabled()
    assert not by_id["drop_holes"].isEnabled()
    assert not by_id["go_layers"].isEnabled()


def test_every_control_has_an_accessible_name(page):
    choose(page, "hole:left_2")
    act(page, "add_hole")
    for kind in (QLineEdit, QComboBox, QListWidget, QPushButton):
        for control in page.findChildren(kind):
            if control.objectName().startswith(("qt_", "field_")) or not control.isVisible():
                continue
            heard = control.accessibleName() or getattr(control, "text", str)()
            assert heard, control.objectName()
