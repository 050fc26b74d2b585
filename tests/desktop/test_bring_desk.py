"""A drawing on its way to a pattern: answers, the way back, what is kept, what is refused."""

from pathlib import Path
from threading import Event

import pytest
from desktop.fake_bringing import REFUSED, FakeCore

from armorplan.app.bringing.answering import Fact
from armorplan.desktop.bring_desk import BringDesk
from armorplan.desktop.bring_kept import Begun, BegunFile
from armorplan.geometry.brought.model import ShapeKind

LANTERN = Begun(file=Path("lantern.svg"))


@pytest.fixture
def core():
    return FakeCore()


@pytest.fixture
def kept(tmp_path):
    return BegunFile(tmp_path / "begun.json")


@pytest.fixture
def desk(qapp, core, kept):
    made = BringDesk(core, kept)
    yield made
    made.close()


@pytest.fixture
def opened(desk, qtbot):
    desk.open(LANTERN)
    qtbot.waitUntil(lambda: not desk.is_busy)
    return desk


def test_a_drawing_is_read_and_asked_about(opened):
    assert opened.view.questions[0].id == "unit"
    assert opened.view.mm_each == 25.4


def test_the_lines_are_shown_before_it_is_known_what_they_make(desk, qtbot):
    counts, said = [], []
    desk.shown.connect(lambda view: counts.append(len(view.questions)))
    desk.busy.connect(said.append)
    desk.open(LANTERN)
    qtbot.waitUntil(lambda: not desk.is_busy)
    assert counts == [2, 4]
    assert said == ["Reading lantern.svg …", "Looking which rows fit …", ""]


def test_an_answer_is_taken_and_taken_back(opened, qtbot):
    with qtbot.waitSignal(opened.shown):
        opened.answer("unit", "1")
    assert opened.view.mm_each == 1.0
    with qtbot.waitSignal(opened.shown):
        opened.go_back()
    assert opened.view.questions[0].answer is None
    assert not opened.can_go_back


def test_answers_given_while_it_reckons_are_all_taken(opened, qtbot):
    opened.answer("unit", "1")
    with qtbot.waitSignal(opened.shown):
        opened.answer("row", "none")
    qtbot.waitUntil(lambda: not opened.is_busy)
    assert opened.view.bringing.answers == {"unit": "1", "row": "none"}


def test_all_that_is_sure_is_taken_at_once(opened, qtbot):
    with qtbot.waitSignal(opened.shown):
        opened.take_sure()
    assert opened.view.bringing.answers == {"holes": "hole", "material": "veg_9oz"}


def test_a_shape_is_taken_for_another_kind_and_named(opened, qtbot):
    with qtbot.waitSignal(opened.shown):
        opened.say_kind("slot", ShapeKind.ENGRAVING)
    with qtbot.waitSignal(opened.shown):
        opened.say_fact("lower", Fact.NAME, "gorget")
    shapes = {shape.key: shape for shape in opened.view.found.shapes}
    assert shapes["slot"].kind is ShapeKind.ENGRAVING
    assert shapes["lower"].name == "gorget"


def test_a_known_length_tells_the_unit_of_the_file(opened, qtbot):
    with qtbot.waitSignal(opened.shown):
        assert opened.say_length((0.0, 0.0), (25.4, 0.0), 10.0)
    assert opened.view.mm_each == 10.0


def test_one_and_the_same_point_tells_nothing(opened):
    assert not opened.say_length((3.0, 4.0), (3.0, 4.0), 10.0)


def test_what_was_answered_is_there_in_the_next_window(opened, qtbot, core, kept):
    with qtbot.waitSignal(opened.shown):
        opened.answer("row", "none")
    begun = kept.held()
    assert begun.file == Path("lantern.svg")
    later = BringDesk(core, kept)
    later.open(begun)
    qtbot.waitUntil(lambda: not later.is_busy)
    assert later.view.bringing.answers == {"row": "none"}
    later.close()


def test_what_is_written_is_not_offered_again(opened, qtbot, core, kept, tmp_path):
    with qtbot.waitSignal(opened.wrote) as wrote:
        opened.write(tmp_path / "lantern")
    assert wrote.args == [tmp_path / "lantern", ("The gorget has 1 slot without a use yet.",)]
    assert core.written[0][1:] == (Path("lantern.svg"), tmp_path / "lantern")
    assert kept.held() is None


def test_a_file_that_is_no_drawing_says_why(desk, qtbot):
    with qtbot.waitSignal(desk.refused) as refused:
        desk.open(Begun(file=Path("lantern.pdf")))
    assert refused.args == [(REFUSED,)]
    assert not desk.is_open


def test_a_reading_can_be_stopped(desk, qtbot, core):
    core.wait = Event()
    desk.open(LANTERN)
    with qtbot.waitSignal(desk.said) as said:
        desk.stop()
    core.wait.set()
    assert said.args == ["Stopped. Nothing was brought in."]
    assert not desk.is_open


def test_an_answer_that_nothing_can_be_made_of_is_taken_back(opened, qtbot):
    with qtbot.waitSignal(opened.refused):
        opened.answer("unit", "none")
    assert opened.view.bringing.answers == {}
    assert not opened.can_go_back


def test_what_was_begun_and_is_damaged_is_not_offered(tmp_path):
    path = tmp_path / "begun.json"
    for text in ("{", "[]", '{"form": 1}', '{"form": 9, "file": "x", "answers": {}}'):
        path.write_text(text)
        assert BegunFile(path).held() is None


def test_where_nothing_can_be_kept_it_is_said(tmp_path):
    (tmp_path / "file").write_text("")
    said = BegunFile(tmp_path / "file" / "begun.json").keep(LANTERN)
    assert said.startswith("Your answers are not kept for later:")
