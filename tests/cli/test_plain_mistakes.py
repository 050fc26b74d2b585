"""What the command line answers to a name that is not there, a folder for a file, a thing twice."""

import pytest
from folders_cli import copy_sample

from armorplan.cli.program import run


def told(capsys, *arguments, code=2):
    assert run([str(argument) for argument in arguments]) == code
    said = capsys.readouterr()
    return said.out + said.err


def test_a_drawing_that_is_not_there_is_called_a_drawing(tmp_path, capsys):
    drawing = tmp_path / "nothing.svg"
    said = told(capsys, "check", drawing)
    assert "There is no drawing" in said
    assert "nothing.svg" in said
    assert "There is no folder" not in said


def test_the_drawings_beside_it_are_offered_the_nearest_first(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for name in ("anchor.svg", "band.svg", "knees.svg"):
        (tmp_path / name).write_text("<svg/>", encoding="utf-8")
    said = told(capsys, "check", "knee.svg")
    assert "There are beside it: knees.svg, band.svg, anchor.svg." in said


def test_a_shop_file_that_is_not_there_names_the_folder(tmp_path, capsys, monkeypatch):
    home = tmp_path / "harbour"
    home.mkdir()
    monkeypatch.chdir(home)
    said = told(capsys, "check", "elbow_cop", "--shop", "none.toml")
    assert "The folder harbour holds no none.toml." in said


@pytest.mark.parametrize("again", ["cut", "folded"])
def test_an_option_decided_twice_is_an_error(capsys, again):
    said = told(capsys, "order", "collar", "--with", "rim=folded", "--with", f"rim={again}")
    assert f"--with decides 'rim' twice, as 'folded' and as '{again}'." in said


@pytest.mark.parametrize("command", ["check", "needs", "plan"])
def test_a_number_without_end_is_told_with_its_most(tmp_path, capsys, command):
    folder = copy_sample(tmp_path)
    file = folder / "pattern.toml"
    text = file.read_text(encoding="utf-8")
    head, table, rest = text.partition("[joints.left_row_1]\n")
    assert table
    file.write_text(f"{head}{table}washer_mm = 1e308\n{rest}", encoding="utf-8")
    said = told(capsys, command, folder, code=1)
    assert "joints.left_row_1.washer_mm is the number 1e+308." in said
    assert "at most 30 mm" in said
