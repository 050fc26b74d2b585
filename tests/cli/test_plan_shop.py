"""``armorplan plan SHOP``: all builds that a shop has in hand, as table, JSON, CSV, calendar, paper."""

import csv
import json
from dataclasses import replace
from datetime import datetime
from itertools import pairwise
from pathlib import Path

import icalendar
import pytest
from folders_cli import copy_sample
from schemas_cli import schema

from armorplan.app.starting_orders import ShopOrders, begin_orders
from armorplan.cli.program import run
from armorplan.files.catalogue import read_shelf
from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.clock import SystemClock
from armorplan.ledger.events import Event, EventKind
from armorplan.store.workshop_file import WorkshopFile

FROM = ["--from", "2026-12-07T08:00Z", "--seconds", "0"]
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
[builds.cop]
title = "Cop of the mole"
pattern = "elbow_cop"
due = "2026-12-16 17:30"
weight = 3
[builds.collar]
pattern = "collar"
due = "2026-12-09 12:00"
"""
BROKEN = """
[builds.broken]
pattern = "broken_cop"
"""


@pytest.fixture
def shop(tmp_path) -> Path:
    file = tmp_path / "harbour_shop.toml"
    file.write_text(SHOP, encoding="utf-8")
    return file


@pytest.fixture
def with_a_broken_one(tmp_path, shop) -> Path:
    folder = copy_sample(tmp_path)
    folder = folder.rename(tmp_path / "broken_cop")
    (folder / "pattern.toml").write_text("[pattern\n", encoding="utf-8")
    shop.write_text(SHOP + BROKEN, encoding="utf-8")
    return shop


def planned(capsys, file: Path, *options: str, code: int = 0) -> dict:
    assert run(["plan", str(file), *FROM, "--json", *options]) == code
    return json.loads(capsys.readouterr().out)


def test_all_builds_are_in_one_plan_that_fits_the_schema(shop, capsys):
    found = planned(capsys, shop)
    schema("week").validate(found)
    assert found["shop"] == "Harbour shop"
    assert [build["id"] for build in found["builds"]] == ["cop", "collar"]
    assert {step["build"] for step in found["steps"]} == {"cop", "collar"}
    spans = sorted((step["start"], step["end"]) for step in found["steps"] if step["who"])
    assert all(one[1] <= other[0] for one, other in pairwise(spans))
    for build in found["builds"]:
        ends = [step["end"] for step in found["steps"] if step["build"] == build["id"]]
        assert max(ends) == build["finish"]
        late = datetime.fromisoformat(build["finish"]) - datetime.fromisoformat(build["due"])
        assert build["late_min"] == max(0, late.total_seconds() // 60)
    assert found["stages"][0]["name"] == "lateness"


def test_the_table_tells_each_build_with_its_dates(shop, capsys):
    assert run(["plan", str(shop), *FROM]) == 0
    said = capsys.readouterr().out
    assert "Cop of the mole: due Wed 16 Dec 17:30, finished " in said
    assert "Maker" in said
    assert "Cop of the mole: Measure the paper print" in said


def test_a_late_build_is_told_late_once_with_its_end_and_why(shop, capsys):
    text = SHOP.replace('due = "2026-12-09 12:00"', 'due = "2026-12-07 09:00"')
    shop.write_text(text, encoding="utf-8")
    assert run(["plan", str(shop), *FROM]) == 0
    said = capsys.readouterr().out
    (line,) = [line for line in said.splitlines() if line.startswith("Collar")]
    finished = line.removesuffix(".").rpartition("finished ")[2]
    told = next(line for line in said.splitlines() if f" late, {finished}." in line)
    assert "late by" not in said
    assert "no plan can end it before" in told
    assert "What holds “Collar of the lantern watch” up longest: " in told


def test_a_shop_is_meant_by_its_folder_too(shop, capsys):
    shop.rename(shop.with_name("shop.toml"))
    assert len(planned(capsys, shop.parent)["builds"]) == 2


def test_calendar_spreadsheet_and_paper_hold_the_same_plan(shop, tmp_path, capsys):
    files = [str(tmp_path / f"week.{kind}") for kind in ("ics", "csv", "pdf", "png")]
    options = [word for file in files for word in (f"--{Path(file).suffix[1:]}", file)]
    steps = planned(capsys, shop, *options)["steps"]
    starts = sorted(step["start"] for step in steps)
    calendar = icalendar.Calendar.from_ical(Path(files[0]).read_bytes())
    events = calendar.walk("VEVENT")
    assert {event.decoded("dtstart").isoformat() for event in events} <= set(starts)
    assert not_told(events, steps) == []
    assert any(event.walk("VALARM") for event in events)
    with Path(files[1]).open(encoding="utf-8", newline="") as held:
        rows = list(csv.DictReader(held))
    assert sorted(datetime.fromisoformat(row["start"]) for row in rows) == [
        datetime.fromisoformat(start) for start in starts
    ]
    assert Path(files[2]).read_bytes().startswith(b"%PDF-")
    assert Path(files[3]).read_bytes().startswith(b"\x89PNG")
    # A second time the same events are written again: a calendar moves them and adds none.
    planned(capsys, shop, *options[:2], "--from", "2026-12-08T08:00Z")
    again = icalendar.Calendar.from_ical(Path(files[0]).read_bytes()).walk("VEVENT")
    assert {str(event["uid"]) for event in again} >= {str(event["uid"]) for event in events}
    assert not list(tmp_path.glob("*.partial"))


def test_one_pattern_goes_into_a_calendar_too(tmp_path, capsys):
    file = tmp_path / "cop.ics"
    assert run(["plan", "elbow_cop", *FROM, "--json", "--ics", str(file)]) == 0
    steps = json.loads(capsys.readouterr().out)["steps"]
    events = icalendar.Calendar.from_ical(file.read_bytes()).walk("VEVENT")
    assert not_told(events, steps) == []
    assert len(events) < len(steps)


def not_told(events, steps):
    """Return the titles of steps that no event tells, of itself or among those it holds."""
    told = [f"{event['summary']}\n{event['description']}" for event in events]
    return [step["title"] for step in steps if not any(step["title"] in text for text in told)]


def test_one_unreadable_pattern_is_told_and_the_others_are_planned(with_a_broken_one, capsys):
    assert run(["plan", str(with_a_broken_one), *FROM, "--json"]) == 1
    captured = capsys.readouterr()
    found = json.loads(captured.out)
    schema("week").validate(found)
    assert {step["build"] for step in found["steps"]} == {"cop", "collar"}
    assert "'broken' is not planned: its pattern broken_cop cannot be made" in captured.err
    assert "broken" in found["findings"][0]["about"]
    assert "Traceback" not in captured.err


def test_builds_alike_are_derived_once_and_told_apart(shop, capsys):
    text = SHOP.partition("[builds.collar]")[0] + "count = 3\n"
    shop.write_text(text, encoding="utf-8")
    found = planned(capsys, shop)
    assert [build["title"] for build in found["builds"]] == [
        "Cop of the mole, 1",
        "Cop of the mole, 2",
        "Cop of the mole, 3",
    ]
    steps = [step["id"] for step in found["steps"]]
    paper = [step for step in steps if "/measure-print/" in step or "/mock-up/" in step]
    assert [step.partition("/")[0] for step in paper] == ["cop-1"] * 2  # One does for all three.
    others = {step.partition("/")[2] for step in {*steps} - {*paper}}
    assert len(others) * 3 == len({*steps} - {*paper})
    assert any(step["note"] for step in found["steps"] if step["build"] == "cop-3")


@pytest.fixture
def workshop(tmp_path, shop):
    """A workshop in which the shop was opened: two builds in hand."""
    path = tmp_path / "workshop.sqlite"
    file = WorkshopFile.open(path, SystemClock())
    read = read_shop_file(shop)
    ordered = ShopOrders(file=shop, orders=read.orders, shelf=read_shelf(), shop=read.shop)
    begin_orders(ordered, file, SystemClock())
    yield file
    file.close()


def standing(capsys, shop, workshop) -> tuple[dict, str]:
    options = ["--workshop", str(workshop.path), "--seconds", "0", "--json"]
    assert run(["plan", str(shop), *options]) == 0
    captured = capsys.readouterr()
    return json.loads(captured.out), captured.err


def test_builds_that_were_begun_are_planned_as_they_stand(shop, workshop, capsys):
    clock = SystemClock()
    first = next(
        step["id"] for step in planned(capsys, shop)["steps"] if step["build"] == "collar"
    ).replace("collar/", "collar-1/", 1)
    event = Event(
        build="collar-1",
        step=first,
        kind=EventKind.DONE,
        at=clock.now(),
        boot_id=clock.boot_id(),
        boot_s=clock.boot_seconds(),
        batch="press-1",
    )
    workshop.append((event,))
    found, said = standing(capsys, shop, workshop)
    assert {build["id"] for build in found["builds"]} == {"cop-1", "collar-1"}
    assert "as they stand in the workshop" in said
    begun = next(step for step in found["steps"] if step["id"] == first)
    assert datetime.fromisoformat(begun["end"]) <= clock.now()
    others = [step for step in found["steps"] if step["id"] != first]
    assert min(datetime.fromisoformat(step["start"]) for step in others) > datetime.fromisoformat(
        begun["start"]
    )


def test_what_was_agreed_in_the_window_counts_and_what_was_laid_aside_does_not(
    shop, workshop, capsys
):
    orders = {order.build: order for order in workshop.orders.all()}
    workshop.orders.keep(
        replace(orders["collar-1"], in_hand=False), replace(orders["cop-1"], weight=7)
    )
    found, _ = standing(capsys, shop, workshop)
    assert [(build["id"], build["weight"]) for build in found["builds"]] == [("cop-1", 7)]
    workshop.orders.keep(replace(orders["cop-1"], in_hand=False))
    options = ["--workshop", str(workshop.path), "--seconds", "0"]
    assert run(["plan", str(shop), *options]) == 2
    assert "Nothing is left to plan" in capsys.readouterr().err


def test_from_an_instant_all_is_planned_anew(shop, workshop, capsys):
    found = planned(capsys, shop, "--workshop", str(workshop.path))
    assert {build["id"] for build in found["builds"]} == {"cop", "collar"}


@pytest.mark.parametrize(
    ("change", "options", "named"),
    [
        (lambda text: text.partition("[builds")[0], [], "no builds in this shop file"),
        (lambda text: text, ["--shop", "other.toml"], "is a shop already"),
        (lambda text: text, ["--with", "look=plain"], "Write 'with'"),
        (lambda text: text, ["--ics", "nowhere/week.ics"], "nowhere/week.ics"),
        (lambda text: text, ["--pdf", "."], "the sheet cannot be written"),
        (lambda text: text.replace("[climate]", "[climate"), [], "harbour_shop.toml"),
    ],
)
def test_a_mistake_is_one_clear_message(shop, change, options, named, capsys):
    shop.write_text(change(SHOP), encoding="utf-8")
    assert run(["plan", str(shop), *FROM, *options]) == 2
    said = capsys.readouterr().err
    assert named in said
    assert "Traceback" not in said


def test_where_no_pattern_can_be_made_all_are_told(tmp_path, capsys):
    file = tmp_path / "shop.toml"
    head = SHOP.partition("[builds")[0]
    file.write_text(head + '[builds.a]\npattern = "none_a"\n[builds.b]\npattern = "none_b"\n')
    assert run(["plan", str(file), *FROM]) == 2
    said = capsys.readouterr().err
    assert "none_a" in said
    assert "none_b" in said


def test_a_file_that_is_no_calendar_is_left_as_it_is(shop, tmp_path, capsys):
    file = tmp_path / "week.ics"
    file.write_text("my notes", encoding="utf-8")
    assert run(["plan", str(shop), *FROM, "--ics", str(file)]) == 2
    assert "no calendar" in capsys.readouterr().err
    assert file.read_text(encoding="utf-8") == "my notes"


def test_a_calendar_with_something_of_others_is_left_as_it_is(shop, tmp_path, capsys):
    file = tmp_path / "mine.ics"
    lines = ["BEGIN:VCALENDAR", "BEGIN:VEVENT", "UID:a@b", "SUMMARY:Dentist", "END:VEVENT"]
    file.write_text("\r\n".join((*lines, "END:VCALENDAR", "")), encoding="utf-8")
    before = file.read_bytes()
    assert run(["plan", str(shop), *FROM, "--ics", str(file)]) == 2
    assert "Dentist" in capsys.readouterr().err
    assert file.read_bytes() == before


def uids(file: Path) -> set[str]:
    events = icalendar.Calendar.from_ical(file.read_bytes()).walk("VEVENT")
    return {str(event["uid"]) for event in events}


def test_events_stay_the_same_when_the_builds_are_begun_and_are_no_other_shops(
    shop, workshop, tmp_path, capsys
):
    files = [tmp_path / f"{name}.ics" for name in ("before", "begun", "other")]
    planned(capsys, shop, "--ics", str(files[0]))
    options = ["--workshop", str(workshop.path), "--seconds", "0", "--ics", str(files[1])]
    assert run(["plan", str(shop), *options]) == 0
    capsys.readouterr()
    before, begun = uids(files[0]), uids(files[1])
    # What stops at closing has an event for each sitting, so that some may differ.
    assert len(before & begun) > 0.9 * len(before | begun)
    other = tmp_path / "next_season.toml"
    other.write_text(SHOP, encoding="utf-8")
    planned(capsys, other, "--ics", str(files[2]))
    assert not uids(files[2]) & (before | begun)
