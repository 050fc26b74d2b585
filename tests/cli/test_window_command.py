"""Without a display the program says so in one sentence and names what needs none."""

import pytest

from armorplan.cli.program import run


@pytest.fixture
def no_display(monkeypatch):
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr("sys.platform", "linux")


@pytest.mark.parametrize("arguments", [[], ["elbow_cop"], ["window", "elbow_cop"]])
def test_no_display_is_said_in_a_sentence(arguments, no_display, capsys):
    assert run(arguments) == 2
    said = capsys.readouterr().err
    assert "needs a display" in said
    assert "armorplan check" in said
    assert said.count("\n") == 1


def test_help_names_the_commands_and_the_limits_of_costume(capsys):
    with pytest.raises(SystemExit) as left:
        run(["--help"])
    assert left.value.code == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "costume, not protective equipment" in said
    for command in ("check", "order", "plan"):
        assert command in said
