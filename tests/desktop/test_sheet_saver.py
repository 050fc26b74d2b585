"""The bench sheet is written off the window's thread, on the paper chosen with the file."""

import pytest
from desktop.fake_session import FakeSession
from pypdf import PdfReader
from PySide6.QtCore import QLocale
from PySide6.QtWidgets import QFileDialog, QWidget
from sheets.sheet_scene import sheet

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.sheet_saver import Holds, SheetSaver, forms
from armorplan.sheets.bench_sheet_ink import A4, LETTER


@pytest.fixture
def saver(qtbot, clock):
    bridge = Bridge(FakeSession.of(6), clock)
    holder = QWidget()
    qtbot.addWidget(holder)
    made = SheetSaver(bridge, holder)
    made.told = []
    bridge.said.connect(made.told.append)
    yield made
    made.end_jobs()


def test_the_sheet_is_written_in_the_form_that_was_chosen(saver, tmp_path, qtbot, monkeypatch):
    path = tmp_path / "sheet"
    wanted = [kind for kind, form in forms().items() if form == (LETTER, Holds.STEPS_AND_PARTS)]

    def choose(_parent, _title, _named, kinds):
        assert wanted[0] in kinds
        return str(path), wanted[0]

    monkeypatch.setattr(QFileDialog, "getSaveFileName", choose)
    saver.ask_file()
    qtbot.waitUntil(lambda: saver.told[-1] == f"Written: {path}.pdf")
    page = PdfReader(f"{path}.pdf").pages[0]
    assert float(page.mediabox.width) * 25.4 / 72 == pytest.approx(LETTER.wide_mm, abs=0.1)
    assert saver._bridge.session.made_sheets == [True]


def test_the_mock_up_is_asked_for_by_itself(saver, tmp_path, qtbot, monkeypatch):
    asked = []

    def choose(_parent, title, named, kinds):
        asked.append((title, named, kinds.split(";;")))
        return str(tmp_path / "cop.pdf"), ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", choose)
    monkeypatch.setattr(saver, "write", lambda *given: asked.append(given))
    saver.ask_mock_up()
    (title, named, kinds), (path, _, holds) = asked
    assert "mock-up" in title
    assert named.endswith("mock_up.pdf")
    assert len(kinds) == 2
    assert (path, holds) == (tmp_path / "cop.pdf", Holds.PARTS)


def test_nothing_is_written_where_no_file_was_chosen(saver, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: ("", ""))
    saver.ask_file()
    assert saver.told == []


def test_a_name_that_is_no_pdf_is_told_at_once(saver, tmp_path):
    saver.write(tmp_path / "sheet.odt", A4, Holds.STEPS)
    assert "Let the name of the file end in .pdf" in saver.told[0]
    assert not list(tmp_path.iterdir())


def test_letters_that_are_missing_are_told_with_the_file(saver, tmp_path, qtbot, monkeypatch):
    made = sheet(title="Brassard 花")
    monkeypatch.setattr(FakeSession, "making_sheet", lambda *_, **__: lambda: made)
    path = tmp_path / "sheet.pdf"
    saver.write(path, A4, Holds.STEPS)
    qtbot.waitUntil(lambda: f"Written: {path}" in saver.told[-1])
    assert "花 (U+82B1)" in saver.told[-1]


@pytest.mark.parametrize(("locale", "paper"), [("en_US", LETTER), ("de_DE", A4)])
def test_the_usual_paper_comes_first(locale, paper, request):
    former = QLocale()
    request.addfinalizer(lambda: QLocale.setDefault(former))
    QLocale.setDefault(QLocale(locale))
    assert next(iter(forms().values())) == (paper, Holds.STEPS)
