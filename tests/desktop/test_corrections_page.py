"""What dry fits ask of the pattern, in the window: looked at, accepted by keys, kept with a note."""

from datetime import date

import pytest
from desktop.fake_corrections import ADVICE, FakeTaught
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QLineEdit, QListWidget, QPlainTextEdit

from armorplan.desktop.corrections_desk import CorrectionsDesk
from armorplan.desktop.widgets.corrections_door import CorrectionsDoor
from armorplan.desktop.widgets.corrections_page import CorrectionsPage


@pytest.fixture
def taught():
    return FakeTaught()


@pytest.fixture
def desk(bridge, taught):
    made = CorrectionsDesk(bridge, taught)
    yield made
    made.close()


@pytest.fixture
def page(desk, qtbot):
    made = CorrectionsPage(desk)
    qtbot.addWidget(made)
    made.show()
    made.begin()
    qtbot.waitUntil(lambda: not desk.is_busy)
    return made


def lines(listed):
    return [listed.item(row).text().split("\n") for row in range(listed.count())]


def test_each_correction_says_what_it_is_and_how_it_stands(page):
    assert lines(page.rows) == [
        ["\N{BALLOT BOX} Gap at left row; moves 2.0 mm", "    not accepted"],
        ["\N{BALLOT BOX} Gap at right row; a check", "    not accepted"],
        ["\N{CHECK MARK} Gap at boss; moves 0.5 mm", "    in the pattern"],
    ]
    assert page.head.text() == ("2 offered, 0 accepted. Space accepts or rejects what is chosen.")


def test_the_details_tell_where_it_was_found_and_what_it_means_for_cut_leather(page):
    assert page.details.toPlainText().split("\n") == [
        "The hole at left row moves.",
        "",
        "Found in",
        "• First watch (version 1): a gap of 2 mm",
        "",
        "For leather of builds that were begun",
        "• First watch, left petal: make the hole oval. " + ADVICE.text,
        "• Caution: Wear goggles.",
    ]


def test_the_picture_shows_the_holes_before_and_after_near_by(page):
    picture = page.picture
    assert list(picture.places()) == ["left_3", "left_4"]
    assert picture.words_of("left_3") == "left_3 in left petal moves 2.0 mm"
    assert picture.is_near
    whole = picture.bounds().height()
    seen = picture.mapToScene(picture.viewport().rect()).boundingRect()
    assert seen.contains(*picture.places()["left_3"])
    assert seen.height() < whole


def test_a_hole_in_the_picture_is_found_by_mouse_and_keys(page, qtbot):
    picture = page.picture
    spot = picture.mapFromScene(*picture.places()["left_4"])
    assert picture.key_at(spot) == "left_4"
    picture.setFocus(Qt.FocusReason.TabFocusReason)
    assert picture.hands.here == "left_3"
    qtbot.keyClick(picture, Qt.Key.Key_PageDown)
    assert picture.hands.here == "left_4"


def test_a_check_moves_nothing_and_says_so(page):
    page.rows.setCurrentRow(1)
    assert not page.picture.isVisible()
    told = page.details.toPlainText()
    assert "No hole moves: the next build is asked to look there." in told
    assert "the check says of the same holes\n• The lame is bent too tight." in told


def test_space_accepts_and_accepts_no_more(page, qtbot):
    qtbot.keyClick(page.rows, Qt.Key.Key_Space)
    assert lines(page.rows)[0] == [
        "\N{BALLOT BOX WITH CHECK} Gap at left row; moves 2.0 mm",
        "    accepted",
    ]
    assert page.foot.keep.isEnabled()
    qtbot.keyClick(page.rows, Qt.Key.Key_Space)
    assert lines(page.rows)[0][1] == "    not accepted"
    assert not page.foot.keep.isEnabled()


def test_what_is_in_the_pattern_cannot_be_accepted_again(page, qtbot):
    page.rows.setCurrentRow(2)
    qtbot.keyClick(page.rows, Qt.Key.Key_Return)
    assert lines(page.rows)[2][1] == "    in the pattern"
    assert not page.foot.turn.isEnabled()


def test_what_is_accepted_is_kept_with_its_note_and_day(page, desk, taught, clock, qtbot):
    qtbot.keyClick(page.rows, Qt.Key.Key_Space)
    assert page.foot.keep.text() == "&Keep as version 2"
    page.foot.note.setText(" The left row meets. ")
    with qtbot.waitSignal(desk.shown):
        page.foot.keep.click()
    (keys, note, on) = taught.kept[0]
    assert (keys, note) == (frozenset({"left row"}), "The left row meets.")
    assert isinstance(on, date)
    assert on == clock.now().date()
    assert page.said.text().startswith("Kept in version 3 of the pattern")
    assert lines(page.rows)[0][1] == "    in the pattern"
    assert page.head.text().startswith("1 offered, 0 accepted.")


def test_all_that_is_offered_is_accepted_at_once(page):
    page.foot.all.click()
    assert [line[1].strip() for line in lines(page.rows)] == [
        "accepted",
        "accepted",
        "in the pattern",
    ]


def test_nothing_accepted_keeps_nothing_and_says_how(page, taught, qtbot):
    qtbot.keyClick(page.foot.note, Qt.Key.Key_Return)
    assert taught.kept == []
    assert page.said.text() == "Accept a correction first: Space accepts what is chosen."


def test_where_it_cannot_be_written_it_says_why(page, desk, taught, qtbot):
    taught.refuses = "Somebody else wrote the pattern since."
    page.foot.all.click()
    with qtbot.waitSignal(desk.said):
        page.foot.keep.click()
    assert page.said.text() == "Somebody else wrote the pattern since."
    assert lines(page.rows)[0][1] == "    accepted"


def test_a_pattern_that_may_not_be_written_is_looked_at_only(desk, taught, qtbot):
    taught.said = "The samples are not written to."
    page = CorrectionsPage(desk)
    qtbot.addWidget(page)
    page.begin()
    qtbot.waitUntil(lambda: not desk.is_busy)
    page.foot.all.click()
    assert not page.foot.keep.isEnabled()
    assert page.said.text() == "The samples are not written to."


def test_versions_tell_what_they_brought_and_what_was_cut_from_them(page):
    assert lines(page.versions.lines) == [
        [
            "Version 2 – as the folder holds it · none cut from it",
            "    The boss sits straight.",
        ],
        ["Version 1 · 1 cut from it, 1 only begun"],
    ]
    page.versions.lines.setCurrentRow(0)
    assert page.versions.told.toPlainText().split("\n") == [
        "The boss sits straight.",
        "Kept on 2026-11-20.",
        "Learned from First watch.",
        "• boss_left moved 0.5 mm.",
    ]
    page.versions.lines.setCurrentRow(1)
    assert "First watch (at the bench)" in page.versions.told.toPlainText()
    assert "was cut from version 1." in page.versions.told.toPlainText()


def test_where_nothing_was_found_it_says_where_corrections_come_from(desk, taught, qtbot):
    taught.none = True
    page = CorrectionsPage(desk)
    qtbot.addWidget(page)
    page.begin()
    qtbot.waitUntil(lambda: not desk.is_busy)
    assert page.head.text() == "The dry fits of this pattern's builds ask for nothing."
    assert page.details.toPlainText().startswith("Tell at a dry fit what you find")
    assert not page.foot.all.isEnabled()


def test_a_build_that_has_no_pattern_is_told(bridge, qtbot):
    class NoPattern(FakeTaught):
        def asking(self, _session):
            raise TypeError("only a build of the workshop has a pattern")

    desk = CorrectionsDesk(bridge, NoPattern())
    with qtbot.waitSignal(desk.said) as said:
        desk.ask()
    assert said.args == ["only a build of the workshop has a pattern"]


def test_the_door_opens_one_page_that_follows_the_bench(bridge, session, taught, window, qtbot):
    door = CorrectionsDoor(bridge, taught, window)
    door.show_page()
    qtbot.waitUntil(lambda: not door.desk.is_busy)
    with qtbot.waitSignal(door.desk.shown):
        bridge.open(session)
    door.show_page()
    qtbot.waitUntil(lambda: not door.desk.is_busy)
    assert len(window.findChildren(CorrectionsPage)) == 1
    door.close()


def test_every_control_has_a_name_and_it_fits_a_small_screen(page):
    kinds = (QAbstractButton, QLineEdit, QListWidget, QPlainTextEdit)
    controls = [one for kind in kinds for one in page.findChildren(kind)]
    named = [c.accessibleName() or getattr(c, "text", str)() for c in controls]
    assert all(named)
    assert page.minimumSizeHint().width() <= 984
    assert page.minimumSizeHint().height() <= 700
