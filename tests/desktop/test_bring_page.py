"""Bring in a drawing, in the window: by keys and by mouse, question after question."""

from dataclasses import replace
from pathlib import Path

import pytest
from desktop.fake_bringing import FakeCore, match
from PySide6.QtCore import QMimeData, QPoint, QPointF, QRectF, Qt, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QAbstractButton, QFileDialog, QLineEdit, QListWidget

from armorplan.app.bringing.answering import Fact
from armorplan.desktop.bring_desk import BringDesk
from armorplan.desktop.bring_kept import Begun, BegunFile
from armorplan.desktop.bring_view import ghost_of
from armorplan.desktop.widgets.bring_page import BringPage
from armorplan.desktop.widgets.new_folder import NewFolderDialog
from armorplan.geometry.brought.model import ShapeKind

LANTERN = Begun(file=Path("lantern.svg"))


@pytest.fixture(scope="module")
def core():
    return FakeCore()


@pytest.fixture(scope="module")
def desk(qapp, core, tmp_path_factory):
    made = BringDesk(core, BegunFile(tmp_path_factory.mktemp("bring") / "begun.json"))
    yield made
    made.close()


@pytest.fixture(scope="module")
def only_page(desk):
    made = BringPage(desk)
    yield made
    made.close()
    made.deleteLater()


@pytest.fixture
def empty(only_page, core, desk, qtbot):
    """The page as it is opened first: nothing in hand, nothing chosen, nothing begun."""
    core.written.clear()
    desk.put_away()
    desk.forget()
    picture = only_page.picture
    picture.near.setChecked(False)
    picture.shape.measure.setChecked(False)
    picture.canvas.hands.walk_to("")
    picture.choose("")
    only_page.side.tabs.setCurrentIndex(0)
    only_page.resize(1240, 780)
    only_page.begin()
    only_page.start.say("")
    only_page.show()
    picture.canvas.fit()
    yield only_page
    only_page.hide()


@pytest.fixture
def page(empty, desk, qtbot):
    empty.open(LANTERN)
    qtbot.waitUntil(lambda: not desk.is_busy)
    return empty


def press(qtbot, desk, widget, key):
    with qtbot.waitSignal(desk.shown):
        qtbot.keyClick(widget, key)
    qtbot.waitUntil(lambda: not desk.is_busy)


def spot(canvas, x, y):
    return canvas.mapFromScene(QPointF(x, y))


# --- questions ------------------------------------------------------------------------------------


def test_enter_takes_what_is_suggested_and_goes_on(page, desk, qtbot):
    assert page.side.asking.progress.text() == "1 of about 4 · 4 open · ? to look at"
    press(qtbot, desk, page.side.asking.answers, Qt.Key.Key_Return)
    assert desk.view.bringing.answers == {"unit": "25.4"}
    assert page.side.asking.question.id == "holes"


def test_a_digit_takes_its_choice(page, desk, qtbot):
    press(qtbot, desk, page.side.asking.answers, Qt.Key.Key_2)
    assert desk.view.bringing.answers == {"unit": "1"}


def test_backspace_takes_the_last_answer_back_and_shows_its_question(page, desk, qtbot):
    press(qtbot, desk, page.side.asking.answers, Qt.Key.Key_2)
    press(qtbot, desk, page.side.asking.answers, Qt.Key.Key_Backspace)
    assert desk.view.bringing.answers == {}
    assert page.side.asking.question.id == "unit"


def test_backspace_with_nothing_answered_says_so(page, qtbot):
    qtbot.keyClick(page.side.asking.answers, Qt.Key.Key_Backspace)
    assert page.busy.words.text() == "Nothing was answered yet that could be taken back."


def test_a_typed_answer_is_taken(page, desk, qtbot):
    page.side.asking.foot.typed.setText("2,54")
    press(qtbot, desk, page.side.asking.foot.typed, Qt.Key.Key_Return)
    assert desk.view.bringing.answers == {"unit": "2,54"}


def test_a_typed_answer_that_is_no_number_says_what_is_wanted(page, desk, qtbot):
    page.side.asking.foot.typed.setText("wide")
    qtbot.keyClick(page.side.asking.foot.typed, Qt.Key.Key_Return)
    assert page.side.asking.foot.said.text() == (
        "'wide' is no answer here. Type mm that one unit of the file is."
    )
    assert desk.view.bringing.answers == {}


def test_all_that_is_sure_is_taken_by_one_button(page, desk, qtbot):
    assert page.side.asking.foot.sure.text() == "Take all 2 that are sure (Ctrl+Return)"
    with qtbot.waitSignal(desk.shown):
        page.side.asking.foot.sure.click()
    assert desk.view.bringing.answers == {"holes": "hole", "material": "veg_9oz"}
    assert page.side.asking.foot.sure.isHidden()


def test_left_and_right_leaf_without_an_answer(page, desk, qtbot):
    qtbot.keyClick(page.side.asking.answers, Qt.Key.Key_Right)
    assert page.side.asking.question.id == "holes"
    qtbot.keyClick(page.side.asking.answers, Qt.Key.Key_Left)
    qtbot.keyClick(page.side.asking.answers, Qt.Key.Key_Left)
    assert page.side.asking.question.id == "row"
    assert desk.view.bringing.answers == {}


def test_the_list_shows_what_holds_and_leads_to_each_question(page, desk, qtbot):
    press(qtbot, desk, page.side.asking.answers, Qt.Key.Key_2)
    lines = [page.side.list.item(row).text().split("\n") for row in range(page.side.list.count())]
    assert lines[0][0].startswith("\N{CHECK MARK} answered")
    assert lines[0][1].strip() == "→ 1 unit is 1 mm"
    assert [line[0].split(":")[0].split()[-1] for line in lines[1:]] == ["sure", "sure", "at"]
    page.side.list.itemActivated.emit(page.side.list.item(3))
    assert page.side.asking.question.id == "row"
    assert page.side.asking.isVisible()


def test_what_was_found_in_the_file_is_told(page):
    assert "3 hidden lines were left out." in page.side.told.item(0).text()


# --- the drawing ----------------------------------------------------------------------------------


def test_what_a_question_is_about_is_lit(page, qtbot):
    qtbot.keyClick(page.side.asking.answers, Qt.Key.Key_Right)
    canvas = page.picture.canvas
    assert not any(item.is_lit for item in canvas.drawn.items.values())
    assert {key for holes in canvas.drawn.holes.values() for key in holes.lit} == {
        f"{row}{i}" for row in "ab" for i in range(4)
    }


def test_a_match_lies_on_the_other_part_as_a_ghost(page, desk):
    assert page.picture.canvas.ghost.ghost is None
    page.side.asking.go("row")
    ghost = page.picture.canvas.ghost.ghost
    assert ghost == ghost_of(match(), desk.view)
    assert [round(link.miss_mm, 2) for link in ghost.links] == [0.1, 0.1, 0.1, 0.3]
    xs = [x for x, _ in ghost.outline]
    assert (round(min(xs), 1), round(max(xs), 1)) == (19.9, 179.9)
    page.side.asking.answers.setCurrentRow(1)
    assert page.picture.canvas.ghost.ghost is None


def test_a_shape_is_walked_to_and_taken_for_another_kind_by_a_letter(page, desk, qtbot):
    page.picture.canvas.hands.walk_to("slot")
    assert page.picture.shape.words.text() == "Slot, 30.0 × 6.0 mm."
    press(qtbot, desk, page.picture.canvas, Qt.Key.Key_E)
    assert page.picture.canvas.shape_at("slot").kind is ShapeKind.ENGRAVING
    assert page.picture.shape.words.text() == "Engraving, 30.0 × 6.0 mm."
    counts = [b.text() for b in page.picture.kinds.findChildren(QAbstractButton)]
    assert counts == [
        "2 parts (P)",
        "8 holes (H)",
        "0 slots (S)",
        "2 engravings (E)",
        "1 frame (F)",
        "0 left out (X)",
    ]


def test_a_click_chooses_the_smallest_shape_and_a_button_says_its_kind(page, desk, qtbot):
    where = spot(page.picture.canvas, 40, 95)
    qtbot.mouseClick(page.picture.canvas.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert page.picture.shape.words.text() == (
        "Hole in 'breast plate', ø 5.0 mm. It is round and lies in a part."
    )
    with qtbot.waitSignal(desk.shown):
        page.picture.kinds.findChild(QAbstractButton, "bring_kind_left_out").click()
    assert page.picture.canvas.shape_at("a0").kind is ShapeKind.LEFT_OUT


def test_nothing_is_chosen_where_nothing_lies(page, qtbot):
    where = spot(page.picture.canvas, 200, 120)
    qtbot.mouseClick(page.picture.canvas.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert page.picture.shape.key == ""
    page.picture.kinds.findChild(QAbstractButton, "bring_kind_hole").click()
    assert page.busy.words.text() == "Choose a line in the drawing first."


def test_a_part_is_named(page, desk, qtbot):
    page.picture.canvas.hands.walk_to("lower")
    qtbot.keyClick(page.picture.canvas, Qt.Key.Key_N)
    qtbot.keyClicks(page.picture.shape.part.name, "gorget")
    press(qtbot, desk, page.picture.shape.part.name, Qt.Key.Key_Return)
    assert page.picture.canvas.shape_at("lower").name == "gorget"
    assert "gorget" in [name.text() for name in page.picture.canvas.drawn.names.values()]


def test_a_true_length_between_two_walked_points_tells_the_unit(page, desk, qtbot):
    for key in ("a0", "a1"):
        page.picture.canvas.hands.walk_to(key)
        qtbot.keyClick(page.picture.canvas, Qt.Key.Key_M)
    assert page.picture.shape.length.text() == "30.0 mm as it is taken now;"
    qtbot.keyClicks(page.picture.shape.true, "60")
    press(qtbot, desk, page.picture.shape.true, Qt.Key.Key_Return)
    assert desk.view.mm_each == pytest.approx(50.8)
    assert not page.picture.shape.measure.isChecked()


def test_clicked_points_are_corners_and_middles_near_by(page):
    page.picture.canvas.measure(True)
    assert page.picture.canvas.point_near(spot(page.picture.canvas, 41, 96)) == (40, 95)
    assert page.picture.canvas.point_near(spot(page.picture.canvas, 21, 21)) == (20, 20)
    free = page.picture.canvas.point_near(spot(page.picture.canvas, 200, 120))
    assert free == pytest.approx((200, 120), abs=1.0)


def test_a_length_that_is_none_says_so(page, qtbot):
    page.picture.shape.mark((0.0, 0.0))
    page.picture.shape.mark((10.0, 0.0))
    page.picture.shape.true.setText("long")
    qtbot.keyClick(page.picture.shape.true, Qt.Key.Key_Return)
    assert page.picture.shape.length.text() == "'long' is no length. Type mm, such as 212.5."


# --- from file to folder --------------------------------------------------------------------------


def test_a_file_that_is_refused_says_why_where_one_chose_it(empty, desk, qtbot, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("lantern.pdf", ""))
    with qtbot.waitSignal(desk.refused):
        empty.start.choose.click()
    assert empty.start.said.isVisible()
    assert empty.start.said.text() == (
        "lantern.pdf is a PDF, not a drawing of lines. Save it as SVG or DXF where it was drawn."
    )


def test_what_was_begun_is_offered_and_gone_on_with(empty, desk, qtbot):
    desk._kept.keep(Begun(file=Path("lantern.svg"), answers={"row": "none"}))
    empty.begin()
    assert empty.start.resume.text() == "&Go on with lantern.svg: 1 answered"
    with qtbot.waitSignal(desk.shown):
        empty.start.resume.click()
    assert desk.view.bringing.answers == {"row": "none"}


def test_what_was_begun_can_be_forgotten(empty, desk):
    desk._kept.keep(LANTERN)
    empty.begin()
    empty.start.drop.click()
    assert empty.start.resume.isHidden()
    assert desk.begun() is None


def test_it_is_named_and_written_into_a_folder_of_its_own(
    page, desk, core, qtbot, monkeypatch, tmp_path
):
    wardrobe = tmp_path / "wardrobe"
    wardrobe.mkdir()
    (wardrobe / "note.txt").write_text("x")
    offered = []

    def fill(dialog):
        offered.append(dialog.name.text())
        qtbot.keyClicks(dialog.name, " Harbour gorget ")
        monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(wardrobe))
        dialog.choose.click()
        offered.append(dialog.said.text())
        return True

    monkeypatch.setattr(NewFolderDialog, "exec", fill)
    with qtbot.waitSignal(desk.wrote):
        page.side.write.click()
    written, _, folder = core.written[0]
    assert offered == ["Lantern", f"The new folder {wardrobe / 'harbour_gorget'} is made."]
    assert written.name == "Harbour gorget"
    assert folder == wardrobe / "harbour_gorget"


def test_a_folder_that_is_not_there_yet_may_be_typed_and_one_that_is_full_is_not_filled(
    qtbot, page, tmp_path
):
    dialog = NewFolderDialog("Write the pattern", "Gorget", page, tmp_path)
    assert dialog.place == tmp_path / "gorget"
    dialog.folder.clear()
    qtbot.keyClicks(dialog.folder, str(tmp_path / "new" / "watch"))
    assert dialog.place == tmp_path / "new" / "watch"
    qtbot.keyClicks(dialog.name, "Throat")
    assert dialog.place == tmp_path / "new" / "watch"
    dialog.place.mkdir(parents=True)
    (tmp_path / "new" / "watch" / "note.txt").write_text("x")
    assert dialog.place == tmp_path / "new" / "watch" / "throat"
    dialog.folder.clear()
    qtbot.keyClicks(dialog.folder, " ")
    assert not dialog.write.isEnabled()


def test_nothing_is_written_where_it_is_not_meant(page, desk, core, monkeypatch):
    monkeypatch.setattr(NewFolderDialog, "exec", lambda _dialog: False)
    page.side.write.click()
    assert not desk.is_busy
    assert core.written == []


def test_a_drawing_may_be_dropped_on_the_page(empty, desk, qtbot):
    carried = QMimeData()
    carried.setUrls([QUrl.fromLocalFile("/harbour/lantern.svg")])
    action, button = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton
    event = QDropEvent(QPointF(5, 5), action, carried, button, Qt.KeyboardModifier.NoModifier)
    with qtbot.waitSignal(desk.shown):
        empty.dropEvent(event)
    assert desk.file == Path("/harbour/lantern.svg")


def test_every_control_has_a_name(page):
    controls = page.findChildren(QAbstractButton)
    controls += page.findChildren(QLineEdit) + page.findChildren(QListWidget)
    unnamed = [c.objectName() for c in controls if not c.accessibleName() and not _text(c)]
    assert unnamed == []


def _text(control):
    return control.text() if isinstance(control, QAbstractButton) else ""


def test_it_fits_a_small_screen(page, qtbot):
    page.resize(984, 700)
    assert page.minimumSizeHint().width() <= 700
    assert page.minimumSizeHint().height() <= 430
    assert page.picture.canvas.width() >= 400
    assert page.picture.canvas.rect().contains(QPoint(10, 10))


def test_one_goes_near_what_is_asked_about_and_back(page):
    canvas = page.picture.canvas
    page.picture.light(("slot",), None)
    whole = canvas.scale_now()
    page.picture.near.setChecked(True)
    assert canvas.scale_now() > whole
    page.picture.near.setChecked(False)
    assert canvas.scale_now() == pytest.approx(whole)


def test_f6_goes_from_the_question_to_the_drawing_and_back(core, qtbot, tmp_path):
    desk = BringDesk(core, BegunFile(tmp_path / "begun.json"))
    page = BringPage(desk)  # of its own: a window that is shown anew is not active off the screen
    qtbot.addWidget(page)
    page.show()
    page.open(LANTERN)
    qtbot.waitUntil(lambda: not desk.is_busy)
    page.activateWindow()
    page.side.asking.answers.setFocus()
    page._cross()
    assert page.focusWidget() is page.picture.canvas
    assert page.picture.canvas.hands.here == "upper"
    page._cross()
    assert page.focusWidget() is page.side.asking.answers


def test_the_first_sentence_asks_and_the_others_tell(page):
    assert page.side.asking.told.first.text() == "All of it is then 400 mm wide."
    assert page.side.asking.told.more.text() == "Is that right?"


def test_after_writing_it_says_where_and_what_is_open_and_enter_goes_to_the_bench(
    page, desk, qtbot, tmp_path
):
    with qtbot.waitSignal(desk.wrote):
        desk.write(tmp_path / "lantern")
    assert page.side.done.isVisible()
    assert page.side.done.heading.text() == "The pattern is written, and lies on the bench."
    assert str(tmp_path / "lantern") in page.side.done.told.text()
    assert "The gorget has 1 slot without a use yet." in page.side.done.told.text()
    assert page.focusWidget() is page.side.done.main
    with qtbot.waitSignal(page.left_for_bench):
        qtbot.keyClick(page.side.done.main, Qt.Key.Key_Return)


def test_once_all_is_answered_it_says_so_and_enter_writes(page, desk, qtbot, monkeypatch):
    for _ in range(4):
        press(qtbot, desk, page.side.asking.answers, Qt.Key.Key_Return)
    assert page.side.done.isVisible()
    assert page.side.done.heading.text() == "All 4 questions are answered."
    assert page.focusWidget() is page.side.done.main
    asked = []
    monkeypatch.setattr(NewFolderDialog, "exec", lambda dialog: asked.append(dialog) or False)
    qtbot.keyClick(page.side.done.main, Qt.Key.Key_Return)
    assert len(asked) == 1
    page._go_back()
    qtbot.waitUntil(lambda: not desk.is_busy)
    assert page.side.asking.question.id == "row"
    assert page.focusWidget() is page.side.asking.answers


def test_what_an_answer_made_to_be_asked_comes_next(page):
    def question(name, answer=None):
        return replace(page.side.asking.question, id=name, answer=answer)

    unit, rows, last = (question(name) for name in ("unit", "rows", "last"))
    page.side.asking.show_questions((unit, rows, last))
    page.side.asking.go("rows")
    page.side.asking._take()
    assert page.side.asking.question.id == "last"
    made = (question("row:1"), question("row:2"))
    page.side.asking.show_questions((unit, question("rows", "each"), *made, last))
    assert page.side.asking.question.id == "row:1"


def test_gone_on_with_the_answers_have_the_keys_and_what_is_asked_later_is_waited_for(
    empty, desk, qtbot
):
    answers = {"unit": "25.4", "holes": "hole"}  # all that is asked before rows are sought
    empty.open(Begun(file=Path("lantern.svg"), answers=answers))
    qtbot.waitUntil(lambda: not desk.is_busy)
    assert empty.side.asking.question.id == "material"
    assert empty.side.asking.isVisible()
    assert empty.focusWidget() is empty.side.asking.answers


def test_a_click_has_an_answer_in_hand_and_a_double_click_takes_it(page, desk, qtbot):
    answers = page.side.asking.answers
    where = answers.visualItemRect(answers.item(1)).center()
    qtbot.mouseClick(answers.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert answers.key() == "1"
    assert page.side.asking.question.id == "unit"
    with qtbot.waitSignal(desk.shown):
        qtbot.mouseDClick(answers.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert desk.view.bringing.answers == {"unit": "1"}


def test_the_buttons_stay_where_the_pointer_is(page, desk, qtbot):
    def places():
        return [
            b.mapTo(page, QPoint())
            for b in (page.side.asking.foot.take, page.side.asking.foot.back)
        ]

    before = places()
    assert page.side.asking.foot.typed.isVisible()
    with qtbot.waitSignal(desk.shown):
        page.side.asking.foot.sure.click()
    page.side.asking.go("row")
    qtbot.wait(1)
    assert not page.side.asking.foot.typed.isVisible()
    assert not page.side.asking.foot.sure.isVisible()
    assert places() == before


def test_escape_goes_out_of_a_field_and_then_closes(page, desk, qtbot):
    page.picture.canvas.hands.walk_to("lower")
    page.picture.shape.part.name.setFocus()
    page._leave()
    assert page.focusWidget() is page.picture.canvas
    page._leave()
    assert page.picture.shape.key == ""
    assert page.isVisible()
    page._leave()
    assert not page.isVisible()


def test_a_long_question_is_scrolled_and_answers_keep_their_room(page):
    page.resize(960, 560)
    page.side.asking.told.show_text("Is it so? " + "It is told at great length. " * 60)
    assert page.side.asking.told.height() <= 0.46 * page.side.asking.height()
    assert page.side.asking.answers.height() >= 80
    assert page.side.asking.told.verticalScrollBar().maximum() > 0
    page.side.asking.told.show_text("Is it so? It is.")
    assert page.side.asking.told.verticalScrollBar().maximum() == 0


def test_one_leafs_through_rows_that_are_asked_about_at_once(page):
    pairs = page.picture.pairs
    other = replace(match(), pairs=match().pairs[:2])
    question = replace(desk_question(page, "row"), matches=(match(), other))
    page.picture.ask(question, "all")
    assert pairs.words.text().startswith("1 of 2: breast plate with ")
    assert len(page.picture.canvas.ghost.ghost.links) == 4
    pairs.on.click()
    assert len(page.picture.canvas.ghost.ghost.links) == 2
    pairs.on.click()
    assert len(page.picture.canvas.ghost.ghost.links) == 4
    page.picture.ask(question, "none")
    assert page.picture.canvas.ghost.ghost is None
    assert pairs.isHidden()


def test_parts_are_called_in_the_picture_as_the_question_calls_them(page):
    plate = page.picture.canvas.drawn.names["upper"]
    page.side.asking.go("unit")
    assert plate.text() == "part 1"
    page.side.asking.go("row")
    assert plate.text() == "breast plate"


def test_near_a_row_one_sees_where_the_other_part_is_laid(page):
    page.side.asking.go("row")
    page.picture.near.setChecked(True)
    seen = page.picture.canvas.near
    assert seen.contains(page.picture.canvas.edge_of("upper").boundingRect())
    assert seen.contains(page.picture.canvas.ghost.laid_box())
    assert seen.right() < page.picture.canvas.edge_of("lower").boundingRect().center().x()


def desk_question(page, name):
    page.side.asking.go(name)
    return page.side.asking.question


def test_the_list_opens_at_the_question_in_hand(page):
    page.side.asking.go("material")
    page.side.tabs.setCurrentWidget(page.side.list)
    assert page.side.list.currentRow() == 2


def test_n_on_a_hole_names_its_part(page, desk, qtbot):
    page.picture.canvas.hands.walk_to("b1")
    qtbot.keyClick(page.picture.canvas, Qt.Key.Key_N, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClicks(page.picture.shape.part.name, "Map Sheet")
    press(qtbot, desk, page.picture.shape.part.name, Qt.Key.Key_Return)
    assert page.picture.canvas.shape_at("lower").name == "Map Sheet"
    assert page.focusWidget() is page.picture.canvas


@pytest.mark.parametrize("key", [Qt.Key.Key_N, Qt.Key.Key_K, Qt.Key.Key_L, Qt.Key.Key_G])
def test_letters_after_a_name_that_cannot_be_given_do_nothing(page, desk, qtbot, key):
    page.picture.canvas.hands.walk_to("frame")
    qtbot.keyClick(page.picture.canvas, key)
    assert "only parts have a name" in page.busy.words.text()
    assert page.focusWidget() is page.picture.shape.part.name
    qtbot.keyClicks(page.focusWidget(), "Lame_xeph")
    assert page.picture.shape.part.name.text() == ""
    assert desk.view.bringing.answers == {}


def test_kind_leather_and_piece_of_one_part_are_said_in_the_drawing(page, desk, qtbot):
    canvas, part = page.picture.canvas, page.picture.shape.part
    canvas.hands.walk_to("lower")
    assert (part.kind.currentData(), part.leather.currentData()) == ("plate", "shell_plate:4")
    part.kind.setCurrentIndex(part.kind.findData("lame"))
    part._say_box(Fact.KIND, part.kind)
    part.leather.setCurrentIndex(part.leather.findData("strap:2.8"))
    part._say_box(Fact.MATERIAL, part.leather)
    part.piece.setText("collar")
    press(qtbot, desk, part.piece, Qt.Key.Key_Return)
    assert desk.view.bringing.answers == {
        "part:lower:kind": "lame",
        "part:lower:material": "strap:2.8",
        "part:lower:piece": "collar",
    }


def test_the_ruler_lies_under_the_drawing(page):
    canvas = page.picture.canvas
    canvas.fit()
    lowest = canvas.mapFromScene(canvas.bounds().bottomLeft()).y()
    assert lowest < canvas._bar.y()


def test_the_ring_around_a_hole_is_large_enough_to_be_seen(page):
    canvas = page.picture.canvas
    canvas.fit()
    assert canvas.edge_of("a0").boundingRect().width() * canvas.scale_now() >= 22
    assert canvas.edge_of("upper").boundingRect().width() == pytest.approx(160)


def test_the_same_point_twice_is_no_length(page):
    page.picture.shape.mark((5.0, 5.0))
    page.picture.shape.mark((5.0, 5.0))
    assert page.picture.shape.length.text().startswith("That is the first point again.")


def test_the_sample_drawing_can_be_taken_where_nothing_is_open(empty, desk, qtbot):
    with qtbot.waitSignal(desk.shown):
        empty.start.sample.click()
    assert desk.file.name == "watch_parts.svg"
    assert desk.file.exists()


def test_a_name_stands_clear_of_holes_and_slots(desk, qtbot, page):
    with qtbot.waitSignal(desk.shown):
        desk.say_fact("lower", Fact.NAME, "throat")
    canvas = page.picture.canvas
    canvas.zoom(3.0)
    name = canvas.drawn.names["lower"]
    assert name.isVisible()
    scale = canvas.scale_now()
    size = name.boundingRect()
    box = name.pos().x(), name.pos().y(), size.width() / scale, size.height() / scale
    slot = canvas.edge_of("slot").boundingRect()
    assert not slot.intersects(QRectF(*box))
