"""``armorplan needs``: text, JSON, a table of figures, another tray, and mistakes in its options."""

import csv
import json

import pytest
from schemas_cli import schema

from armorplan.cli.program import run
from armorplan.cli.tray_size import tray_size


def needed(capsys, *options: str) -> dict:
    assert run(["needs", "elbow_cop", "--json", *options]) == 0
    return json.loads(capsys.readouterr().out)


@pytest.mark.parametrize("sample", ["elbow_cop", "collar", "three_lames", "arm_harness"])
def test_the_answer_fits_the_shipped_schema(sample, capsys):
    assert run(["needs", sample, "--json"]) == 0
    schema("needs").validate(json.loads(capsys.readouterr().out))


def test_the_text_names_every_section(capsys):
    assert run(["needs", "elbow_cop"]) == 0
    text = capsys.readouterr().out
    for title in ("Leather ", "Fasteners ", "Dye, oil, finish and water ", "Hours ", "Tools "):
        assert f"\n{title}" in text
    assert "as the pattern says" in text
    assert max(map(len, text.splitlines())) <= 110


def test_a_smaller_tray_is_filled_with_less(capsys):
    usual = needed(capsys)["liquids"][-1]["dipped"]
    small = needed(capsys, "--tray", "300x200")["liquids"][-1]["dipped"]
    assert small["fill_ml"] == pytest.approx(usual["fill_ml"] / 4)
    assert small["uptake_ml"] == usual["uptake_ml"]


def test_the_table_of_figures_is_written_for_a_spreadsheet(tmp_path, capsys):
    file = tmp_path / "needs.csv"
    assert run(["needs", "elbow_cop", "--csv", str(file)]) == 0
    assert str(file) in capsys.readouterr().out
    with file.open(encoding="utf-8-sig", newline="") as held:
        rows = list(csv.DictReader(held))
    assert {"leather", "fasteners", "treatments", "hours", "cost"} <= {r["section"] for r in rows}


def test_a_table_that_cannot_be_written_is_told(tmp_path, capsys):
    assert run(["needs", "elbow_cop", "--csv", str(tmp_path)]) == 2
    assert "cannot be written" in capsys.readouterr().err


@pytest.mark.parametrize("given", ["600", "600x", "0x400", "axb", "600x400x1x2", "-5x20"])
def test_a_tray_that_is_none_is_told(given, capsys):
    with pytest.raises(SystemExit):
        run(["needs", "elbow_cop", f"--tray={given}"])
    assert "600x400" in capsys.readouterr().err


def test_a_tray_may_have_a_depth():
    tray = tray_size("600×400x80")
    assert (tray.length_mm, tray.width_mm, tray.depth_mm) == (600.0, 400.0, 80.0)
