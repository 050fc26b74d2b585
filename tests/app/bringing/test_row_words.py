"""Two ways to lay a part on the same holes read otherwise."""

from geometry.leather_sketches import box, part

from armorplan.app.bringing.row_words import told_apart
from armorplan.geometry.matching.suggesting import suggested


def test_the_other_way_round_is_told():
    holes = {"s1": (12.0, 130.0), "s2": (28.0, 130.0)}
    strap = part("strap", box(120.0, 20.0, at=(0.0, 120.0)), holes)
    plate = part("plate", box(300.0, 90.0), {"p1": (20.0, 45.0), "p2": (36.0, 45.0)})
    matches = suggested([plate, strap])
    parts = {each.id: each for each in (plate, strap)}
    one, other = told_apart(matches, {"plate": "plate", "strap": "strap"}, parts)
    assert "the other way round" in other
    assert "the other way round" not in one
