"""``armorplan check``: one clear message for each broken folder, and never a traceback."""

import json

import pytest
from folders_cli import BROKEN, copy_sample
from schemas_cli import schema

from armorplan.cli.program import run


@pytest.mark.parametrize("sample", ["elbow_cop", "collar", "three_lames"])
def test_the_samples_are_sound(sample, capsys):
    assert run(["check", sample]) == 0
    assert "nothing found" in capsys.readouterr().out


@pytest.mark.parametrize("fault", BROKEN)
def test_a_broken_folder_gets_a_clear_message(fault, tmp_path, capsys):
    folder = copy_sample(tmp_path)
    break_it, code, named = BROKEN[fault]
    break_it(folder)
    assert run(["check", str(folder)]) == code
    said = capsys.readouterr()
    assert named in said.out + said.err
    assert "Traceback" not in said.out + said.err


@pytest.mark.parametrize("fault", BROKEN)
def test_faults_fit_the_shipped_schema(fault, tmp_path, capsys):
    folder = copy_sample(tmp_path)
    BROKEN[fault][0](folder)
    run(["check", str(folder), "--json"])
    found = json.loads(capsys.readouterr().out)
    schema("check").validate(found)
    assert any(f["severity"] == "error" for f in found["findings"])
    assert all(f["remedy"] for f in found["findings"])


@pytest.mark.parametrize("command", ["order", "plan"])
@pytest.mark.parametrize("fault", ["no drawing", "unknown id"])
def test_other_commands_say_the_same(command, fault, tmp_path, capsys):
    folder = copy_sample(tmp_path)
    break_it, code, named = BROKEN[fault]
    break_it(folder)
    assert run([command, str(folder)]) == code
    assert named in capsys.readouterr().err


def test_a_folder_that_is_not_there(tmp_path, capsys):
    assert run(["check", str(tmp_path / "nowhere")]) == 2
    assert "nowhere" in capsys.readouterr().out


def test_the_folder_one_stands_in_has_its_name(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(copy_sample(tmp_path))
    assert run(["check", "."]) == 0
    assert capsys.readouterr().out.startswith("elbow_cop: ")
