"""The page of needs: reckoned when it is in sight, one tray or another, saved as CSV."""

from pathlib import Path
from threading import Event

import pytest
from desktop.fake_session import FakeSession
from PySide6.QtWidgets import QFileDialog, QPushButton

from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.needs_html import needs_html
from armorplan.desktop.widgets.needs_page import NeedsView


class Counting(FakeSession):
    """Counts how often the take-off is asked for."""

    asked = 0

    def needs(self, tray: str = ""):
        type(self).asked += 1
        return super().needs(tray)


@pytest.fixture
def view(bridge, qtbot):
    made = NeedsView(bridge)
    qtbot.addWidget(made)
    made.resize(520, 400)
    yield made
    made.end_jobs()


def shown(view, qtbot):
    view.show()
    qtbot.waitUntil(lambda: "Leather" in view.text.toPlainText())
    return view.text.toPlainText()


def test_it_shows_sections_remarks_and_notes_as_written(view, qtbot):
    text = shown(view, qtbot)
    for words in (
        "Shoulder <3 mm>",
        "lower petal & rim",
        "A foot is 9 dm²",
        "Alcohol dye, blue",
        "as the pattern says",
        "3.4 l",
    ):
        assert words in text


def test_what_is_reckoned_for_the_former_build_never_shows_on_the_next(bridge, view, qtbot):
    may_reckon, reckoned = Event(), []

    class Slow(FakeSession):
        def needs(self, tray: str = ""):
            may_reckon.wait(10)
            reckoned.append(tray)
            return super().needs(tray)

    bridge.open(Slow.of(30))
    view.show()
    view.hide()
    bridge.open(FakeSession.of(60))
    may_reckon.set()
    qtbot.waitUntil(lambda: bool(reckoned))
    qtbot.wait(50)
    assert view.text.toPlainText() == ""


def test_out_of_sight_nothing_is_reckoned(bridge, qtbot):
    Counting.asked = 0
    bridge.open(Counting.of(30))
    made = NeedsView(bridge)
    qtbot.addWidget(made)
    bridge.changed.emit()
    assert Counting.asked == 0
    shown(made, qtbot)
    assert Counting.asked == 1
    made.end_jobs()


def test_another_tray_is_reckoned_anew(view, qtbot):
    shown(view, qtbot)
    assert view.trays.isVisible()
    assert view.trays.currentText() == "Long vat"
    view.trays.setCurrentIndex(1)
    view.trays.activated.emit(1)
    qtbot.waitUntil(lambda: "1.1 l" in view.text.toPlainText())
    assert view.trays.currentText() == "Bowl"


def test_another_build_begins_with_its_first_tray(view, bridge, qtbot):
    shown(view, qtbot)
    view.trays.activated.emit(1)
    qtbot.waitUntil(lambda: "1.1 l" in view.text.toPlainText())
    bridge.open(FakeSession.of(30))
    qtbot.waitUntil(lambda: "3.4 l" in view.text.toPlainText())


def test_a_change_at_the_bench_leaves_the_page_where_it_was_read(view, bridge, qtbot):
    view.resize(300, 120)
    shown(view, qtbot)
    bar = view.text.verticalScrollBar()
    bar.setValue(bar.maximum())
    with qtbot.waitSignal(view._reckoner.answered):
        bridge.changed.emit()
    assert bar.value() == bar.maximum() > 0


def test_the_table_is_saved_with_a_mark_of_its_encoding(
    view, bridge, qtbot, tmp_path, monkeypatch
):
    file = tmp_path / "needs.csv"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(file), ""))
    with qtbot.waitSignal(bridge.said) as said:
        view.findChild(QPushButton, "needs_save").click()
    assert str(file) in said.args[0]
    assert file.read_bytes().startswith(b"\xef\xbb\xbfsection,item\r\n")


def test_a_folder_that_is_not_there_is_told(view, bridge, qtbot, tmp_path, monkeypatch):
    file = tmp_path / "gone" / "needs.csv"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(file), ""))
    with qtbot.waitSignal(bridge.said) as said:
        view.ask_file()
    assert said.args[0].startswith("Not written: No such file or directory")


def test_no_file_chosen_writes_nothing(view, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: ("", ""))
    view.ask_file()
    assert not view._writer.is_busy


def test_what_cannot_be_reckoned_is_told(view, bridge, qtbot, monkeypatch):
    def fails(tray: str = ""):
        message = "no leather"
        raise ValueError(message)

    monkeypatch.setattr(bridge.session, "needs", fails)
    view.show()
    qtbot.waitUntil(lambda: "no leather" in view.text.toPlainText())


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_the_page_takes_the_colours_of_the_theme_and_escapes_names(colours, session):
    page = needs_html(session.needs(), colours)
    assert colours.quiet in page
    assert "Shoulder &lt;3\N{NO-BREAK SPACE}mm&gt;" in page
    assert "<b>Alcohol dye, blue</b>" in page


def test_saving_offers_a_file_in_the_person_s_own_folder(view, monkeypatch):
    asked = []
    monkeypatch.setattr(
        QFileDialog, "getSaveFileName", lambda *given: asked.append(given) or ("", "")
    )
    view.ask_file()
    assert asked[0][2] == str(Path.home() / "needs.csv")


def test_a_section_is_gone_to(view, qtbot):
    view.resize(300, 160)
    shown(view, qtbot)
    first, second = view.sections.menu().actions()
    assert (first.text(), second.text()) == ("Leather", "Dye, oil, finish and water")
    second.trigger()
    assert view.text.verticalScrollBar().value() > 0


def test_a_number_stays_with_its_unit(session):
    assert "8.3\N{NO-BREAK SPACE}dm² (0.90\N{NO-BREAK SPACE}ft²)" in needs_html(
        session.needs(), LIGHT
    )
