"""A movement of which a choice leaves parts out, and how far its pairs then turn."""

from dataclasses import replace

import pytest

from armorplan.pattern.choosing import settled
from armorplan.pattern.moving import Movement
from armorplan.pattern.options import Choice, Option
from armorplan.rules.sketches import sketch, sketch_part

LOOK = Option(
    id="look",
    name="Look",
    choices=(Choice(id="whole", name="Whole"), Choice(id="plain", name="Plain")),
    chosen="whole",
)
BEND = Movement(
    id="bend",
    name="the elbow bends",
    parts=("a", "b", "c", "d"),
    angle_deg=100.0,
    shares_deg=(10.0, 20.0, 70.0),
)


def plain(movement, *left_out):
    """Return the movements of a plain build that lacks these parts."""
    parts = tuple(
        replace(sketch_part(name), only_with=("look.whole",) if name in left_out else ())
        for name in "abcd"
    )
    pattern = replace(sketch(*parts), movements=(movement,), options=(LOOK,))
    return settled(pattern, {"look": "plain"}).movements


@pytest.mark.parametrize(
    ("left_out", "parts", "shares"),
    [
        ((), ("a", "b", "c", "d"), (10.0, 20.0, 70.0)),
        (("b",), ("a", "c", "d"), (30.0, 70.0)),
        (("c",), ("a", "b", "d"), (10.0, 90.0)),
        (("a",), ("b", "c", "d"), (30.0, 70.0)),
        (("d",), ("a", "b", "c"), (10.0, 90.0)),
        (("b", "c"), ("a", "d"), (100.0,)),
    ],
)
def test_what_is_left_shares_the_whole_bend(left_out, parts, shares):
    (left,) = plain(BEND, *left_out)
    assert left.parts == parts
    assert left.shares_deg == shares
    assert sum(left.turns_deg) == pytest.approx(BEND.angle_deg)


def test_all_alike_stay_alike():
    (left,) = plain(replace(BEND, shares_deg=()), "b")
    assert left.shares_deg == ()
    assert left.turns_deg == (50.0, 50.0)


def test_one_part_alone_makes_no_movement():
    assert plain(BEND, "a", "b", "c") == ()


def test_a_movement_of_another_choice_is_gone():
    assert plain(replace(BEND, only_with=("look.whole",))) == ()
