"""``armorplan fit``: rounds with the pins there are, in words and as JSON; the maker's own pins."""

import json

import pytest
from schemas_cli import schema

from armorplan.cli.program import run


def answered(capsys, *words):
    assert run(["fit", *words, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    schema("fit").validate(found)
    return found


def test_it_says_rounds_pins_in_order_and_looks(capsys):
    assert run(["fit", "elbow_cop", "--pins", "6"]) == 0
    said = capsys.readouterr().out
    assert "2 rounds with the pins there are; fewer will not do." in said
    assert "Round 2 of 2, on the bench, then on the wearer: 6 pins" in said
    assert said.index("lace tab inside middle petal (tab top)") < said.index(
        "boss on middle petal (boss left)"
    )
    assert "on the wearer: Can the wearer fasten it alone, one-handed?" in said


def test_the_makers_own_pins_count(capsys, tmp_path):
    (tmp_path / "pins.toml").write_text(
        "[bolt_3x12]\nowned = 3\n\n[bolt_4x12]\nowned = 4\n\n[bolt_4x16]\nowned = 1\n",
        encoding="utf-8",
    )
    found = answered(capsys, "elbow_cop", "--catalogues", str(tmp_path))["fits"][0]
    assert (found["pins_needed"], found["pins_owned"]) == (11, 8)
    assert len(found["rounds"]) == found["bound"] == 2
    for each in found["rounds"]:
        used = [pin["pin"] for pin in each["pins"]]
        assert used.count("bolt_3x12") <= 3
        assert used.count("bolt_4x12") <= 4
        assert used.count("bolt_4x16") <= 1


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--pins", "0"), "0 is not a whole number from 1 to 10,000"),
        (("--pins", "some"), "some is not a whole number"),
    ],
)
def test_a_count_that_is_none_is_told(capsys, words, told):
    with pytest.raises(SystemExit) as left:
        run(["fit", "elbow_cop", *words])
    assert left.value.code == 2
    assert told in capsys.readouterr().err


def test_pins_that_cannot_be_are_told_with_their_place(capsys, tmp_path):
    (tmp_path / "pins.toml").write_text("[bolt_3x12]\nowned = -2\n", encoding="utf-8")
    assert run(["fit", "elbow_cop", "--catalogues", str(tmp_path)]) == 2
    said = capsys.readouterr().err
    assert "pins.toml" in said
    assert "a whole number from 0" in said


def test_of_a_pair_the_other_side_is_told_once(capsys):
    assert run(["fit", "three_lames", "--pins", "8"]) == 0
    said = capsys.readouterr().out
    assert ": the left one, " in said
    assert ": the right one, " not in said
    assert said.count("As that of the other side, its parts mirrored.") == 1
