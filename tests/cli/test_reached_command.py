"""``armorplan reached``: what a trial tells, in words and as JSON, and what is kept of it."""

import json
import re

import pytest
from samples.test_planted_reach import tube
from schemas_cli import schema

from armorplan.cli.program import run
from armorplan.files.catalogue import read_shelf

MISSED = ("elbow_cop", "left_row_4", "no")
ROWS = ("--after", "left_row", "right_row")


@pytest.fixture
def own(tmp_path):
    folder = tmp_path / "mine"
    folder.mkdir()
    return folder


def test_it_says_what_the_shapes_hold_what_follows_and_what_to_write(capsys, own):
    words = ("--tool", "horn_anvil", *ROWS, "--catalogues", str(own))
    assert run(["reached", *MISSED, *words]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert said.startswith("Joint 'left_row_4', after 13 other joints: a straight tool has to get")
    assert (
        "the reach of the anvil on a horn or bar is 250 mm. It did not reach: its reach is below"
        in said
    )
    assert f"under [horn_anvil] in {own / 'tools.toml'}, or add --keep" in said
    assert list(own.iterdir()) == []


def test_kept_the_former_reach_is_said_and_the_shelf_has_the_new_one(capsys, own):
    words = ("--tool", "horn_anvil", *ROWS, "--keep", "--catalogues", str(own))
    assert run(["reached", *MISSED, *words, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    schema("reached").validate(found)
    tools = {tool.id: tool for tool in read_shelf(own=own).tools}
    assert tools["horn_anvil"].reach_mm == found["learned"]["becomes_mm"] < 250
    assert tools["horn_anvil"].source.startswith("learned at the bench on ")
    assert found["kept"] == str(own / "tools.toml")
    # The same trial again: the reach is below already.
    assert run(["reached", *MISSED, *words]) == 0
    said = capsys.readouterr().out
    assert "nothing follows" in said
    assert said.endswith("Nothing was kept.\n")


def test_which_orders_flip_with_it_is_said_before_it_is_kept(capsys, own, tmp_path):
    folder = tmp_path / "long_tube"
    folder.mkdir()
    tube(660.0).read(folder)
    words = ("strap_on", "yes", "--tool", "horn_anvil", "--after", "back")
    assert run(["reached", str(folder), *words, "--catalogues", str(own)]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "With that, 2 orders by reach would hold otherwise:" in said
    assert "'Rivet " in said
    assert ", before the last of back row: it binds (cannot)" in said
    assert "it binds (cannot); with reach of anvil on a horn or bar changed from 250 to" in said
    assert list(own.iterdir()) == []


def test_how_to_take_it_back_is_said(capsys, own):
    words = ("--tool", "horn_anvil", *ROWS, "--keep", "--catalogues", str(own))
    assert run(["reached", *MISSED, *words]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "; it was 250. To take it back, write reach_mm = 250 there, under [horn_anvil]." in said


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((*MISSED, "--keep"), "Say which tool's reach to keep: --tool ID"),
        (
            ("elbow_cop", "lace tab", "yes"),
            "'lace tab' is a part, not a joint. Name one of its joints: tab_top or tab_bottom.",
        ),
        (("elbow_cop", "buckle_fold", "yes"), "sits in no shell"),
        ((*MISSED, "--tool", "horn"), "There is no tool 'horn'"),
    ],
)
def test_mistakes_are_told_in_one_message(capsys, own, words, says):
    assert run(["reached", *words, "--catalogues", str(own)]) == 2
    told = capsys.readouterr().err
    assert says in told
    assert told.count("\n") == 1
    assert list(own.iterdir()) == []


def test_what_has_but_one_joint_stands_for_it(capsys):
    words = ("yes", "--tool", "horn_anvil", "--json")
    told = []
    for name in ("left_row_4", "rivet left row, 4 of 7"):
        assert run(["reached", "elbow_cop", name, *words]) == 0
        told.append(json.loads(capsys.readouterr().out))
    assert told[0] == told[1]


def test_an_answer_is_yes_or_no(capsys):
    with pytest.raises(SystemExit) as stopped:
        run(["reached", "elbow_cop", "left_row_4", "maybe"])
    assert stopped.value.code == 2
    assert "'yes'" in capsys.readouterr().err


def test_of_an_unknown_tool_only_those_are_named_that_set_such_a_joint(capsys):
    assert run(["reached", "elbow_cop", "left_row_4", "no", "--tool", "spoon"]) == 2
    said = capsys.readouterr().err
    assert "horn_anvil" in said
    assert not {"ruler", "packing", "stitching_awl"} & set(said.replace(",", " ").split())


def test_what_is_told_and_what_is_taken_differ_by_a_tenth(capsys):
    assert run(["reached", "elbow_cop", "left_row_4", "no", "--tool", "horn_anvil"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    below, taken = re.search(r"is below ([\d.]+) mm, .* taken as ([\d.]+) mm", said).groups()
    assert float(below) - float(taken) == pytest.approx(0.1)
    assert f"at most {below} mm" in said
