"""``armorplan promise``: dates of a shop's builds and of one pattern, and mistakes in its options."""

import json
from datetime import datetime

import pytest
from schemas_cli import schema

from armorplan.cli.program import run

FROM = ["--from", "2026-12-07T08:00Z", "--seconds", "0", "--runs", "200"]
SHOP = """
zone = "Europe/Lisbon"
[people.maker]
name = "Maker"
hours = [
    { day = "mon", from = "08:00", to = "18:00" }, { day = "tue", from = "08:00", to = "18:00" },
    { day = "wed", from = "08:00", to = "18:00" }, { day = "thu", from = "08:00", to = "18:00" },
]
[climate]
temperature_c = 20
humidity_pct = 50
[builds.elbows]
title = "Elbows of the mole"
pattern = "three_lames"
due = "2026-12-16 17:30"
weight = 3
"""


@pytest.fixture
def shop(tmp_path):
    file = tmp_path / "harbour_shop.toml"
    file.write_text(SHOP, encoding="utf-8")
    return str(file)


def promised(capsys, given, *options):
    assert run(["promise", given, *FROM, "--json", *options]) == 0
    found = json.loads(capsys.readouterr().out)
    schema("promise").validate(found)
    return found


def test_a_shop_is_promised_by_build(capsys, shop):
    found = promised(capsys, shop)
    (build,) = found["builds"]
    assert (found["runs"], found["seed"], found["odds_pct"]) == (200, 1, 80)
    assert (build["build"], build["weight"]) == ("elbows", 3)
    dates = [datetime.fromisoformat(told["at"]) for told in build["usual"]]
    assert dates == sorted(dates)
    assert build["promise"] == build["usual"][1]
    assert 0 <= build["kept_pct"] <= 100
    saves = [cause["saves_min"] for cause in build["causes"]]
    assert saves == sorted(saves, reverse=True)
    assert saves


def test_other_odds_are_promised_and_other_draws_drawn(capsys, shop):
    found = promised(capsys, shop, "--odds", "95%", "--seed", "2")
    (build,) = found["builds"]
    assert (found["odds_pct"], found["seed"]) == (95, 2)
    assert build["promise"] == build["usual"][2]


def test_the_answer_in_words(capsys, shop):
    assert run(["promise", shop, *FROM]) == 0
    told = capsys.readouterr().out
    assert told.startswith("Elbows of the mole\n  Promise it for ")
    assert "80 %; drawn anew from" in told
    assert "Due Wed 16 Dec 17:30: kept in " in told
    assert "How long " in told
    assert "200 times with durations that were drawn (seed 1)" in told


def test_one_pattern_is_promised_alone(capsys):
    assert run(["promise", "three_lames", *FROM]) == 0
    told = capsys.readouterr().out
    assert "Promise it for" in told
    assert "Due" not in told


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--odds", "100"], "100 is not a whole number from 1 to 99"),
        (["--odds", "often"], "often is not a whole number from 1 to 99"),
        (["--runs", "5"], "5 is not a whole number from 100 to 20000"),
        (["--seed", "-1"], "-1 is not a whole number from 0"),
    ],
)
def test_a_mistake_in_an_option_is_told_in_one_line(capsys, options, words):
    with pytest.raises(SystemExit) as left:
        run(["promise", "three_lames", *options])
    assert left.value.code == 2
    assert words in capsys.readouterr().err


def test_a_plan_says_in_the_same_breath_how_sure_its_dates_are(capsys, shop):
    assert run(["plan", shop, "--from", FROM[1], "--seconds", "0"]) == 0
    told = capsys.readouterr().out
    assert "Every build is ready when it is due." in told
    assert " of 100 runs" in next(line for line in told.splitlines() if "Every build" in line)
    assert run(["plan", shop, "--from", FROM[1], "--seconds", "0", "--json"]) == 0
    assert " of 100 runs" in json.loads(capsys.readouterr().out)["summary"]
