"""The picture of an exercise: chosen on by mouse and keys, lit, and played picture by picture."""

from dataclasses import replace

import pytest
from desktop.drill_scene import FIRST, IDS, JOINTS, ORDER, PLAY, SOME
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtWidgets import QLabel, QPushButton, QSplitter

from armorplan.app.rows import DiagramMark
from armorplan.desktop.drill_choices import PictureChoices
from armorplan.desktop.picture_colours import Look
from armorplan.desktop.widgets import drill_picture, drill_picture_play
from armorplan.desktop.widgets.drill_forms import make_form
from armorplan.desktop.widgets.drill_picture import DrillPicture
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.kernel.findings import Severity
from armorplan.practice.drill import Frame

A, B, C, D, E = IDS
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def said(monkeypatch):
    told = []
    for module in (drill_picture, drill_picture_play):
        monkeypatch.setattr(module, "announce", lambda _widget, text: told.append(text))
    return told


@pytest.fixture
def diagram(session):
    """The first piece, with the steps that the exercise speaks of."""
    found = session.diagram()
    steps = dict(zip(JOINTS, IDS, strict=True))
    joints = tuple(replace(j, step=steps.get(j.id)) for j in found.joints)
    return replace(found, joints=joints)


@pytest.fixture
def calm():
    return [True]


@pytest.fixture
def picture(qtbot, calm):
    made = DrillPicture(is_calm=lambda: calm[0])
    qtbot.addWidget(made)
    made.resize(420, 420)
    made.show()
    qtbot.waitExposed(made)
    yield made
    made.stop()


@pytest.fixture
def asked(picture, diagram):
    picture.show_drill(diagram, FIRST)
    return picture


def looks(picture):
    return {joint: picture.canvas.look_of(f"joint:{joint}") for joint in JOINTS}


def begin_play(picture, diagram, frames=PLAY):
    shown = []
    picture.play(frames, lambda frame: shown.append(frame) or diagram)
    return shown


def is_seen(picture, part):
    seen = picture.canvas.mapToScene(picture.canvas.viewport().rect()).boundingRect()
    return seen.contains(picture.canvas.drawing.box_of((part,)))


def test_what_is_lit_comes_into_view_and_a_zoom_by_hand_stays(picture, diagram):
    near, far = diagram.parts[0].id, diagram.parts[-1].id
    choices = tuple(replace(one, parts=(far,), joints=(), steps=()) for one in FIRST.choices)
    picture.show_drill(diagram, replace(FIRST, parts=(near,), choices=choices))
    picture.canvas.fit_to(picture.canvas.drawing.box_of((near,)))
    assert not is_seen(picture, far)
    picture.light(choices[0].id)
    assert is_seen(picture, far)
    picture.canvas.fit_to(picture.canvas.drawing.box_of((near,)))
    picture.canvas.zoom(1.01)
    scale = picture.canvas.scale_now()
    picture.light(choices[1].id)
    assert picture.canvas.scale_now() == scale


def test_what_is_lit_and_too_small_to_be_looked_at_comes_nearer(picture, diagram):
    part = diagram.parts[0].id
    choices = tuple(replace(one, parts=(part,), joints=(), steps=()) for one in FIRST.choices)
    picture.show_drill(diagram, replace(FIRST, parts=(), choices=choices))
    picture.resize(200, 200)
    picture.canvas.fit_to(picture.canvas.drawing.bounds().adjusted(-900, -900, 900, 900))
    before = picture.canvas.scale_now()
    picture.light(choices[0].id)
    assert picture.canvas.scale_now() > 2 * before
    assert is_seen(picture, part)


def test_walking_begins_at_what_the_exercise_is_about(picture, diagram):
    last = diagram.parts[-1].id
    picture.show_drill(diagram, replace(ORDER, parts=(last,)))
    assert picture.canvas.first() == f"part:{last}"
    picture.canvas.walk_from(())
    assert picture.canvas.first() == f"part:{diagram.parts[0].id}"


# --- what is chosen ---------------------------------------------------------------------------


def test_each_choice_has_its_letter_at_its_joint(asked):
    spots, boxes = asked.canvas.letter_spots(), asked.canvas.letter_boxes()
    heads = asked.canvas.drawing.heads()
    assert list(spots) == list("ABCDE")
    for letter, joint in zip("ABCDE", JOINTS, strict=True):
        assert spots[letter] == asked.canvas.mapFromScene(QPointF(*heads[joint]))
        near = boxes[letter].center() - QPointF(spots[letter])
        assert near.manhattanLength() < 120
    plates = list(boxes.values())
    assert not any(a.intersects(b) for at, a in enumerate(plates) for b in plates[at + 1 :])


@pytest.mark.parametrize("letter", "ABCDE")
def test_a_click_on_a_letter_or_its_joint_chooses(asked, qtbot, letter):
    view = asked.canvas.viewport()
    plate = asked.canvas.letter_boxes()[letter].center().toPoint()
    for spot in (plate, asked.canvas.letter_spots()[letter]):
        with qtbot.waitSignal(asked.chosen) as chosen:
            qtbot.mouseClick(view, LEFT, pos=spot)
        assert chosen.args == [IDS["ABCDE".index(letter)]]


def test_a_click_beside_chooses_nothing(asked, qtbot):
    with qtbot.assertNotEmitted(asked.chosen):
        qtbot.mouseClick(asked.canvas.viewport(), LEFT, pos=QPoint(2, 2))


def test_letters_and_arrows_choose_by_key(asked, qtbot, said):
    with qtbot.waitSignal(asked.chosen) as chosen:
        qtbot.keyClick(asked.canvas, Qt.Key.Key_C)
    assert chosen.args == [C]
    qtbot.keyClick(asked.canvas, Qt.Key.Key_PageDown)
    assert said == ["A, Rivet the upper row. two-part rivet, 3 mm"]
    qtbot.keyClick(asked.canvas, Qt.Key.Key_PageDown)
    with qtbot.waitSignal(asked.chosen) as chosen:
        qtbot.keyClick(asked.canvas, Qt.Key.Key_Return)
    assert chosen.args == [B]
    reached = {asked.canvas.hands.here}
    for key in (Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Left, Qt.Key.Key_Up) * 3:
        qtbot.keyClick(asked.canvas, key)
        reached.add(asked.canvas.hands.here)
    assert reached <= {f"joint:{joint}" for joint in JOINTS}, "arrows go between choices only"
    assert len(reached) > 2


def test_the_form_takes_what_is_chosen_on_the_picture_and_lights_what_is_in_hand(
    asked, qtbot, window
):
    form = make_form(FIRST, asked, window)
    window.setCentralWidget(form)
    form.show()
    qtbot.mouseClick(
        asked.canvas.viewport(), LEFT, pos=asked.canvas.letter_boxes()["D"].center().toPoint()
    )
    assert form.answer() == (D,)
    form.pointed.emit(B)
    assert looks(asked)[JOINTS[1]] is Look.LIT
    assert looks(asked)[JOINTS[0]] is Look.DIM
    form.pointed.emit("")
    assert set(looks(asked).values()) == {Look.PLAIN}


def test_a_choice_lights_its_parts_and_what_its_steps_set(asked):
    asked.light(E)
    assert looks(asked)["piece_0.boss_0"] is Look.LIT
    assert asked.canvas.look_of("part:piece_0.petal_mid") is Look.LIT
    asked.light("no choice")
    assert set(looks(asked).values()) == {Look.PLAIN}


def test_what_all_choices_are_about_is_lit_from_the_first(picture, diagram):
    about = {"joints": (JOINTS[3],), "parts": ("piece_0.strap",), "steps": ()}
    same = replace(FIRST, choices=tuple(replace(one, **about) for one in FIRST.choices))
    picture.show_drill(diagram, same)
    lit = {joint: look is Look.LIT for joint, look in looks(picture).items()}
    assert lit == {joint: joint == JOINTS[3] for joint in JOINTS}
    assert picture.canvas.letter_spots() == {}
    picture.show_drill(diagram, FIRST)
    assert set(looks(picture).values()) == {Look.PLAIN}


def test_letters_stand_only_where_each_choice_has_a_joint_of_its_own(diagram):
    def letters(drill):
        return PictureChoices(drill=drill, diagram=diagram).letters_at(JOINTS)

    assert letters(SOME) == dict(zip("ABCDE", JOINTS, strict=True))
    assert letters(ORDER) == {}
    bare = replace(SOME.choices[0], joints=())
    assert letters(replace(SOME, choices=(bare, *SOME.choices[1:]))) == {}
    twin = replace(SOME.choices[0], joints=(JOINTS[1],))
    assert letters(replace(SOME, choices=(twin, *SOME.choices[1:]))) == {}


def test_without_letters_all_parts_are_walked_and_a_joint_names_its_step(
    picture, diagram, qtbot, said
):
    picture.show_drill(diagram, ORDER)
    qtbot.keyClick(picture.canvas, Qt.Key.Key_PageDown)
    assert "fasteners" in said[0]
    with qtbot.waitSignal(picture.chosen) as chosen:
        picture.canvas.hands.chosen.emit(f"joint:{JOINTS[3]}")
    assert chosen.args == [D]
    with qtbot.assertNotEmitted(picture.chosen):
        picture.canvas.hands.chosen.emit("part:piece_0.strap")


def test_the_piece_that_is_asked_about_is_brought_near(picture, diagram):
    picture.show_drill(diagram, replace(FIRST, parts=("piece_0.strap",)))
    mates = [part.id for part in diagram.parts if part.piece == diagram.parts[0].piece]
    assert picture.canvas.near == picture.canvas.drawing.box_of(mates)
    picture.show_drill(diagram, FIRST)
    assert not picture.canvas.is_near


def test_where_its_piece_is_as_large_as_everything_the_parts_are_brought_near(picture, diagram):
    first = diagram.parts[0].id.partition(".")[0]
    alone = replace(diagram, parts=tuple(p for p in diagram.parts if p.id.startswith(first)))
    picture.show_drill(alone, replace(FIRST, parts=("piece_0.boss",)))
    drawing = picture.canvas.drawing
    assert picture.canvas.near.contains(drawing.box_of(("piece_0.boss",)))
    assert picture.canvas.near.width() < 0.7 * drawing.bounds().width()


# --- what is played ---------------------------------------------------------------------------


def test_pictures_are_stepped_by_keys(asked, diagram, qtbot, said):
    shown = begin_play(asked, diagram)
    assert shown == [PLAY[0]]
    assert asked.bar.said.text() == "Picture 1 of 3: Nothing is done yet."
    for key, frame in (
        (Qt.Key.Key_Right, PLAY[1]),
        (Qt.Key.Key_Space, PLAY[2]),
        (Qt.Key.Key_Left, PLAY[1]),
        (Qt.Key.Key_Up, PLAY[0]),
    ):
        qtbot.keyClick(asked.canvas, key)
        assert shown[-1] is frame
        assert said[-1].endswith(frame.said)
    qtbot.keyClick(asked.canvas, Qt.Key.Key_Left)
    assert len(shown) == 5, "there is none before the first"


def test_pictures_are_stepped_by_mouse(asked, diagram, qtbot):
    shown = begin_play(asked, diagram)
    for button, frame in (
        (asked.bar.on, PLAY[1]),
        (asked.bar.on, PLAY[2]),
        (asked.bar.back, PLAY[1]),
    ):
        qtbot.mouseClick(button, LEFT)
        assert shown[-1] is frame
    qtbot.mouseClick(asked.bar.end, LEFT)
    assert not asked.is_played
    assert not asked.bar.isVisible()


def test_what_is_out_of_reach_is_a_ghost_and_its_part_hatched(asked, diagram, qtbot):
    begin_play(asked, diagram)
    qtbot.keyClick(asked.canvas, Qt.Key.Key_Right)
    assert looks(asked)["piece_0.strap_0"] is Look.LIT
    assert (asked.canvas.ghosts, asked.canvas.hatched) == ((), frozenset())
    plain = asked.canvas.grab().toImage()
    qtbot.keyClick(asked.canvas, Qt.Key.Key_Right)
    assert asked.canvas.ghosts == ("piece_0.upper_0",)
    joint = next(j for j in diagram.joints if j.id == "piece_0.upper_0")
    assert asked.canvas.hatched == frozenset(joint.parts[:1])
    assert asked.canvas.grab().toImage() != plain


def test_a_step_that_sets_no_joint_is_shown_at_its_parts(picture, diagram, qtbot):
    bevel = replace(ORDER.choices[2], joints=(), steps=("bevel",), parts=("piece_0.strap",))
    picture.show_drill(diagram, replace(ORDER, choices=(bevel,)))
    done, late = (
        Frame(done=("bevel",), at="bevel", said="Done."),
        replace(PLAY[2], amiss=("bevel",)),
    )
    begin_play(picture, diagram, frames=(done, late))
    assert picture.canvas.look_of("part:piece_0.strap") is Look.LIT
    qtbot.keyClick(picture.canvas, Qt.Key.Key_Right)
    assert picture.canvas.hatched == {"piece_0.strap"}


def test_the_picture_keeps_its_size_from_sentence_to_sentence(asked, diagram, qtbot):
    long = replace(PLAY[1], said="A long sentence about what cannot be reached any more. " * 4)
    begin_play(asked, diagram, frames=(PLAY[0], long))
    qtbot.waitUntil(lambda: asked.canvas.height() < 360)
    high = asked.canvas.height()
    qtbot.keyClick(asked.canvas, Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: asked.bar.said.height() >= asked.bar.said.heightForWidth(420))
    assert asked.canvas.height() == high


def test_a_play_takes_room_from_what_lies_below_and_gives_it_back(qtbot, diagram, window):
    down = QSplitter(Qt.Orientation.Vertical)
    window.setCentralWidget(down)
    window.resize(500, 460)
    made = DrillPicture(down, is_calm=lambda: True)
    down.addWidget(made)
    down.addWidget(QLabel("told", down))
    down.setSizes([230, 230])
    made.show_drill(diagram, FIRST)
    before = down.sizes()
    begin_play(made, diagram)
    assert down.sizes()[0] > before[0] + 60
    assert down.sizes()[1] >= 0.3 * before[1] - 1
    made.stop()
    assert down.sizes() == before


def test_outlines_of_ghosts_are_drawn_while_they_are_played_only(asked, diagram):
    ring = ((0.0, 0.0), (20.0, 0.0), (20.0, 20.0))
    mark = Mark(kind=MarkKind.GHOST, part="piece_0.petal_mid", spots=ring, severity=Severity.ERROR)
    marked = replace(diagram, marks=(DiagramMark(measure="drill:x", mark=mark),))
    begin_play(asked, marked)
    assert any(key.startswith("mark:") for key in asked.canvas._places)
    asked.stop()
    asked.show_drill(marked, FIRST)
    assert not any(key.startswith("mark:") for key in asked.canvas._places)


def test_escape_shows_the_exercise_again_as_it_was(asked, diagram, qtbot):
    asked.light(B)
    begin_play(asked, diagram)
    assert asked.canvas.letter_spots() == {}
    qtbot.keyClick(asked.canvas, Qt.Key.Key_Right)
    qtbot.keyClick(asked.canvas, Qt.Key.Key_Escape)
    assert not asked.is_played
    assert list(asked.canvas.letter_spots()) == list("ABCDE")
    assert looks(asked)[JOINTS[1]] is Look.LIT
    assert asked.canvas.ghosts == ()


def test_escape_closes_the_pictures_from_their_buttons_too(asked, diagram, qtbot):
    begin_play(asked, diagram)
    asked.bar.on.setFocus()
    qtbot.keyClick(asked.bar.on, Qt.Key.Key_Escape)
    assert not asked.is_played
    assert asked.focusWidget() is asked.canvas


def test_it_goes_by_itself_to_the_end_unless_one_wants_it_calm(asked, diagram, calm, qtbot):
    begin_play(asked, diagram)
    assert not asked.bar.is_running
    assert not asked.bar.run.isVisible()
    asked.stop()
    calm[0] = False
    asked.bar.set_pace(1)
    shown = begin_play(asked, diagram)
    assert asked.bar.is_running
    qtbot.waitUntil(lambda: not asked.bar.is_running)
    assert tuple(shown) == PLAY
    asked.bar.set_pace(60_000)
    qtbot.keyClick(asked.canvas, Qt.Key.Key_Space)
    assert (asked.bar.is_running, shown[-1]) == (True, PLAY[0])
    qtbot.keyClick(asked.canvas, Qt.Key.Key_Space)
    assert not asked.bar.is_running
    qtbot.mouseClick(asked.bar.run, LEFT)
    assert asked.bar.is_running
    qtbot.keyClick(asked.canvas, Qt.Key.Key_Right)
    assert not asked.bar.is_running, "whoever steps by hand goes on by hand"


def test_letters_and_clicks_choose_nothing_while_it_is_played(asked, diagram, qtbot):
    begin_play(asked, diagram)
    with qtbot.assertNotEmitted(asked.chosen):
        qtbot.keyClick(asked.canvas, Qt.Key.Key_A)
        asked.canvas.hands.chosen.emit(f"joint:{JOINTS[0]}")
    assert asked.is_played


def test_nothing_to_play_plays_nothing(asked, diagram):
    assert begin_play(asked, diagram, frames=()) == []
    assert not asked.is_played


def test_everything_has_a_name(asked):
    assert asked.canvas.accessibleName()
    assert asked.canvas.accessibleDescription()
    assert all(button.accessibleName() for button in asked.bar.findChildren(QPushButton))


def test_what_is_opened_and_the_part_worked_at_are_lit(diagram):
    choices = PictureChoices(drill=FIRST, diagram=diagram)
    part = diagram.parts[0].id
    lit = choices.done_in(Frame(done=(), said="Cut it anew.", parts=(part,), opened=(A,)))
    assert (lit.parts, lit.joints) == ((part,), JOINTS[:1])
