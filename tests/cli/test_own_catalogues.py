"""A maker's own catalogues on the command line: named, in their usual place, and checked."""

import json

import pytest
from folders_cli import copy_sample
from schemas_cli import schema

from armorplan.cli.program import run
from armorplan.cli.reading import shelf_for


@pytest.fixture(autouse=True)
def usual_place(tmp_path, monkeypatch):
    data = tmp_path / "data"
    monkeypatch.setattr("armorplan.store.places.user_data_path", lambda *_, **__: data)
    return data / "catalogues"


@pytest.fixture
def own(tmp_path):
    folder = tmp_path / "mine"
    folder.mkdir()
    return folder


def _write(folder, name, text):
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(text, encoding="utf-8")


def test_the_usual_place_is_read_if_it_is_there(usual_place):
    assert shelf_for(None).fastener("tubular_9").price_each is None
    _write(usual_place, "fasteners.toml", "[tubular_9]\nprice_each = 0.4\n")
    assert shelf_for(None).fastener("tubular_9").price_each == 0.4


def test_a_named_folder_takes_the_place_of_the_usual_one(usual_place, own):
    _write(usual_place, "fasteners.toml", "[tubular_9]\nprice_each = 0.4\n")
    _write(own, "fasteners.toml", "[tubular_9]\nhead_mm = 9.5\n")
    rivet = shelf_for(own).fastener("tubular_9")
    assert (rivet.head_mm, rivet.price_each) == (9.5, None)


def test_catalogues_alone_are_checked(own, capsys):
    _write(own, "leathers.toml", "[strap]\nprice_per_ft2 = 9\n")
    assert run(["check", "--catalogues", str(own)]) == 0
    assert capsys.readouterr().out == "mine: nothing found; the catalogues are sound.\n"


def test_their_faults_come_with_file_line_and_remedy(own, capsys):
    _write(own, "leathers.toml", "[strap]\nprice_per_fti = 9\n")
    assert run(["check", "--catalogues", str(own)]) == 1
    said = capsys.readouterr().out
    assert "mine/leathers.toml:2 (strap.price_per_fti): error" in said
    assert 'Perhaps "price_per_ft2" is meant.' in said
    assert said.endswith("mine: 1 error.\n")


def test_with_a_pattern_the_faults_of_both_are_told(own, tmp_path, capsys):
    _write(own, "leathers.toml", "[strap]\nusual_mm = 3\n")
    folder = copy_sample(tmp_path)
    text = (folder / "pattern.toml").read_text(encoding="utf-8")
    (folder / "pattern.toml").write_text(text.replace('"strap"', '"stripe"', 1), encoding="utf-8")
    run(["check", str(folder), "--catalogues", str(own), "--json"])
    answer = json.loads(capsys.readouterr().out)
    schema("check").validate(answer)
    files = {f["place"]["file"] for f in answer["findings"] if f["place"]}
    assert {"mine/leathers.toml", "pattern.toml"} <= files


def test_a_sound_pattern_with_faulty_catalogues_is_not_clean(own, capsys):
    _write(own, "leathers.toml", "[strap")
    assert run(["check", "elbow_cop", "--catalogues", str(own)]) == 1
    assert "mine/leathers.toml:1" in capsys.readouterr().out


def test_alone_as_json(own, capsys):
    assert run(["check", "--catalogues", str(own), "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    schema("check").validate(answer)
    assert answer == {"pattern": None, "findings": [], "shapes": []}


def test_nothing_to_check_is_said_with_the_usual_place(usual_place, capsys):
    assert run(["check"]) == 2
    assert str(usual_place) in capsys.readouterr().err


@pytest.mark.parametrize("command", ["order", "plan", "check"])
def test_a_folder_that_is_not_there_is_told_by_every_command(command, tmp_path, capsys):
    assert run([command, "elbow_cop", "--catalogues", str(tmp_path / "none")]) in {1, 2}
    said = capsys.readouterr()
    assert "no-such-folder" in said.out + said.err
    assert "Traceback" not in said.out + said.err


def test_a_pattern_is_checked_against_the_maker_s_own_values(own, capsys):
    _write(own, "fasteners.toml", "[double_cap_9]\nlengths_mm = [30]\n")
    assert run(["check", "elbow_cop", "--catalogues", str(own)]) == 0
    said = capsys.readouterr().out
    assert "no-post-length" in said
    assert "the nearest on sale 30 mm" in said
