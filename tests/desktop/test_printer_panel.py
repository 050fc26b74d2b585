"""The scale of the printer is typed back, asked about where it cannot be, and used by the sheets."""

import pytest
from pypdf import PdfReader
from PySide6.QtWidgets import QWidget
from sheets.sheet_scene import full_part, sheet

from armorplan.app.printer_scales import OwnPrinters
from armorplan.desktop.widgets.printer_panel import PrinterPanel
from armorplan.desktop.widgets.sheet_saver import Holds, SheetSaver
from armorplan.files.printer_file import PRINTERS_FILE
from armorplan.sheets.bench_sheet_ink import A4
from armorplan.sheets.printer_scale import TRUE_SCALE, PrinterScale

LOFT = PrinterScale(along_mm=98.7, up_mm=99.1, printer="loft")


@pytest.fixture
def printers(bridge, tmp_path):
    bridge.printers = OwnPrinters(tmp_path / "data")
    return bridge.printers


@pytest.fixture
def panel(qtbot, bridge, printers):
    made = PrinterPanel(bridge)
    qtbot.addWidget(made)
    made.show()
    made.begin()
    return made


def typed(panel, name, along, up):
    panel.name.setText(name)
    panel.along.setText(along)
    panel.up.setText(up)
    panel.keep.click()


def test_what_is_measured_is_kept_and_used(panel, printers):
    assert printers.in_use() == TRUE_SCALE
    typed(panel, " loft ", "98,7", "99.1")
    assert printers.in_use() == LOFT
    assert panel.used.currentData() == "loft"
    assert "98.7 mm along, 99.1 mm up" in panel.told.text()


def test_another_printer_or_none_is_chosen_from_the_list(panel, printers):
    typed(panel, "loft", "98.7", "99.1")
    typed(panel, "attic", "101", "100")
    assert printers.in_use().printer == "attic"
    for wanted in ("loft", ""):
        at = panel.used.findData(wanted)
        panel.used.setCurrentIndex(at)
        panel.used.activated.emit(at)
        assert printers.in_use().printer == wanted
    assert len(printers.scales()) == 2


@pytest.mark.parametrize(
    ("name", "along", "up", "said"),
    [
        ("loft", "3.9", "3.9", "inches"),
        ("loft", "98", "", "both lengths"),
        ("loft", "98", "80", "90 to 110"),
        ("", "98", "99", "has no name"),
    ],
)
def test_what_cannot_be_is_asked_about_and_nothing_kept(panel, printers, name, along, up, said):
    typed(panel, name, along, up)
    assert said in panel.told.text()
    assert "Nothing was kept" in panel.told.text()
    assert printers.scales() == ()


def test_a_damaged_file_is_told(panel, tmp_path):
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / PRINTERS_FILE).write_text("[loft]\nalong_mm = 5\n", encoding="utf-8")
    panel.begin()
    assert "loft.along_mm" in panel.told.text()


def test_the_mock_up_is_saved_alone_and_for_that_printer(
    qtbot, bridge, printers, tmp_path, monkeypatch
):
    printers.keep(LOFT)
    monkeypatch.setattr(
        type(bridge.session),
        "making_sheet",
        lambda *_, **__: lambda: sheet(full=(full_part(),)),
    )
    holder = QWidget()
    qtbot.addWidget(holder)
    saver = SheetSaver(bridge, holder)
    said = []
    bridge.said.connect(said.append)
    path = tmp_path / "mock_up.pdf"
    saver.write(path, A4, Holds.PARTS)
    qtbot.waitUntil(lambda: said[-1].startswith("Written"))
    saver.end_jobs()
    assert "Drawn for loft" in said[-1]
    pages = [page.extract_text() for page in PdfReader(path).pages]
    assert len(pages) == 2
    assert "98.7 mm along" in pages[0]
