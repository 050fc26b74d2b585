"""Which build a window opens with: of a shop its builds are begun, and gone on with later."""

from argparse import Namespace

import pytest
from clocks import FakeClock

from armorplan.app import starting_orders
from armorplan.app.kin_builds import KinBuilds
from armorplan.app.session import Session
from armorplan.cli.build_reading import BuildReading
from armorplan.cli.first_build import begin_left, first_build, meant_shop
from armorplan.cli.shop_now import shop_now
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


def started(chosen, workshop, kin=None):
    file = meant_shop(chosen, workshop)
    shop = read_shop_file(file).shop
    return first_build(chosen, workshop, (read_shelf(), shop), file, kin or KinBuilds())


def opened(chosen, workshop):
    return started(chosen, workshop).opened


def begun_whole(file, workshop, kin=None):
    kin = kin or KinBuilds()
    left = started(given(pattern=file), workshop, kin).left
    begin_left(workshop.path, left, kin, lambda: False)
    return kin


def test_a_shop_opens_with_the_build_due_first_before_the_others_are_begun(
    file, workshop, monkeypatch
):
    derived = []
    real = starting_orders.derive_build

    def told(*given, build, **more):
        derived.append(build)
        return real(*given, build=build, **more)

    monkeypatch.setattr(starting_orders, "derive_build", told)
    kin = KinBuilds()
    found = started(given(pattern=file), workshop, kin)
    assert found.opened.build.id == "first-1"
    assert found.opened.derived.shop.people[0].name == "Maker"
    assert derived == ["first-1"]
    assert tuple(workshop.names()) == ("first-1",)
    begin_left(workshop.path, found.left, kin, lambda: True)
    assert derived == ["first-1"]
    begin_left(workshop.path, found.left, kin, lambda: False)
    assert derived == ["first-1", "second-1"]
    assert kin.known("second-1") is not None
    assert tuple(workshop.names()) == ("first-1", "second-1")


def test_what_hinders_others_is_told_and_among_the_findings_of_every_build(file, workshop, capsys):
    kin = begun_whole(file, workshop)
    assert [finding.about for finding in kin.not_begun] == [("broken",)]
    assert "none_such" in capsys.readouterr().err
    found = opened(given(pattern=file), workshop)
    session = Session(found.build, found.derived, workshop, FakeClock(), lambda: "press")
    session.share(kin)
    assert session.findings[0].about == ("broken",)


def test_a_build_that_waits_for_others_is_begun_after_them(file, workshop):
    text = SHOP + BUILDS.replace(
        'due = "2027-03-10 12:00"', 'due = "2027-03-10 12:00"\nafter = ["second"]'
    )
    file.write_text(text, encoding="utf-8")
    found = started(given(pattern=file), workshop)
    assert found.opened.build.id == "first-1"
    order = next(o for o in workshop.orders.all() if o.build == "first-1")
    assert order.after == ("second-1",)


def test_where_the_build_due_first_cannot_be_made_the_next_one_is_opened(file, workshop):
    broken = '[builds.broken]\npattern = "none_such"\ndue = "2027-03-01 12:00"\n'
    text = SHOP + BUILDS.replace('[builds.broken]\npattern = "none_such"\n', broken)
    file.write_text(text, encoding="utf-8")
    assert opened(given(pattern=file), workshop).build.id == "first-1"


def test_a_shop_opened_from_the_window_is_worked_in_from_then_on(file, workshop):
    now = shop_now(None, workshop.path, read_shelf, FakeClock())
    kin, seated = KinBuilds(), []
    reading = BuildReading(
        path=workshop.path, shelf=read_shelf, shop=now, kin=kin, seat=seated.append
    )
    ready = reading(file)
    assert now.told.zone != "Europe/Lisbon"
    assert seated == []
    ready()
    assert [one.build.id for one in seated] == ["first-1"]
    assert set(workshop.names()) == {"first-1", "second-1"}
    assert now.told.zone == "Europe/Lisbon"
    assert now().people[0].name == "Maker"
    assert [finding.about for finding in kin.not_begun] == [("broken",)]
    file.write_text("zone = ", encoding="utf-8")
    with pytest.raises(UnreadableError):
        reading(file)


def test_a_window_opened_next_with_nothing_named_goes_on_in_the_same_shop(file, workshop):
    begun_whole(file, workshop)
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
