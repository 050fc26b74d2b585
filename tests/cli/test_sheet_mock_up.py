"""``armorplan sheet`` for the mock-up: parts alone, and a printer that is off made up for."""

import pytest
from pypdf import PdfReader

from armorplan.cli import sheet_command
from armorplan.cli.program import run
from armorplan.sheets.bench_sheet import Printed


@pytest.fixture
def printers(tmp_path, monkeypatch):
    """The folder in which printers are kept in these tests."""
    folder = tmp_path / "data"
    monkeypatch.setattr(sheet_command, "printers_folder", lambda: folder)
    return folder


def test_a_printer_is_measured_once_and_used_by_its_name(printers, tmp_path, capsys, monkeypatch):
    path = tmp_path / "mock_up.pdf"
    given = (
        "sheet",
        "elbow_cop",
        "-o",
        str(path),
        "--parts-only",
        "--undated",
        "--printer",
        "loft",
    )
    drawn = []

    def keep(_path, sheet, _paper):
        drawn.append(sheet)
        return Printed(data=b"", pages=1, missing="")

    with monkeypatch.context() as patch:
        patch.setattr(sheet_command, "save_sheet", keep)
        assert run([*given, "--bar", "98.7x99.1"]) == 0
    assert "Kept for 'loft'" in capsys.readouterr().err
    assert run(given) == 0
    pages = PdfReader(path).pages
    first = pages[0].extract_text()
    assert "98.7 mm along, 99.1 mm up" in first
    assert "Cut left petal" not in first
    assert len(pages) > 1
    (sheet,) = drawn
    assert (sheet.scale.along_mm, sheet.scale.up_mm, sheet.scale.printer) == (98.7, 99.1, "loft")
    assert sheet.parts_only
    assert sheet.chapters == ()


def test_a_printer_without_a_name_or_a_measure_is_told(printers, tmp_path, capsys):
    given = ("sheet", "elbow_cop", "-o", str(tmp_path / "a.pdf"))
    for name, said in (("attic", "--bar"), (" ", "has no name")):
        assert run([*given, "--printer", name]) == 2
        assert said in capsys.readouterr().err
    assert not printers.exists()


@pytest.mark.parametrize(
    ("bar", "said"),
    [
        ("3.9", "in inches"),
        ("9.87x9.9", "in cm"),
        ("120", "100 %"),
        ("98.7x", "98.7x99.1"),
        ("1x2x3", "98.7x99.1"),
        ("nan", "98.7x99.1"),
    ],
)
def test_bars_that_cannot_be_are_asked_about(bar, said, tmp_path, capsys):
    with pytest.raises(SystemExit):
        run(["sheet", "elbow_cop", "-o", str(tmp_path / "a.pdf"), "--bar", bar])
    assert said in capsys.readouterr().err
