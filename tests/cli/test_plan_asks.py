"""What is asked of a plan: side by side with a change, around tonight, and what would free it."""

import json
from contextlib import closing
from itertools import count
from pathlib import Path

import pytest
from schemas_cli import schema

from armorplan.app.opening import open_build
from armorplan.app.session import Session
from armorplan.cli.program import run
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.shipped import samples_folder
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.planning import first_plan
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shop import one_maker

FROM = ["--from", "2026-12-07T08:00Z", "--seconds", "0"]
DAYS = "\n".join(
    f'    {{ day = "{day}", from = "08:00", to = "18:00" }},'
    for day in ("mon", "tue", "wed", "thu", "fri")
)
SHOP = f"""
zone = "Europe/Lisbon"
[people.maker]
name = "Maker"
hours = [
{DAYS}
]
[climate]
temperature_c = 20
humidity_pct = 50
[racks.line]
name = "Drying line"
line_mm = 1500
[builds.cop]
title = "Cop of the mole"
pattern = "elbow_cop"
due = "2026-12-10 17:30"
"""
APPRENTICE = f"""
[people.apprentice]
name = "Apprentice"
hours = [
{DAYS}
]
cannot = ["dye"]
"""


@pytest.fixture
def shop(tmp_path) -> Path:
    file = tmp_path / "shop.toml"
    file.write_text(SHOP, encoding="utf-8")
    return file


def answered(capsys, file: Path, *options: str, code: int = 0) -> dict:
    assert run(["plan", str(file), *FROM, "--json", *options]) == code
    return json.loads(capsys.readouterr().out)


def test_plans_stand_side_by_side_in_the_order_asked(shop, capsys):
    found = answered(
        capsys, shop, "--what-if", "line:+1", "--what-if", "away:maker:2026-12-07..2026-12-08"
    )
    schema("what_if").validate(found)
    assert [p["what_if"] for p in found["plans"]] == [
        "",
        "line:+1",
        "away:maker:2026-12-07..2026-12-08",
    ]
    at_hand, _, away = found["plans"]
    assert at_hand["builds"][0]["title"] == "Cop of the mole"
    assert away["finish"] > at_hand["finish"]
    assert "later" in away["against"]


def test_the_table_says_it_in_words(shop, capsys):
    assert run(["plan", str(shop), *FROM, "--what-if", "maker:+1"]) == 0
    first, second = capsys.readouterr().out.splitlines()[:2]
    assert first.startswith("The plan at hand: finished ")
    assert second.startswith("One more like Maker: finished ")
    assert "sooner" in second


def test_what_cannot_be_asked_is_told_before_anything_is_planned(shop, capsys):
    assert run(["plan", str(shop), *FROM, "--what-if", "vat:+1"]) == 2
    assert "'vat' is not in this shop, or in no plan. There is: line, maker." in (
        capsys.readouterr().err
    )


def test_the_help_shows_how_a_change_is_written(capsys):
    with pytest.raises(SystemExit):
        run(["plan", "--help"])
    said = " ".join(capsys.readouterr().out.split())
    assert "extra:WHO:2026-12-02T18:00-21:00" in said
    assert "--around-tonight" in said


def test_what_nobody_can_do_says_who_could_learn_it(shop, capsys):
    """The maker is gone; the apprentice does all but the dyeing."""
    text = SHOP.replace("[people.maker]", "[people.gone]").replace('name = "Maker"', 'name = "G"')
    only = text.replace(text[text.index("[people.gone]") : text.index("[climate]")], APPRENTICE)
    shop.write_text(only, encoding="utf-8")
    found = answered(capsys, shop, code=1)
    schema("week").validate(found)
    assert found["conflict"].startswith('Nobody in this shop does "dye": 2 steps cannot')
    (way,) = found["ways_out"]
    assert way["deed"] == "add"
    assert way["do"].startswith("Apprentice may do ")
    line = only.splitlines().index("[people.apprentice]") + 1
    where = f"Change can or cannot at [people.apprentice] in shop.toml, line {line}."
    assert way["where"] == where
    assert way["finish"] is not None
    assert way["late"] == [] or way["late"][0]["build"] == "Cop of the mole"
    assert run(["plan", str(shop), *FROM]) == 1
    out, err = capsys.readouterr()
    assert err.count("[nobody-can]") == 1
    assert out.startswith("What would free it:\n  Apprentice may do ")
    assert f"\n    {where}\n" in out


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (["--around-tonight", "--csv", "week.csv"], "ask for --csv in a command of its own"),
        (["--around-tonight", "--from", "2026-12-07T08:00Z"], "ask for --from in a command"),
        (
            ["--around-tonight", "--what-if", "line:+1", "--png", "week.png"],
            "ask for --png and --what-if in a command of its own",
        ),
        (
            ["--what-if", "line:+1", "--ics", "week.ics", "--pdf", "week.pdf"],
            "--what-if sets plans side by side and writes none of them: ask for --ics and --pdf",
        ),
    ],
)
def test_what_would_be_passed_over_is_refused_in_a_line(
    shop, tmp_path, capsys, monkeypatch, asked, said
):
    monkeypatch.chdir(tmp_path)
    assert run(["plan", str(shop), *asked]) == 2
    told = capsys.readouterr().err
    assert said in told
    assert told.count("\n") == 1
    assert list(tmp_path.glob("week.*")) == []


def test_around_tonight_needs_a_workshop_with_a_plan(shop, tmp_path, capsys):
    missing = tmp_path / "none.sqlite"
    asked = ["plan", str(shop), "--around-tonight", "--workshop", str(missing)]
    assert run(asked) == 2
    assert "There is no workshop file" in capsys.readouterr().err


@pytest.fixture
def workshop(tmp_path) -> Path:
    """A workshop in which the elbow cop's first steps are done, and a plan was shown."""
    path, clock, numbers = tmp_path / "w.sqlite", SystemClock(), count()
    shelf, shop = read_shelf(), one_maker()
    with closing(WorkshopFile.open(path, clock)) as file:
        opened = open_build(samples_folder() / "elbow_cop", file, shelf, shop, clock=clock)
        session = Session(opened.build, opened.derived, file, clock, lambda: f"p{next(numbers)}")
        problem = session.asking()()
        plan = first_plan(problem)
        assert session.take_plan(CheckedPlan(problem=problem, plan=plan))
        session.done(session.ready_steps()[:1])
    return path


def test_tomorrow_is_laid_around_what_the_workshop_holds(workshop, capsys):
    asked = ["plan", "elbow_cop", "--around-tonight", "--workshop", str(workshop)]
    assert run([*asked, "--seconds", "0", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    schema("tonight").validate(found)
    assert found["kept"] + len(found["moved"]) > 10
    assert found["sentence"].startswith(("Nothing is drying by now.", "Drying now: "))
    assert run([*asked, "--seconds", "0"]) == 0
    assert "stay where they were" in capsys.readouterr().out


def test_around_tonight_is_of_what_is_in_hand_there(workshop, capsys):
    asked = ["plan", "collar", "--around-tonight", "--workshop", str(workshop)]
    assert run(asked) == 2
    assert "Nothing of collar is in hand in " in capsys.readouterr().err
