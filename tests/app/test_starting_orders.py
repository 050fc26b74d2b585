"""Orders of a shop file are begun once, however often and by however many windows it is opened."""

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from clocks import FakeClock

from armorplan.app import starting_orders
from armorplan.app.opening import resume_build
from armorplan.app.starting_orders import ShopOrders, begin_orders
from armorplan.files.catalogue import read_shelf
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.orders import Order
from armorplan.workshop.shop import one_maker

DUE_AT = datetime(2027, 3, 12, 16, 0, tzinfo=UTC)
COP = Order(
    id="mole_cop",
    pattern="elbow_cop",
    title="Cop of the mole",
    due_at=DUE_AT,
    weight=2,
    dyed=(("harbour blue", "tar black"),),
    after=("collar",),
)
COLLAR = Order(id="collar", pattern="collar")
BROKEN = Order(id="broken", pattern="nowhere_to_be_found")


@pytest.fixture
def asked(tmp_path) -> ShopOrders:
    file = tmp_path / "shop.toml"
    file.write_text("", encoding="utf-8")
    return ShopOrders(
        file=file, orders=(COP, COLLAR, BROKEN), shelf=read_shelf(), shop=one_maker("UTC")
    )


def opened(tmp_path: Path) -> WorkshopFile:
    return WorkshopFile.open(tmp_path / "workshop.sqlite", FakeClock())


@pytest.fixture
def workshop(tmp_path):
    file = opened(tmp_path)
    yield file
    file.close()


def test_each_order_becomes_a_build_with_what_was_agreed(asked, workshop):
    begun = begin_orders(asked, workshop, FakeClock())
    assert begun.first == "mole_cop-1"
    orders = {order.build: order for order in workshop.orders.all()}
    assert set(orders) == {"mole_cop-1", "collar-1"}
    cop = orders["mole_cop-1"]
    assert (cop.due_at, cop.weight, cop.in_hand) == (DUE_AT, 2, True)
    assert cop.after == ("collar-1",)
    assert workshop.names()["mole_cop-1"] == "Cop of the mole"


def test_a_pattern_that_cannot_be_read_is_told_and_the_others_are_begun(asked, workshop):
    (finding,) = begin_orders(asked, workshop, FakeClock()).findings
    assert finding.about == ("broken",)
    assert "nowhere_to_be_found" in finding.text


def test_the_snapshot_keeps_what_the_order_wants_otherwise(asked, workshop):
    begun = begin_orders(asked, workshop, FakeClock())
    derived = resume_build(workshop.build(begun.first), asked.shop).derived
    colours = {treatment.colour for treatment in derived.pattern.treatments}
    assert "tar black" in colours
    assert "harbour blue" not in colours


def test_a_second_start_goes_on_with_the_same_builds(asked, workshop, monkeypatch):
    first = begin_orders(asked, workshop, FakeClock())
    kept = workshop.builds()

    def never(*_args, **_kept):
        raise AssertionError("nothing has to be derived a second time")

    monkeypatch.setattr(starting_orders, "derive_build", never)
    asked = replace(asked, orders=(COP, COLLAR))
    assert begin_orders(asked, workshop, FakeClock()).first == first.first
    assert workshop.builds() == kept


def test_what_was_agreed_at_the_bench_stands_until_the_file_says_otherwise(asked, workshop):
    begin_orders(asked, workshop, FakeClock())
    (cop,) = [order for order in workshop.orders.all() if order.key == "mole_cop"]
    later_at = datetime(2027, 3, 20, 12, 0, tzinfo=UTC)
    workshop.orders.keep(replace(cop, due_at=later_at, in_hand=False))
    begin_orders(asked, workshop, FakeClock())
    (same,) = [order for order in workshop.orders.all() if order.key == "mole_cop"]
    assert (same.due_at, same.in_hand) == (later_at, False)
    sooner_at = datetime(2027, 3, 10, 12, 0, tzinfo=UTC)
    changed = replace(asked, orders=(replace(COP, due_at=sooner_at), COLLAR))
    begin_orders(changed, workshop, FakeClock())
    (anew,) = [order for order in workshop.orders.all() if order.key == "mole_cop"]
    assert (anew.due_at, anew.in_hand) == (sooner_at, False)


def test_what_a_begun_build_is_made_as_stands_and_is_told(asked, workshop):
    begin_orders(asked, workshop, FakeClock())
    changed = replace(asked, orders=(replace(COP, dyed=(("harbour blue", "rust"),)), COLLAR))
    (finding,) = begin_orders(changed, workshop, FakeClock()).findings
    assert (finding.code, finding.about) == ("begun-otherwise", ("mole_cop-1",))
    assert begin_orders(changed, workshop, FakeClock()).findings == ()
    later = replace(asked, orders=(replace(changed.orders[0], weight=5), COLLAR))
    assert begin_orders(later, workshop, FakeClock()).findings == ()


def test_a_shop_file_that_was_moved_goes_on_with_its_builds(asked, workshop):
    begin_orders(asked, workshop, FakeClock())
    moved = asked.file.rename(asked.file.with_name("moved.toml"))
    begin_orders(replace(asked, file=moved), workshop, FakeClock())
    assert tuple(workshop.names()) == ("collar-1", "mole_cop-1")
    assert {order.source for order in workshop.orders.all()} == {str(moved)}


def test_another_shop_with_orders_of_the_same_names_has_builds_of_its_own(asked, workshop):
    begin_orders(replace(asked, orders=(COLLAR,)), workshop, FakeClock())
    other = asked.file.with_name("other.toml")
    other.write_text("", encoding="utf-8")
    begin_orders(replace(asked, file=other, orders=(COLLAR,)), workshop, FakeClock())
    assert tuple(workshop.names()) == ("collar-1", "collar-2")


def test_two_windows_at_once_begin_each_order_once(asked, workshop, tmp_path, monkeypatch):
    asked = replace(asked, orders=(COLLAR,))
    other = opened(tmp_path)
    real = starting_orders.derive_build

    def overtaken(*args, **kept):
        monkeypatch.setattr(starting_orders, "derive_build", real)
        begin_orders(asked, other, FakeClock())
        return real(*args, **kept)

    monkeypatch.setattr(starting_orders, "derive_build", overtaken)
    assert begin_orders(asked, workshop, FakeClock()).first == "collar-1"
    assert tuple(workshop.names()) == tuple(other.names()) == ("collar-1",)
    other.close()


def test_a_start_cut_off_between_two_builds_is_finished_by_the_next(asked, workshop, monkeypatch):
    real, calls = starting_orders.derive_build, []

    def killed(*args, **kept):
        calls.append(args)
        if len(calls) == 2:
            raise KeyboardInterrupt
        return real(*args, **kept)

    monkeypatch.setattr(starting_orders, "derive_build", killed)
    with pytest.raises(KeyboardInterrupt):
        begin_orders(asked, workshop, FakeClock())
    assert tuple(workshop.names()) == ("collar-1",)
    monkeypatch.setattr(starting_orders, "derive_build", real)
    begin_orders(asked, workshop, FakeClock())
    assert tuple(workshop.names()) == ("collar-1", "mole_cop-1")
