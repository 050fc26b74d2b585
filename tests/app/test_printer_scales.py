"""Printers by name: what their bars came out as is kept, found again, and told where it is damaged."""

import pytest

from armorplan.app.printer_scales import keep_scale, kept_scale, kept_scales
from armorplan.files.printer_file import PRINTERS_FILE
from armorplan.kernel.errors import ArmorplanError, UnreadableError
from armorplan.sheets.printer_scale import PrinterScale

OFFICE = PrinterScale(along_mm=98.7, up_mm=99.1, printer='Harbour "office" 2')
LOFT = PrinterScale(along_mm=100.4, up_mm=100.0, printer="loft")


def test_what_is_kept_is_found_again(tmp_path):
    folder = tmp_path / "data"
    assert kept_scales(folder) == ()
    keep_scale(folder, LOFT)
    keep_scale(folder, OFFICE)
    assert kept_scales(folder) == (OFFICE, LOFT)
    assert kept_scale(folder, OFFICE.printer) == OFFICE


def test_the_last_word_counts_and_the_rest_of_the_file_stays(tmp_path):
    keep_scale(tmp_path, LOFT)
    file = tmp_path / PRINTERS_FILE
    file.write_text(f"# upstairs\n{file.read_text()}", encoding="utf-8")
    anew = PrinterScale(along_mm=99.0, up_mm=99.5, printer="loft")
    keep_scale(tmp_path, anew)
    assert kept_scales(tmp_path) == (anew,)
    assert "# upstairs" in file.read_text()


def test_a_printer_that_nobody_measured_is_told_with_those_there_are(tmp_path):
    keep_scale(tmp_path, LOFT)
    with pytest.raises(ArmorplanError, match="there is: loft"):
        kept_scale(tmp_path, "attic")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[loft]\nalong_mm = 50\nup_mm = 100\n", "loft.along_mm"),
        ("[loft]\nalong_mm = 99\n", "up_mm"),
        ("loft = 3\n", "loft"),
        ("[loft\n", "toml-syntax"),
        ("[loft]\nalong_mm = 99\nup_mm = 99\nwide = 1\n", "wide"),
    ],
)
def test_a_damaged_file_is_told_with_its_place(tmp_path, text, said):
    (tmp_path / PRINTERS_FILE).write_text(text, encoding="utf-8")
    with pytest.raises(UnreadableError) as told:
        kept_scales(tmp_path)
    assert said in str(told.value.findings[0])
