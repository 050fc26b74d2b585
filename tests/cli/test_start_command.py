"""A folder to write on in, out of a bare drawing; and nothing written over."""

from armorplan.cli.program import run
from armorplan.kernel.shipped import samples_folder

DRAWING = str(samples_folder() / "elbow_cop" / "elbow_cop.svg")


def test_start_writes_a_folder_that_checks_clean(tmp_path, capsys):
    folder = tmp_path / "mine"
    assert run(["start", DRAWING, str(folder)]) == 0
    assert sorted(p.name for p in folder.iterdir()) == ["elbow_cop.svg", "pattern.toml"]
    assert run(["check", str(folder)]) == 0
    said = capsys.readouterr().out
    assert "Written: " in said
    assert "error" not in said


def test_start_writes_over_nothing(tmp_path, capsys):
    (tmp_path / "pattern.toml").write_text("mine", encoding="utf-8")
    assert run(["start", DRAWING, str(tmp_path)]) == 2
    assert (tmp_path / "pattern.toml").read_text(encoding="utf-8") == "mine"
    assert [p.name for p in tmp_path.iterdir()] == ["pattern.toml"]
    assert "is there already" in capsys.readouterr().err


def test_start_needs_a_drawing(tmp_path, capsys):
    assert run(["start", str(tmp_path / "none.svg"), str(tmp_path / "new")]) == 2
    assert not (tmp_path / "new").exists()
    assert "[no-such-file]" in capsys.readouterr().err


def test_a_bare_drawing_goes_through_every_command(capsys):
    assert run(["check", DRAWING]) == 0
    assert "[bare-drawing]" in capsys.readouterr().out
    assert run(["order", DRAWING]) == 0
    assert "Cut petal left" in capsys.readouterr().out
