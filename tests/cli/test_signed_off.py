"""What was signed off in a workshop counts in every shop that is read with it: window and command."""

import json
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime

import pytest
from clocks import FakeClock

from armorplan.cli.program import run
from armorplan.cli.shop_now import shop_kept, shop_now
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.skill_how import SkillHow
from armorplan.workshop.skills import SignedOff

SHOP = """
zone = "UTC"
[people.maud]
name = "Maud"
cannot = ["rivet"]
hours = [{ day = "mon", from = "08:00", to = "18:00" }, { day = "tue", from = "08:00", to = "18:00" }]
[people.ib]
name = "Ib"
can = ["cut", "rivet"]
hours = [{ day = "mon", from = "08:00", to = "18:00" }, { day = "tue", from = "08:00", to = "18:00" }]
"""
ALONE = SignedOff(
    person="maud",
    kind="rivet",
    how=SkillHow.ALONE,
    by="ib",
    at=datetime(2026, 12, 1, 9, tzinfo=UTC),
)
NOT_YET = replace(ALONE, person="ib", how=SkillHow.NOT_YET, by="maud")


@pytest.fixture
def shop_file(tmp_path):
    file = tmp_path / "harbour_shop.toml"
    file.write_text(SHOP, encoding="utf-8")
    return file


@pytest.fixture
def workshop(tmp_path):
    """The path of a workshop file in which Maud and Ib changed places at the anvil."""
    path = tmp_path / "workshop.sqlite"
    with closing(WorkshopFile.open(path, FakeClock())) as own:
        own.skills.keep(ALONE, NOT_YET)
    return path


def how(shop):
    return [(person.id, person.how("rivet").value) for person in shop.people]


CHANGED = [("maud", "alone"), ("ib", "not yet")]


def test_windows_and_commands_read_a_shop_with_what_was_signed_off(shop_file, workshop):
    now = shop_now(shop_file, workshop, read_shelf, FakeClock())
    assert how(now()) == CHANGED
    assert how(now.with_its_air()[0]) == CHANGED
    assert how(shop_kept(shop_file, workshop, read_shelf, FakeClock())[0]) == CHANGED
    # What the file itself says stays as it is.
    assert how(now.told) == [("maud", "not yet"), ("ib", "alone")]


def test_the_plan_of_a_command_goes_by_it(shop_file, workshop, tmp_path, capsys):
    def riveters(path):
        asked = ["plan", str(samples_folder() / "elbow_cop"), "--shop", str(shop_file)]
        asked += ["--from", "2026-12-07T08:00Z", "--seconds", "0", "--json"]
        assert run([*asked, "--workshop", str(path)]) == 0
        told = json.loads(capsys.readouterr().out)
        return {row["who"] for row in told["steps"] if "/rivet/" in row["id"]}

    empty = tmp_path / "empty.sqlite"
    WorkshopFile.open(empty, FakeClock()).close()
    assert riveters(empty) == {"ib"}
    assert riveters(workshop) == {"maud"}
