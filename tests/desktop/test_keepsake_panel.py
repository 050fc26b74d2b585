"""Notes, measurements and photos in the window: kept of what is chosen, and seen at the step."""

import pytest
from desktop.fake_keepsakes import FakeKeepsakeShelf
from PySide6.QtCore import QMimeData, Qt, QUrl
from PySide6.QtGui import QColor, QGuiApplication, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from armorplan.app.keepsakes import Keepsakes
from armorplan.desktop.keepsake_words import at_step_words, number_of, what_words
from armorplan.desktop.widgets.keepsake_panel import KeepsakePanel
from armorplan.desktop.widgets.why_panel import WhyPanel
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.keepsakes import THE_BUILD, AboutKind, Keepsake, KeepsakeKind


@pytest.fixture
def shelf(tmp_path):
    return FakeKeepsakeShelf(folder=tmp_path)


@pytest.fixture
def step(session, bridge, shelf):
    session.keepsakes = Keepsakes(session.build_id, shelf, session.clock, who="Ada")
    found = next(s for s in session.steps if s.joints)
    bridge.choose_steps((found.id,))
    return found


@pytest.fixture
def panel(qtbot, bridge, step):
    made = KeepsakePanel(bridge)
    qtbot.addWidget(made)
    made.resize(700, 600)
    made.show()
    made.begin()
    yield made
    made.close_jobs()
    made.close()


@pytest.fixture
def picture(tmp_path):
    image = QImage(40, 20, QImage.Format.Format_RGB32)
    image.fill(QColor("#a05020"))
    path = tmp_path / "gap.png"
    assert image.save(str(path))
    return path


def typed(panel, text, value=""):
    QTest.keyClicks(panel.text, text)
    QTest.keyClicks(panel.value, value)
    QTest.keyClick(panel.value if value else panel.text, Qt.Key.Key_Return)


def test_enter_keeps_a_note_of_the_chosen_step(panel, shelf, step):
    typed(panel, "The edge is proud here.")
    (kept,) = shelf.kept
    assert (kept.about.kind, kept.about.id) == (AboutKind.STEP, step.id)
    assert kept.kind is KeepsakeKind.NOTE
    assert "Ada: The edge is proud here." in panel.kept.item(0).text()
    assert panel.text.text() == ""
    assert panel.said.text() == "The note is kept."


def test_a_number_beside_it_makes_a_measurement_with_its_unit(panel, shelf):
    panel.unit.setCurrentText("mm")
    typed(panel, "gap at hole 3", "4,5")
    assert (shelf.kept[0].value, shelf.kept[0].unit) == (4.5, "mm")
    assert panel.kept.item(0).text().endswith("gap at hole 3: 4.5 mm")


def test_what_is_no_number_is_told_and_left_to_be_mended(panel, shelf):
    typed(panel, "gap", "about four")
    assert shelf.kept == []
    assert "'about four' is no number." in panel.said.text()
    assert (panel.text.text(), panel.value.text()) == ("gap", "about four")


def test_an_empty_note_is_not_kept(panel, shelf):
    typed(panel, "")
    assert shelf.kept == []
    assert "empty" in panel.said.text()


def test_it_can_be_kept_of_a_part_or_of_the_whole_build(panel, shelf, step, bridge):
    names = [panel.of.itemText(n) for n in range(panel.of.count())]
    assert names[0] == step.title
    assert names[-1] == "The whole build"
    assert len(names) == 2 + len(bridge.selection.parts)
    panel.of.setCurrentIndex(1)
    typed(panel, "dark spot")
    assert shelf.kept[0].about.kind is AboutKind.PART
    panel.of.setCurrentIndex(panel.of.count() - 1)
    assert panel.kept.count() == 0
    typed(panel, "for the harbour day")
    assert shelf.kept[1].about == THE_BUILD


def test_a_pasted_picture_is_copied_kept_and_shown(qtbot, panel, shelf, picture):
    QGuiApplication.clipboard().setImage(QImage(str(picture)))
    panel.text.setText("the gap")
    with qtbot.waitSignal(panel.desk.kept):
        panel.paste.click()
    (kept,) = shelf.kept
    assert kept.kind is KeepsakeKind.PHOTO
    assert kept.text == "the gap"
    qtbot.waitUntil(lambda: panel.photo.accessibleName() == "Photo: the gap")
    place = panel.photo.place()
    assert panel.photo.isVisible()
    assert place.width() / place.height() == pytest.approx(2.0, rel=0.02)


def test_a_picture_file_can_be_pasted_too(qtbot, panel, shelf, picture):
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(picture))])
    QGuiApplication.clipboard().setMimeData(data)
    with qtbot.waitSignal(panel.desk.kept):
        QTest.keyClick(
            panel.text,
            Qt.Key.Key_V,
            Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier,
        )
    assert shelf.kept[0].file.place.endswith(".png")


def test_what_is_no_picture_is_refused_in_words(qtbot, panel, shelf, tmp_path):
    (tmp_path / "list.txt").write_text("rivets")
    with qtbot.waitSignal(panel.desk.refused):
        panel._copy(tmp_path / "list.txt")
    assert "list.txt" in panel.said.text()
    assert shelf.kept == []


def test_without_a_copied_picture_it_says_what_to_do(panel):
    QGuiApplication.clipboard().setText("words")
    panel.paste.click()
    assert "No picture was copied." in panel.said.text()


def test_a_photo_that_is_gone_is_told(qtbot, panel, shelf, picture):
    with qtbot.waitSignal(panel.desk.kept):
        panel._copy(picture)
    shelf.files.path(shelf.kept[0].file.place).unlink()
    panel.refresh()
    panel._show_photo()
    assert panel.photo.accessibleName() == panel._bridge.session.keepsakes.amiss(shelf.kept[0])
    assert panel.photo.accessibleName()


def test_delete_shows_it_no_more(panel, shelf):
    typed(panel, "wrong step")
    QTest.keyClick(panel.kept, Qt.Key.Key_Delete)
    assert shelf.kept == []
    assert "shown no more" in panel.said.text()
    assert not panel.kept.isVisible()


def test_a_workshop_that_cannot_be_read_is_told(panel, shelf):
    def of(_build):
        raise WorkshopError("The workshop is in use.")

    shelf.of = of
    panel.refresh()
    assert panel.said.text() == "The workshop is in use."


def test_it_is_seen_at_the_step(qtbot, bridge, step, panel):
    why = WhyPanel(bridge)
    qtbot.addWidget(why)
    why.show()
    assert why.findChild(QWidget, "why_kept") is None
    typed(panel, "gap", "4")
    assert "↔ gap: 4 mm" in why.findChild(QWidget, "why_kept").text()
    why.close()


def test_big_leaves_out_what_opens_a_dialog(qtbot, bridge, step):
    big = KeepsakePanel(bridge, big=True)
    qtbot.addWidget(big)
    big.resize(1024, 700)
    big.show()
    assert big.file.isHidden()
    assert big.keep.height() >= 88
    big.close_jobs()
    big.close()


def test_words_of_what_is_kept(session):
    kept = tuple(
        Keepsake(build="b", about=THE_BUILD, at=session.clock.now(), text=f"note {n}")
        for n in range(5)
    )
    assert at_step_words(kept) == "Kept here: ✎ note 4; ✎ note 3; ✎ note 2; and 2 more"
    assert at_step_words(()) == ""
    number = Keepsake(build="b", about=THE_BUILD, at=session.clock.now(), value=3.0)
    assert what_words(number) == "3"
    assert number_of("x") is None
