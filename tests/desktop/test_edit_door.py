"""From the bench to the page of texts and numbers and back, over a real build."""

from threading import Event

import pytest
from desktop.edit_bench import edit_bench, field
from folders_cli import copy_sample
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLineEdit, QMessageBox, QPlainTextEdit, QPushButton

from armorplan.app.rows import BenchState
from armorplan.kernel.errors import WorkshopError

CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def bench(tmp_path, qtbot, qapp, monkeypatch):
    yield from edit_bench(tmp_path, qtbot, monkeypatch)


def type_name(page, qtbot, text):
    page.go(("parts", "boss"))
    line = field(page, QLineEdit, "parts", "boss", "name")
    line.selectAll()
    qtbot.keyClicks(line, text)
    qtbot.keyClick(line, Qt.Key.Key_Return)


@pytest.mark.parametrize(
    ("step", "table", "entry"),
    [
        ("cut/boss", "parts", "boss"),
        ("rivet/left_row_2", "joints", "left_row_2"),
        ("thread/keeper_loop", "threads", "keeper_loop"),
        ("fit/elbow_cop", "pieces", "elbow_cop"),
    ],
)
def test_it_opens_at_the_entry_of_what_is_chosen(bench, qtbot, step, table, entry):
    bench.choose(step)
    page = bench.show(qtbot)
    assert (page.entries.entry.table, page.entries.entry.id) == (table, entry)
    assert page.windowTitle().startswith("Texts and numbers")


def test_a_part_chosen_in_the_diagram_is_the_entry(bench, qtbot):
    bench.bridge.choose_part("lace_tab")
    page = bench.show(qtbot)
    assert page.entries.entry.id == "lace_tab"


def test_what_is_saved_lies_on_the_bench_with_its_ticks(bench, qtbot):
    cuts = [s.id for s in bench.bridge.session.derived.work.steps if s.kind == "cut"]
    bench.bridge.done((cuts[0],))
    page = bench.show(qtbot)
    type_name(page, qtbot, "brass boss")
    qtbot.waitUntil(lambda: bench.desk.stack.count() == 1)
    with qtbot.waitSignal(bench.bridge.opened):
        qtbot.keyClick(page, Qt.Key.Key_S, CONTROL)
    assert bench.build == "elbow_cop-2"
    assert any("1 tick carried over" in f.text for f in bench.bridge.session.findings)
    names = [part.name for part in bench.bridge.session.diagram().parts]
    assert "brass boss" in names
    assert page.isVisible()
    assert bench.desk.stack.count() == 1
    page.findChild(QPushButton, "edit_undo").click()
    assert field(page, QLineEdit, "parts", "boss", "name").text() == "boss"


def test_where_another_build_is_opened_while_it_is_read_the_page_shows_that_one(
    bench, qtbot, monkeypatch
):
    may_read = Event()
    plain = bench.door._drafts

    def drafts(session):
        read = plain(session)
        if session is not first:
            return read
        return lambda: may_read.wait(10) and read()

    first = bench.bridge.session
    monkeypatch.setattr(bench.door, "_drafts", drafts)
    bench.window.actions_by_id["edit_pattern"].trigger()
    text = (bench.folder / "pattern.toml").read_text(encoding="utf-8")
    (bench.folder / "pattern.toml").write_text(
        text.replace('name = "boss"', 'name = "tin boss"'), encoding="utf-8"
    )
    with qtbot.waitSignal(bench.bridge.opened):
        bench.window._opener.open(bench.folder)
    may_read.set()
    qtbot.waitUntil(lambda: bench.page is not None and bench.door._then is None)
    qtbot.wait(50)
    assert bench.desk.draft.entry("parts", "boss")["name"] == "tin boss"


def test_after_a_save_the_bench_comes_back_to_what_was_chosen(bench, qtbot):
    bench.choose("cut/boss")
    page = bench.show(qtbot)
    type_name(page, qtbot, "brass boss")
    before = bench.build
    with qtbot.waitSignal(bench.bridge.opened):
        page.saving.save()
    assert bench.build != before
    (step,) = bench.bridge.selection.steps
    assert step.startswith(bench.build)
    assert step.endswith("cut/boss")
    assert bench.window._checklist.view.current_row().id == step
    with qtbot.waitSignal(bench.bridge.opened):
        bench.window._opener.open(bench.folder)
    assert bench.bridge.selection.steps == bench.bridge.session.ready_steps()[:1]


def test_a_bench_that_refuses_keeps_what_was_saved(bench, qtbot):
    page = bench.show(qtbot)
    type_name(page, qtbot, "brass boss")
    bench.refuses = True
    with qtbot.waitSignal(bench.window._opener.refused):
        page.saving.save()
    assert bench.build == "elbow_cop-1"
    assert not bench.desk.is_dirty
    assert "brass boss" in (bench.folder / "pattern.toml").read_text(encoding="utf-8")
    assert bench.door._returns is None


def test_a_rules_reason_is_overruled_with_a_note(bench, qtbot):
    bench.choose("dry-fit/elbow_cop")
    buttons = bench.window.findChildren(QPushButton)
    overrule = next(b for b in buttons if b.objectName() == "question_dry-before-handling")
    assert overrule.text() == "Overrule …"
    overrule.click()
    qtbot.waitUntil(lambda: bench.page is not None and bench.door._then is None)
    new = bench.page.new
    assert field(new, QComboBox, "overruled", "", "rule").currentData() == "dry-before-handling"
    assert field(new, QComboBox, "overruled", "", "step").currentText()
    new.keep()
    assert bench.page._said.isVisible()
    field(new, QPlainTextEdit, "overruled", "", "note").setPlainText("A fan stands by.")
    new.keep()
    assert bench.page.entries.entry.table == "overruled"
    over = [r for r in bench.desk.draft.derived.relations if r.reason.overruled]
    assert {r.reason.rule for r in over} == {"dry-before-handling"}
    overrule.click()
    qtbot.waitUntil(lambda: bench.door._then is None)
    assert bench.page.form.isVisible()
    assert bench.page.entries.entry.table == "overruled"


def test_closing_the_page_keeps_what_is_not_saved(bench, qtbot):
    page = bench.show(qtbot)
    type_name(page, qtbot, "brass boss")
    qtbot.waitUntil(lambda: bench.desk.stack.count() == 1)
    page.close()
    assert "kept, not saved yet" in bench.window.statusBar()._said.text()
    again = bench.show(qtbot)
    assert again is page
    assert bench.desk.draft.entry("parts", "boss")["name"] == "brass boss"


@pytest.mark.parametrize(
    ("answer", "closes", "name"),
    [
        (QMessageBox.StandardButton.Cancel, False, "boss"),
        (QMessageBox.StandardButton.Discard, True, "boss"),
        (QMessageBox.StandardButton.Save, True, "brass boss"),
    ],
)
def test_leaving_with_something_unsaved_asks_once(bench, qtbot, monkeypatch, answer, closes, name):
    page = bench.show(qtbot)
    type_name(page, qtbot, "brass boss")
    asked = []
    monkeypatch.setattr(QMessageBox, "question", lambda *given: asked.append(given) or answer)
    assert bench.window.close() is closes
    assert len(asked) == 1
    assert f'name = "{name}"' in (bench.folder / "pattern.toml").read_text(encoding="utf-8")


def test_leaving_with_nothing_unsaved_asks_nothing(bench, qtbot, monkeypatch):
    bench.show(qtbot)
    monkeypatch.setattr(QMessageBox, "question", lambda *_given: pytest.fail("asked"))
    assert bench.window.close()


def test_another_pattern_on_the_bench_takes_the_page_over(bench, qtbot):
    page = bench.show(qtbot)
    collar = copy_sample(bench.place, "collar")
    with qtbot.waitSignal(bench.bridge.opened):
        bench.window._opener.open(collar)
    qtbot.waitUntil(lambda: bench.desk.home.folder == collar)
    assert "Collar" in page.windowTitle()


def test_unsaved_changes_are_not_taken_over_by_another_pattern(bench, qtbot):
    page = bench.show(qtbot)
    type_name(page, qtbot, "brass boss")
    qtbot.waitUntil(lambda: bench.desk.stack.count() == 1)
    with qtbot.waitSignal(bench.bridge.opened):
        bench.window._opener.open(copy_sample(bench.place, "collar"))
    assert bench.desk.home.folder == bench.folder
    assert bench.desk.is_dirty
    bench.show(qtbot)
    assert bench.desk.home.folder == bench.folder


def test_a_shelf_that_cannot_be_read_is_told(bench, qtbot):
    def fail():
        raise WorkshopError("The catalogues are damaged.")

    bench.drafts._shelf = fail
    with qtbot.waitSignal(bench.bridge.said) as said:
        bench.window.actions_by_id["edit_pattern"].trigger()
    assert "The catalogues are damaged." in said.args[0]
    assert bench.page is None


def test_a_copy_of_the_pattern_goes_on_with_its_ticks_and_what_was_chosen(bench, qtbot):
    bench.choose("cut/boss")
    (boss,) = bench.bridge.selection.steps
    bench.bridge.done((boss,))
    bench.show(qtbot)
    bench.choose("rivet/boss_left")
    former = bench.build
    with qtbot.waitSignal(bench.bridge.opened):
        bench.desk.save(bench.place / "copy")
    assert bench.build != former
    done = bench.bridge.session.derived.work.step(boss.replace(former, bench.build, 1))
    assert bench.bridge.session.why(done.id).state is BenchState.EARLY  # before its mock-up
    (chosen,) = bench.bridge.selection.steps
    assert chosen.endswith("/rivet/boss_left")
