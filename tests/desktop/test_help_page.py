"""The help: every page is found, shown, and led to from a reason."""

import re
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QUrl
from PySide6.QtWidgets import QLineEdit, QPushButton, QTextBrowser, QTreeView

from armorplan.app.help_pages import RULE, HelpGroup, help_page, help_pages, page_text, pages_with
from armorplan.desktop.theme import Mode, apply_theme, colours_of
from armorplan.desktop.widgets.help_page import HelpView
from armorplan.desktop.widgets.why_panel import WhyPanel
from armorplan.desktop.widgets.window_pages import Benches, WindowPages
from armorplan.rules.registry import all_rules


@pytest.fixture
def view(qtbot):
    made = HelpView()
    qtbot.addWidget(made)
    return made


def shown(view):
    return view.findChild(QTextBrowser, "help_text").toPlainText()


def test_there_is_a_page_for_every_rule_and_ids_are_unique():
    ids = [page.id for page in help_pages()]
    assert len(set(ids)) == len(ids)
    assert {i for i in ids if i.startswith(RULE)} == {f"{RULE}{r.code}" for r in all_rules()}
    assert {page.group for page in help_pages()} == set(HelpGroup)


def test_every_page_has_a_title_and_no_heading_twice():
    for page in help_pages():
        assert page.title, page.id
        assert len(re.findall(r"^# ", page_text(page.id), re.MULTILINE)) >= 1, page.id


@pytest.mark.parametrize(
    "page_id", ["first_pattern", "own_order", "changes", f"{RULE}cut-before-use"]
)
def test_a_page_opens_by_its_id(view, page_id):
    view.open_at(page_id)
    assert help_page(page_id).title in shown(view)
    assert (
        view.findChild(QTreeView, "help_pages").currentIndex().data() == help_page(page_id).title
    )


def test_an_unknown_page_leaves_the_page_as_it_is(view):
    before = shown(view)
    view.open_at("nothing")
    assert shown(view) == before


def test_words_find_pages_and_clearing_brings_all_back(view, qtbot):
    words = view.findChild(QLineEdit, "help_words")
    qtbot.keyClicks(words, "first pattern")
    assert "Write your first pattern" in shown(view)
    assert pages_with("first pattern")[0].id == "first_pattern"
    words.clear()
    listed = view.findChild(QTreeView, "help_pages").model()
    count = sum(listed.item(at).rowCount() for at in range(listed.rowCount()))
    assert count == len(help_pages())


def test_the_list_keeps_its_place_when_words_are_cleared(view, qtbot):
    view.resize(900, 300)
    view.show()
    words = view.findChild(QLineEdit, "help_words")
    listed = view.findChild(QTreeView, "help_pages")
    qtbot.keyClicks(words, "own order")
    view.open_at(f"{RULE}cut-before-use")
    words.clear()
    here = listed.currentIndex()
    assert here.data() == help_page(f"{RULE}cut-before-use").title
    assert help_page(f"{RULE}cut-before-use").title in shown(view)
    assert listed.viewport().rect().contains(listed.visualRect(here).center())


def test_enter_in_the_words_goes_to_the_pages_and_closes_nothing(view, qtbot):
    view.show()
    words = view.findChild(QLineEdit, "help_words")
    words.setFocus()
    qtbot.keyClicks(words, "wet")
    qtbot.keyClick(words, Qt.Key.Key_Return)
    assert view.isVisible()
    assert view.focusWidget() is view.findChild(QTreeView, "help_pages")


def test_emphasised_titles_of_other_pages_are_links():
    assert "see [Your own order](page:own_order)" in page_text("first_pattern")
    options = next(page for page in help_pages() if page.title.startswith("Build options"))
    parts = next(page for page in help_pages() if page.title.startswith("Parts:"))
    assert f"(see [Build options](page:{options.id}))" in page_text(parts.id)
    for page in help_pages():
        for to in re.findall(r"\]\(page:([^)]+)\)", page_text(page.id)):
            assert help_page(to), (page.id, to)
            assert to != page.id


def test_pages_of_rules_are_found_by_what_they_say_before_they_are_made():
    rule = all_rules()[0]
    assert f"{RULE}{rule.code}" in [page.id for page in pages_with(rule.why)]


def test_words_that_nothing_holds_leave_the_list_empty(view):
    view.findChild(QLineEdit, "help_words").setText("zzzz")
    assert view.findChild(QTreeView, "help_pages").model().rowCount() == 0
    view.open_at("own_order")
    assert "Your own order" in shown(view)


def test_the_page_names_what_it_shows(view):
    view.open_at("own_order")
    page = view.findChild(QTextBrowser, "help_text")
    assert page.accessibleDescription() == "Your own order"
    assert all(w.accessibleName() for w in (page, view.findChild(QTreeView, "help_pages")))


def test_a_link_to_a_page_is_followed(view):
    view.findChild(QTextBrowser, "help_text").anchorClicked.emit(QUrl("page:own_order"))
    assert "Your own order" in shown(view)


def test_a_reason_leads_to_its_rule(bridge, qtbot):
    panel = WhyPanel(bridge)
    qtbot.addWidget(panel)
    pages = WindowPages(bridge, Path("faults.log"), Benches(None, None), panel)
    wanted = []
    bridge.help_wanted.connect(wanted.append)
    panel.show()
    last = bridge.session.steps[-1].id
    bridge.choose_steps((last,))
    button = next(b for b in panel.findChildren(QPushButton) if b.objectName().startswith("rule_"))
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert wanted == [f"{RULE}{button.objectName().removeprefix('rule_')}"]
    help_view = panel.findChild(HelpView)
    assert help_view.isVisible()
    pages.show_help()
    assert panel.findChildren(HelpView) == [help_view]
    help_view.close()


def test_the_help_fits_the_screen(view):
    room = view.screen().availableSize()
    assert view.width() < room.width()
    assert view.height() < room.height()


@pytest.mark.parametrize("mode", [Mode.LIGHT, Mode.DARK])
def test_what_is_to_be_typed_stands_on_a_shade_of_its_own(view, qapp, mode):
    palette = qapp.palette()
    apply_theme(qapp, mode)
    view.open_at("own_order")
    block = view.findChild(QTextBrowser, "help_text").document().begin()
    shades = set()
    while block.isValid():
        if block.text().startswith("[relations."):
            shades.add(block.blockFormat().background().color().name())
        block = block.next()
    colours = colours_of(view.palette())
    qapp.setPalette(palette)
    assert shades == {colours.bar}
    assert colours.bar != colours.panel
