"""From the bench to a drawing and back; what is dropped on the window; the real reading behind it."""

from pathlib import Path

import pytest
from desktop.fake_bringing import FakeCore
from desktop.fake_session import FakeSession
from PySide6.QtCore import QEvent, QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication
from samples.unnamed_drawing import unnamed_svg

from armorplan.app.bringing.model import QuestionKind
from armorplan.app.derived import derive_build
from armorplan.desktop.bring_core import BroughtIn
from armorplan.desktop.bring_desk import BringDesk
from armorplan.desktop.bring_kept import Begun, BegunFile
from armorplan.desktop.opening import Opener
from armorplan.desktop.widgets import bring_door
from armorplan.desktop.widgets.bring_door import BringDoor
from armorplan.desktop.widgets.bring_page import BringPage
from armorplan.desktop.widgets.open_asking import OpenAsking
from armorplan.desktop.widgets.pattern_doors import PatternDoors
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.kernel.errors import StoppedError, UnreadableError
from armorplan.kernel.findings import has_errors
from armorplan.workshop.shop import one_maker

MOST_CONFIRMED, STEPS_LEAST = 40, 100
PLATES = """<svg xmlns="http://www.w3.org/2000/svg" width="12in" height="4in" viewBox="0 0 12 4">
<g fill="none" stroke="black">
<path d="M1 1h4v2h-4z"/><path d="M6 1h4v1.6h-4z"/>
<circle cx="1.5" cy="2.7" r=".1"/><circle cx="2.5" cy="2.7" r=".1"/>
<circle cx="3.2" cy="2.7" r=".1"/><circle cx="4.6" cy="2.7" r=".1"/>
<circle cx="6.4" cy="1.3" r=".1"/><circle cx="7.4" cy="1.3" r=".1"/>
<circle cx="8.1" cy="1.3" r=".1"/><circle cx="9.5" cy="1.3" r=".1"/>
</g></svg>"""


@pytest.fixture
def opened():
    return []


@pytest.fixture
def opener(bridge, opened):
    def reader(folder: Path, _going_on: str):
        opened.append(folder)
        return lambda: FakeSession.of(10)

    made = Opener(bridge, reader)
    yield made
    assert made.close()


@pytest.fixture
def door(bridge, opener, window, monkeypatch, tmp_path):
    kept = BegunFile(tmp_path / "begun.json")
    monkeypatch.setattr(bring_door, "BegunFile", lambda: kept)
    made = BringDoor(bridge, opener, FakeCore(), window)
    yield made
    made.close()


def carried(*paths):
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    return data


def drop(window, *paths):
    """Drop files on a window; return whether it would take them."""
    data, middle = carried(*paths), QPointF(20, 20)
    button, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    over = QDragEnterEvent(middle.toPoint(), Qt.DropAction.CopyAction, data, button, none)
    over.ignore()
    QApplication.sendEvent(window, over)
    if over.isAccepted():
        QApplication.sendEvent(
            window,
            QDropEvent(middle, Qt.DropAction.CopyAction, data, button, none, QEvent.Type.Drop),
        )
    return over.isAccepted()


def test_what_is_written_is_laid_on_the_bench(door, bridge, opened, qtbot, tmp_path):
    door.bring(Path("lantern.svg"))
    qtbot.waitUntil(lambda: not door.desk.is_busy)
    with qtbot.waitSignal(bridge.opened):
        door.desk.write(tmp_path / "lantern")
    assert opened == [tmp_path / "lantern"]


def test_the_page_is_there_again_as_it_was_left(door, window, qtbot):
    door.bring(Path("lantern.svg"))
    qtbot.waitUntil(lambda: not door.desk.is_busy)
    page = window.findChild(BringPage)
    page.side.asking.go("row")
    page.close()
    door.show_page()
    assert window.findChildren(BringPage) == [page]
    assert page.isVisible()
    assert page.side.asking.question.id == "row"


def test_a_dropped_drawing_is_brought_in_and_all_else_opened(opener, window, opened, qtbot):
    asking = OpenAsking(opener, window)
    with qtbot.waitSignal(asking.drawn) as drawn:
        assert drop(window, "/harbour/lantern.DXF")
    assert drawn.args == [Path("/harbour/lantern.DXF")]
    assert drop(window, "/harbour/shop.toml")
    qtbot.waitUntil(lambda: opened == [Path("/harbour/shop.toml")])


def test_a_dropped_folder_is_opened(opener, window, opened, qtbot, tmp_path):
    OpenAsking(opener, window)
    assert drop(window, tmp_path)
    qtbot.waitUntil(lambda: opened == [tmp_path])


def test_what_cannot_be_opened_is_not_taken(opener, window):
    OpenAsking(opener, window)
    assert not drop(window, "/harbour/song.mp3")
    assert not drop(window, "/harbour/one.svg", "/harbour/two.svg")


def test_without_catalogues_it_says_so(bridge, opener, window, qtbot):
    doors = PatternDoors(bridge, opener, None, None, window)
    with qtbot.waitSignal(bridge.said) as said:
        doors.slots()["bring_in"]()
    assert said.args == ["There are no catalogues here to bring it in with."]


# --- with the real reading ------------------------------------------------------------------------


@pytest.fixture(scope="module")
def shelf():
    return read_shelf()


@pytest.fixture
def core(shelf):
    return BroughtIn(lambda: shelf)


def test_a_drawing_is_read_asked_about_and_written(core, qtbot, tmp_path):
    drawing = tmp_path / "plates.svg"
    drawing.write_text(PLATES)
    desk = BringDesk(core, BegunFile(tmp_path / "begun.json"))
    desk.open(Begun(file=drawing))
    qtbot.waitUntil(lambda: not desk.is_busy, timeout=20_000)
    assert desk.view.mm_each == pytest.approx(25.4)
    assert desk.view.box == pytest.approx((25.4, 25.4, 254, 76.2))
    kinds = [question.kind for question in desk.view.questions]
    assert QuestionKind.ROW in kinds or QuestionKind.ROWS in kinds
    with qtbot.waitSignal(desk.wrote, timeout=20_000):
        desk.write(tmp_path / "plates")
    assert (tmp_path / "plates" / "pattern.toml").exists()
    assert (tmp_path / "plates" / "as_brought" / "plates.svg").read_text() == PLATES
    assert desk.close()


@pytest.mark.long
def test_a_drawing_without_a_word_becomes_a_whole_plan_by_enter_alone(
    core, shelf, qtbot, tmp_path
):
    drawing = tmp_path / "watch parts.svg"
    drawing.write_text(unnamed_svg())
    desk = BringDesk(core, BegunFile(tmp_path / "begun.json"))
    page = BringPage(desk)
    qtbot.addWidget(page)
    page.begin()
    page.show()
    page.open(Begun(file=drawing))
    qtbot.waitUntil(lambda: not desk.is_busy, timeout=30_000)
    page.side.asking.foot.sure.click()
    pressed = 1
    while pressed < MOST_CONFIRMED and _is_open(desk, qtbot):
        qtbot.keyClick(page.side.asking.answers, Qt.Key.Key_Return)
        pressed += 1
    assert not _is_open(desk, qtbot)
    with qtbot.waitSignal(desk.wrote, timeout=30_000):
        desk.write(tmp_path / "watch")
    found = read_pattern(read_folder(tmp_path / "watch"), shelf)
    derived = derive_build(found.pattern, shelf, one_maker("UTC"), build="watch-1")
    assert not has_errors(derived.findings)
    assert len(derived.order) > STEPS_LEAST
    assert desk.close()


def _is_open(desk, qtbot):
    qtbot.waitUntil(lambda: not desk.is_busy, timeout=30_000)
    return any(one.answer is None for one in desk.view.questions)


def test_a_reading_that_is_no_longer_wanted_ends(core, tmp_path):
    drawing = tmp_path / "plates.svg"
    drawing.write_text(PLATES.replace("1.6h-4z", "1.7h-4z"))
    bringing = core.read(Begun(file=drawing), lambda: False)
    with pytest.raises(StoppedError):
        core.look(bringing, lambda: True)


def test_a_file_that_is_not_there_is_told(core, tmp_path):
    with pytest.raises(UnreadableError):
        core.read(Begun(file=tmp_path / "none.svg"), lambda: False)
