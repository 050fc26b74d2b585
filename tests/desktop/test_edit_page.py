"""The page of texts and numbers on a real pattern: typed, refused, taken back, saved."""

import itertools

import pytest
from desktop.drafts import add_options, open_draft
from folders_cli import copy_sample
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QCheckBox,
    QComboBox,
    QFileDialog,
    QLabel,
    QLineEdit,
    QListView,
    QPlainTextEdit,
    QPushButton,
)

from armorplan.desktop.draft_desk import DraftDesk
from armorplan.desktop.widgets.edit_page import EditPage


@pytest.fixture
def folder(tmp_path):
    made = copy_sample(tmp_path)
    add_options(made)
    return made


@pytest.fixture
def desk(qapp, folder):
    made = DraftDesk()
    yield made
    assert made.close()


@pytest.fixture
def page(desk, folder, qtbot):
    made = EditPage(desk)
    qtbot.addWidget(made)
    desk.open(open_draft(folder))
    made.show()
    qtbot.waitExposed(made)
    made.go(None)
    return made


def control(page, kind, *path):
    found = page.findChild(kind, "field_" + ".".join(path))
    assert found is not None, path
    return found


def refusal(page, *path):
    return page.findChild(QLabel, "refusal_" + ".".join(path))


def press(page, name):
    page.findChild(QPushButton, f"edit_{name}").click()


def type_over(qtbot, line, text):
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)
    qtbot.keyClick(line, Qt.Key.Key_Return)


def test_it_opens_on_the_build_options_with_the_choice_in_force(page, desk, qtbot):
    assert page.entries.entry.table == "options"
    chosen = control(page, QComboBox, "options", "dyed", "chosen")
    assert chosen.currentText() == "wiped"
    with qtbot.waitSignal(desk.shown):
        chosen.setCurrentIndex(chosen.findText("dipped"))
    assert desk.draft.entry("options", "dyed")["chosen"] == "dip"


def test_a_typed_name_is_taken_and_can_be_taken_back(page, desk, qtbot):
    page.go(("parts", "boss"))
    name = control(page, QLineEdit, "parts", "boss", "name")
    assert name.hasFocus()
    with qtbot.waitSignal(desk.shown):
        type_over(qtbot, name, "brass boss")
    assert page.entries.entry.title == "brass boss"
    assert page.isWindowModified()
    press(page, "undo")
    assert name.text() == "boss"
    assert not page.isWindowModified()
    press(page, "redo")
    assert name.text() == "brass boss"


def test_what_was_not_taken_is_told_below_its_field_and_stays_typed(page, desk, qtbot):
    page.go(("materials", "cop_leather"))
    thick = control(page, QLineEdit, "materials", "cop_leather", "thickness")
    with qtbot.waitSignal(desk.refused):
        type_over(qtbot, thick, "thick")
    told = refusal(page, "materials", "cop_leather", "thickness")
    assert told.isVisible()
    assert "not a thickness" in told.text()
    assert thick.text() == "thick"
    with qtbot.waitSignal(desk.shown):
        type_over(qtbot, thick, "8-9 oz")
    assert not told.isVisible()
    assert page.findChild(QLabel, f"{thick.objectName()}.also").text() == "= 3.18–3.57 mm"


def test_flags_choices_and_notes_are_written_when_they_are_left(page, desk, qtbot):
    page.go(("parts", "boss"))
    with qtbot.waitSignal(desk.shown):
        control(page, QCheckBox, "parts", "boss", "skived").click()
    grain = control(page, QComboBox, "parts", "boss", "grain")
    with qtbot.waitSignal(desk.shown):
        grain.setCurrentIndex(grain.findData("in"))
    notes = control(page, QPlainTextEdit, "parts", "boss", "notes")
    notes.setFocus()
    qtbot.keyClicks(notes, "over the tab")
    with qtbot.waitSignal(desk.shown):
        notes.clearFocus()
    held = desk.draft.entry("parts", "boss")
    assert (held["skived"], held["grain"], held["notes"]) == (True, "in", "over the tab")


def test_going_on_without_a_change_writes_nothing(page, desk):
    before = desk.draft.text
    for group, entry in (("parts", "boss"), ("joints", "tab_top"), ("forms", "petal_dish")):
        page.go((group, entry))
        for box in page.form.findChildren(QLineEdit):
            box.setFocus()
        page.form.commit()
    desk.settle()
    assert desk.draft.text == before


def test_saving_takes_in_what_is_still_being_typed(page, desk, folder, qtbot):
    page.go(("parts", "boss"))
    name = control(page, QLineEdit, "parts", "boss", "name")
    name.selectAll()
    qtbot.keyClicks(name, "brass boss")
    with qtbot.waitSignal(desk.saved):
        qtbot.keyClick(name, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    assert 'name = "brass boss"' in (folder / "pattern.toml").read_text(encoding="utf-8")
    assert not page.isWindowModified()


def test_what_another_program_changed_is_not_written_over(page, desk, folder, qtbot):
    page.go(("parts", "boss"))
    with qtbot.waitSignal(desk.shown):
        type_over(qtbot, control(page, QLineEdit, "parts", "boss", "name"), "brass boss")
    (folder / "pattern.toml").write_text("format = 1\n", encoding="utf-8")
    with qtbot.waitSignal(desk.unsaved):
        press(page, "save")
    said = page.findChild(QLabel, "edit_said")
    assert said.isVisible()
    assert "changed by another program" in said.text()
    assert page.isWindowModified()


def test_a_sample_is_saved_as_a_copy(page, desk, folder, qtbot, monkeypatch):
    desk.open(open_draft(folder, said="This is a sample."))
    assert "This is a sample." in page.findChild(QLabel, "edit_where").text()
    copy = folder.parent / "mine"
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_asked: str(copy))
    with qtbot.waitSignal(desk.saved):
        press(page, "copy")
    assert (copy / "elbow_cop.svg").exists()
    assert str(copy) in page.findChild(QLabel, "edit_where").text()
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_asked: "")
    press(page, "copy")
    assert desk.home.folder == copy


def test_a_step_of_ones_own_is_added_and_taken_out(page, desk, qtbot):
    page.begin_new("own_steps")
    name = control(page.new, QLineEdit, "own_steps", "", "name")
    assert name.hasFocus()
    press(page, "keep_new")
    assert page.findChild(QLabel, "edit_said").isVisible()
    qtbot.keyClicks(name, "Wax the edge")
    press(page, "keep_new")
    assert page.entries.entry.id == "wax_the_edge"
    assert desk.draft.entry("own_steps", "wax_the_edge")["piece"] == "elbow_cop"
    assert not page.findChild(QLabel, "edit_said").isVisible()
    with qtbot.waitSignal(desk.shown):
        press(page, "drop")
    assert not desk.draft.entry("own_steps", "")
    press(page, "undo")
    assert desk.draft.entry("own_steps", "wax_the_edge")


def test_what_an_edit_makes_worth_a_look_is_told_and_taken(page, desk, qtbot):
    page.begin_new("overruled", held={"rule": "dry-before-handling", "step": "cut/boss"})
    press(page, "keep_new")
    said = page.findChild(QLabel, "edit_said")
    assert said.isVisible()
    assert "there it says nothing" in said.text()
    assert desk.draft.entry("overruled", "")
    press(page, "undo")
    assert not said.isVisible()


def test_a_new_entry_is_dropped_by_going_elsewhere(page, desk):
    page.begin_new("corrections")
    page.go(("parts", "boss"))
    assert page.form.isVisible()
    page.begin_new("relations", shape=("together",))
    press(page, "drop_new")
    assert page.form.isVisible()
    assert not desk.is_dirty


def test_esc_drops_a_new_entry_first_and_then_closes(page, desk, qtbot):
    page.begin_new("corrections")
    qtbot.keyClick(page.new, Qt.Key.Key_Escape)
    assert page.isVisible()
    assert page.form.isVisible()
    qtbot.keyClick(page.entries.list, Qt.Key.Key_Escape)
    assert not page.isVisible()
    assert not desk.is_dirty


def test_steps_are_chosen_from_a_list_or_typed(page, desk, qtbot):
    page.begin_new("relations", shape=("first", "then"))
    first = control(page.new, QComboBox, "relations", "", "first")
    assert first.findText("cut/boss") >= 0
    first.setEditText("cut/boss")
    control(page.new, QComboBox, "relations", "", "then").setEditText("cut/keeper")
    press(page, "keep_new")
    assert page.entries.entry.table == "relations"
    (held,) = (desk.draft.entry("relations", e) for e in desk.draft.entry("relations", ""))
    assert held == {"first": "cut/boss", "then": "cut/keeper"}


def test_names_are_ticked_in_a_menu(page, desk, qtbot):
    page.go(("parts", "boss"))
    line = control(page, QLineEdit, "parts", "boss", "only_with")
    menu = page.findChild(QPushButton, f"choose_{line.objectName()}").menu()
    (dipped,) = (action for action in menu.actions() if "dip" in action.text())
    with qtbot.waitSignal(desk.shown):
        dipped.toggle()
    assert desk.draft.entry("parts", "boss")["only_with"] == ["dyed.dip"]
    with qtbot.waitSignal(desk.shown):
        dipped.toggle()
    assert not desk.draft.entry("parts", "boss").get("only_with")


def test_words_lead_to_an_entry_by_keys_alone(page, qtbot):
    qtbot.keyClick(page, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    assert page.entries.words.hasFocus()
    qtbot.keyClicks(page.entries.words, "lace tab")
    qtbot.keyClick(page.entries.words, Qt.Key.Key_Return)
    listed = page.findChild(QListView, "edit_list")
    assert listed.hasFocus()
    qtbot.keyClick(listed, Qt.Key.Key_Down)
    assert (page.entries.entry.table, page.entries.entry.id) == ("parts", "lace_tab")
    qtbot.keyClick(listed, Qt.Key.Key_Return)
    assert control(page, QLineEdit, "parts", "lace_tab", "name").hasFocus()


def test_every_control_of_every_entry_has_a_name_to_be_heard(page):
    seen = 0
    for table, entry in (
        ("options", "dyed"),
        ("pattern", ""),
        ("materials", "cop_leather"),
        ("parts", "boss"),
        ("joints", "tab_top"),
        ("forms", "petal_dish"),
        ("treatments", "colour"),
    ):
        page.go((table, entry))
        kinds = (QAbstractButton, QLineEdit, QComboBox, QPlainTextEdit, QListView)
        controls = itertools.chain.from_iterable(page.findChildren(kind) for kind in kinds)
        for found in controls:
            if found.isVisible() and not found.objectName().startswith("qt_"):
                seen += 1
                assert found.accessibleName() or found.text(), found.objectName()
    assert seen > 60


def test_it_fits_a_small_screen(page):
    page.go(("parts", "boss"))
    least = page.minimumSizeHint()
    assert least.width() <= 1000
    assert least.height() <= 700
