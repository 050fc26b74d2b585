"""The keys page is made from the table of actions and carries the notice."""

from pathlib import Path

from PySide6.QtWidgets import QLabel, QTableWidget

from armorplan.desktop.actions import TABLE
from armorplan.desktop.widgets.keys_page import KeysPage, keys_text


def test_every_action_stands_on_the_page_with_its_keys(qtbot):
    page = KeysPage(Path("faults.log"))
    qtbot.addWidget(page)
    table = page.findChild(QTableWidget, "keys_table")
    shown = {table.item(at, 0).text(): table.item(at, 1).text() for at in range(table.rowCount())}
    assert shown == {action.text: keys_text(action) for action in TABLE}
    assert shown["Done"] == "Space in the checklist, F9"
    assert shown["Restore"] == "Ctrl+Shift+Z, Ctrl+Y"


def test_it_says_what_the_armour_is_not_and_where_faults_go(qtbot):
    page = KeysPage(Path("faults.log"))
    qtbot.addWidget(page)
    told = " ".join(label.text() for label in page.findChildren(QLabel))
    assert "costume, not protective equipment" in told
    assert "faults.log" in told
