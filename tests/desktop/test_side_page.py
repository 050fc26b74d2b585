"""What if, in a page of its own: asked by mouse and keys, answered row by row, spoken as a table."""

import pytest
from desktop.wish_bench import SERIAL, ClashSession, WeekSession, bridge_on
from PySide6.QtCore import Qt

from armorplan.desktop.widgets.side_page import SidePage
from armorplan.desktop.wish_desk import WishDesk

Role = Qt.ItemDataRole


@pytest.fixture
def opened(qapp, clock, qtbot):
    made = []

    def page_on(kind):
        bridge = bridge_on(kind, clock)
        desk = WishDesk(bridge, SERIAL)
        page = SidePage(desk, bridge)
        qtbot.addWidget(page)
        page.show()
        made.append((bridge, desk, page))
        return page

    assert qapp is not None
    yield page_on
    for _, desk, page in made:
        page.close()
        assert desk.close()


def cells(page, column=0):
    model = page.model
    return [model.index(r, column).data() for r in range(model.rowCount())]


def asked(page, qtbot, act):
    with qtbot.waitSignal(page._desk.ended):
        act()


def test_the_usual_questions_stand_beside_the_plan_at_hand(opened, qtbot):
    page = opened(WeekSession)
    asked(page, qtbot, page.usual.click)
    assert cells(page)[0] == "The plan at hand"
    assert "One more like Drying line" in cells(page)
    assert any(c.startswith("Maker away") for c in cells(page))
    at = cells(page).index("One more like Drying line")
    assert "sooner" in cells(page, 3)[at]


def test_what_is_put_together_by_hand_is_asked(opened, qtbot):
    page = opened(WeekSession)
    names = [page.form.subject.itemText(n) for n in range(page.form.subject.count())]
    assert names == [
        "One more like Drying line",
        "One more like Maker",
        "Maker also there",
        "Maker away",
    ]
    assert not page.form.since.isEnabled()
    page.form.subject.setCurrentIndex(2)
    assert page.form.since.isEnabled()
    assert page.form.text.startswith("extra:m:")


def test_enter_asks_what_is_written_out(opened, qtbot):
    page = opened(WeekSession)
    page.form.written.setText("rack:+2")
    asked(page, qtbot, lambda: qtbot.keyClick(page.form.written, Qt.Key.Key_Return))
    assert cells(page) == ["The plan at hand", "2 more like Drying line"]


def test_what_cannot_be_read_says_what_would_be_fine(opened, qtbot):
    page = opened(WeekSession)
    page.form.written.setText("shelf:+1")
    qtbot.keyClick(page.form.written, Qt.Key.Key_Return)
    assert "'shelf' is not in this shop" in page.told.text()
    assert page.model.rowCount() == 0


def test_a_row_is_told_build_by_build_and_taken_away_by_key(opened, qtbot):
    page = opened(WeekSession)
    asked(page, qtbot, lambda: page.ask("rack:+1"))
    page.table.selectRow(1)
    assert page.detail.text().count("\n") == 6
    assert page.detail.text().splitlines()[-1].startswith("Whether it can ")
    assert "Piece 0: " in page.detail.text()
    page.table.setFocus()
    qtbot.keyClick(page.table, Qt.Key.Key_Delete)
    assert cells(page) == ["The plan at hand"]


def test_a_reader_hears_a_whole_row(opened, qtbot):
    page = opened(WeekSession)
    asked(page, qtbot, lambda: page.ask("rack:+1"))
    spoken = page.model.index(1, 0).data(Role.AccessibleTextRole)
    assert spoken.startswith("One more like Drying line. ")
    assert "sooner" in spoken


def test_without_a_plan_it_offers_what_would_free_one(opened, qtbot):
    page = opened(ClashSession)
    assert page.why.isEnabled()
    assert not page.usual.isEnabled()
    asked(page, qtbot, page.why.click)
    assert page.told.text() == "These cannot all hold: the line of Drying line holds 0."
    assert cells(page) == ["The line of Drying line holds 1, not 0"]
    assert cells(page, 4) == ["to add. Change line_mm at [racks.rack] of the shop file."]
    page.table.selectRow(0)
    assert "All is finished" in page.detail.text()


def test_every_field_has_a_name_and_every_button_words(opened):
    page = opened(WeekSession)
    form = page.form
    for field in (form.subject, form.since, form.until, form.written, page.table, page.detail):
        assert field.accessibleName()
    for button in (form.add, page.usual, page.why, page.drop, page.stop):
        assert button.text()


def test_what_is_reckoned_can_be_stopped(opened, qtbot):
    page = opened(WeekSession)
    with qtbot.waitSignal(page._desk.ended):
        page.ask_usual()
        page.stop.click()
    assert not page._desk.is_busy


def test_the_columns_fit_and_sentences_take_the_lines_they_need(opened, qtbot):
    page = opened(WeekSession)
    page.resize(960, 560)
    asked(page, qtbot, page.usual.click)
    heading = page.table.horizontalHeader()
    assert heading.length() <= page.table.viewport().width()
    for column in range(page.model.columnCount()):
        assert heading.sectionSize(column) >= heading.sectionSizeHint(column)
    for row in range(page.model.rowCount()):
        assert page.table.rowHeight(row) >= page.table.sizeHintForRow(row)


def test_the_page_says_what_to_do_and_how_it_is_written_with_this_shop_s_names(opened):
    page = opened(WeekSession)
    assert page.told.text().startswith("Nothing is asked yet.")
    assert page.form.written.placeholderText() == "rack:+1"
    page.form.subject.setCurrentIndex(page.form.subject.findText("Maker also there"))
    assert page.form.written.placeholderText().startswith("extra:m:")
