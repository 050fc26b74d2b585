"""The builds in hand of a shop file, and their patterns as ordered."""

from datetime import UTC, datetime

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.files.ordered_pattern import as_ordered
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.shop_file import read_shop_file
from armorplan.files.source import read_folder
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.choosing import choices_in_force
from armorplan.pattern.joining import Applying
from armorplan.workshop.orders import Order

SHOP = """\
zone = "Europe/Lisbon"

[people.maker]
name = "Maker"
hours = [{ day = "mon", from = "09:00", to = "12:30" }]

[wearers.captain]
name = "Captain"
hours = [{ day = "mon", from = "09:00", to = "10:00" }]

[builds.cop]
title = "The captain's cop"
pattern = "elbow_cop"
from = 2026-12-07
due = "2026-12-16 17:30"
weight = 3
wearer = "captain"

[builds.night]
pattern = "elbow_cop"
count = 2
due = 2026-12-19
dyed = { "harbour blue" = "tar black" }
dip = ["colour"]
after = ["cop"]

[builds.elbows]
pattern = "three_lames"
with = { look = "plain" }
after = ["night"]
"""


@pytest.fixture
def read(tmp_path):
    def reading(text):
        path = tmp_path / "shop.toml"
        path.write_text(text, encoding="utf-8")
        return read_shop_file(path)

    return reading


def test_orders_as_written_those_alike_one_by_one(read):
    found = read(SHOP).orders
    assert [order.id for order in found] == ["cop", "night-1", "night-2", "elbows"]
    cop, one, other, elbows = found
    assert cop == Order(
        id="cop",
        pattern="elbow_cop",
        title="The captain's cop",
        due_at=datetime(2026, 12, 16, 17, 30, tzinfo=UTC),
        ready_at=datetime(2026, 12, 7, tzinfo=UTC),
        weight=3,
        wearer="captain",
    )
    # A day without a time: due by its end.
    assert one.due_at == other.due_at == datetime(2026, 12, 20, tzinfo=UTC)
    assert one.after == ("cop",)
    assert elbows.after == ("night-1", "night-2")
    assert elbows.chosen == (("look", "plain"),)


def test_patterns_are_samples_or_lie_beside_the_file(read, tmp_path):
    found = read(SHOP)
    assert found.pattern_folder(found.orders[0]) == samples_folder() / "elbow_cop"
    (tmp_path / "elbow_cop").mkdir()
    assert found.pattern_folder(found.orders[0]) == tmp_path / "elbow_cop"
    assert found.places["builds.cop"].line == 11


@pytest.mark.parametrize(
    ("old", "new", "code", "line", "says"),
    [
        ("from = 2026-12-07", 'from = "2026-12-16 17:30"', "due-before-start", 15, "before it may"),
        ("due = 2026-12-19", 'due = "Friday"', "wrong-value", 22, "2026-12-05 17:00"),
        ("due = 2026-12-19", "due = 1026-12-19", "wrong-value", 22, "a day"),
        ('pattern = "three_lames"', 'pattern = "four_lames"', "no-such-pattern", 28, "four_lames"),
        ("weight = 3", "weight = 0", "wrong-value", 16, "from 1"),
        ('wearer = "captain"', 'wearer = "captian"', "unknown-id", 17, '"captain"'),
        ('after = ["cop"]', 'after = ["cap"]', "unknown-id", 25, '"cop"'),
        ('after = ["cop"]', 'after = ["elbows"]', "builds-in-a-ring", 25,
         '"night" waits for "elbows" waits for "night"'),
        ("count = 2", "count = 0", "wrong-value", 21, "from 1"),
        ("weight = 3", "weigth = 3", "unknown-key", 16, '"weight"'),
    ],
)  # fmt: skip
def test_each_fault_has_its_line(read, old, new, code, line, says):
    assert old in SHOP
    with pytest.raises(UnreadableError) as caught:
        read(SHOP.replace(old, new, 1))
    finding = next(f for f in caught.value.findings if f.code == code)
    assert finding.place.line == line
    assert says in str(finding)


def test_the_pattern_is_made_as_ordered(read):
    _, night, _, elbows = read(SHOP).orders
    shelf = read_shelf()
    cop = read_pattern(as_ordered(read_folder(samples_folder() / "elbow_cop"), night), shelf)
    colour = next(t for t in cop.pattern.treatments if t.id == "colour")
    assert (colour.colour, colour.applying) == ("tar black", Applying.DIP)
    others = [t.applying for t in cop.pattern.treatments if t.id != "colour"]
    assert set(others) == {Applying.WIPE}
    plain = read_pattern(as_ordered(read_folder(samples_folder() / "three_lames"), elbows), shelf)
    assert [choice.id for choice in choices_in_force(plain.pattern)] == ["plain"]


def test_as_written_leaves_every_byte():
    source = read_folder(samples_folder() / "elbow_cop")
    assert as_ordered(source, Order(id="cop", pattern="elbow_cop")) is source


@pytest.mark.parametrize(
    ("order", "says"),
    [
        (Order(id="a", pattern="p", chosen=(("look", "bare"),)), 'no choice of look "bare"'),
        (Order(id="a", pattern="p", chosen=(("looks", "plain"),)), 'no option "looks"'),
        (Order(id="a", pattern="p", dyed=(("harbor blue", "red"),)), "It has: harbour blue"),
        (Order(id="a", pattern="p", dipped=("dye",)), "It has: colour, seal"),
    ],
)
def test_what_the_pattern_has_not(order, says):
    source = read_folder(samples_folder() / "three_lames")
    with pytest.raises(UnreadableError, match=says):
        as_ordered(source, order)
