"""Which build a window opens with: of a shop its builds are begun, and gone on with later."""

from argparse import Namespace

import pytest
from clocks import FakeClock

from armorplan.app.kin_builds import KinBuilds
from armorplan.cli.first_build import first_build, meant_shop
from armorplan.files.catalogue import read_shelf
from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.errors import ArmorplanError, UnreadableError
from armorplan.store.workshop_file import WorkshopFile

SHOP = """
zone = "Europe/Lisbon"
[people.maker]
name = "Maker"
hours = [{ day = "mon", from = "08:00", to = "18:00" }]
"""
BUILDS = """
[builds.second]
pattern = "collar"
due = "2027-03-20 12:00"
[builds.broken]
pattern = "none_such"
[builds.first]
pattern = "elbow_cop"
due = "2027-03-10 12:00"
"""


@pytest.fixture
def workshop(tmp_path):
    file = WorkshopFile.open(tmp_path / "workshop.sqlite", FakeClock())
    yield file
    file.close()


@pytest.fixture
def file(tmp_path):
    made = tmp_path / "watch.toml"
    made.write_text(SHOP + BUILDS, encoding="utf-8")
    (tmp_path / "none_such").mkdir()
    (tmp_path / "none_such" / "pattern.toml").write_text("[pattern", encoding="utf-8")
    return made


def given(**told):
    return Namespace(**{"pattern": None, "shop": None, "build": None, **told})


def opened(chosen, workshop):
    file = meant_shop(chosen, workshop)
    shop = read_shop_file(file).shop
    return first_build(chosen, workshop, (read_shelf(), shop), file, KinBuilds())


def test_a_shop_opens_with_the_build_due_first_and_tells_what_hinders_others(
    file, workshop, capsys
):
    found = opened(given(pattern=file), workshop)
    assert found.build.id == "first-1"
    assert tuple(workshop.names()) == ("second-1", "first-1")
    assert found.derived.findings[0].about == ("broken",)
    assert "none_such" in capsys.readouterr().err
    assert found.derived.shop.people[0].name == "Maker"


def test_a_window_opened_next_with_nothing_named_goes_on_in_the_same_shop(file, workshop):
    opened(given(pattern=file), workshop)
    assert meant_shop(given(), workshop) == file
    assert opened(given(), workshop).build.id == "first-1"
    assert opened(given(build="second-1"), workshop).build.id == "second-1"
    assert len(workshop.names()) == 2


def test_a_shop_that_has_become_unreadable_hinders_no_window(file, workshop, capsys):
    opened(given(pattern=file), workshop)
    file.write_text("zone = ", encoding="utf-8")
    assert meant_shop(given(), workshop) is None
    assert "usual hours count" in capsys.readouterr().err


def test_a_shop_file_beside_a_pattern_is_who_works_and_begins_nothing(file, workshop):
    chosen = given(pattern=file.parent / "no_pattern", shop=file)
    assert meant_shop(chosen, workshop) == file
    with pytest.raises(UnreadableError):
        opened(chosen, workshop)
    assert not workshop.names()


def test_two_shops_are_one_too_many(file, workshop):
    with pytest.raises(ArmorplanError, match="Name one of the two"):
        meant_shop(given(pattern=file, shop=file), workshop)


def test_a_shop_without_builds_says_so(file, workshop):
    file.write_text(SHOP, encoding="utf-8")
    with pytest.raises(ArmorplanError, match="no builds in this shop file"):
        opened(given(pattern=file), workshop)
