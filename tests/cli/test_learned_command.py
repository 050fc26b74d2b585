"""``armorplan learned``: what a workshop learned, as a table and as JSON, and what is forgotten of it."""

import json
from datetime import UTC, datetime

import pytest
from app.test_learned_shop import Bench, dry_five_times
from clocks import FakeClock
from schemas_cli import schema

from armorplan.cli.program import run

DYE = "water_dye"


@pytest.fixture
def path(tmp_path):
    found = tmp_path / "workshop.sqlite"
    bench = Bench(found, FakeClock(datetime(2026, 1, 5, 9, tzinfo=UTC)))
    bench.build("cuff-1")
    dry_five_times(bench)
    for at in range(6):
        bench.rivet("cuff-1", f"rivet/{at}", 1.4, who="Maud")
    bench.rivet("cuff-1", "rivet/overnight", 900.0, who="Maud")
    bench.file.close()
    return found


def told(capsys, path, *more):
    assert run(["learned", "--workshop", str(path), *more]) == 0
    return capsys.readouterr().out


def test_it_tells_before_after_observations_and_what_counts_for_little(capsys, path):
    lines = told(capsys, path).splitlines()
    drying = next(line for line in lines if line.startswith("Water dye"))
    assert "  24 h  " in drying
    assert drying.endswith("  5")
    hands = [line for line in lines if line.startswith("rivet")]
    assert [line.split(", ")[1].startswith("Maud") for line in hands] == [False, True]
    assert all(line.endswith("  7") and " min  " in line for line in hands)
    assert (
        sum(
            "far off the others, counts for little: cuff-1/rivet/overnight" in line
            for line in lines
        )
        == 2
    )


def test_its_json_keeps_to_the_shipped_schema(capsys, path):
    found = json.loads(told(capsys, path, "--json"))
    schema("learned").validate(found)
    (drying,) = found["dryings"]
    assert drying["after_min"] == pytest.approx(drying["factor"] * drying["before_min"], abs=1)
    assert drying["observations"] == 5
    assert [(hand["kind"], hand["who"]) for hand in found["hands"]] == [
        ("rivet", ""),
        ("rivet", "Maud"),
    ]
    for hand in found["hands"]:
        assert hand["after_min"] == pytest.approx(hand["factor"] * hand["before_min"])


def test_what_is_forgotten_is_gone_and_comes_back(capsys, path):
    said = told(capsys, path, "--forget", DYE)
    assert said.startswith(f"From now on learned anew: {DYE}.")
    assert "Water dye" not in said.split("\n", 1)[1]
    assert "rivet" in said
    found = json.loads(told(capsys, path, "--forget", "all", "--json"))
    schema("learned").validate(found)
    assert (found["dryings"], found["hands"]) == ([], [])
    assert found["since"].startswith("20")
    told(capsys, path, "--remember", "all")
    assert "Water dye" in told(capsys, path, "--remember", DYE)


def test_what_nobody_learns_is_told_with_what_there_is(capsys, path):
    assert run(["learned", "--workshop", str(path), "--forget", "lantern"]) == 2
    said = capsys.readouterr().err
    assert said.startswith("There is nothing called 'lantern' to be learned.")
    assert DYE in said
    assert "rivet" in said


def test_where_there_is_no_workshop_none_is_made(capsys, tmp_path):
    path = tmp_path / "none.sqlite"
    assert told(capsys, path) == "Nothing was learned yet: the catalogue's times count.\n"
    found = json.loads(told(capsys, path, "--json"))
    schema("learned").validate(found)
    assert not path.exists()


def test_a_file_that_is_no_workshop_is_told(capsys, tmp_path):
    path = tmp_path / "letter.txt"
    path.write_text("Dear harbour master")
    assert run(["learned", "--workshop", str(path)]) == 2
    assert str(path) in capsys.readouterr().err
