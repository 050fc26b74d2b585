"""A cover hides the same from whichever face it is drawn, and what a nearer one hides is told once."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import box, part, pattern, rivet, shelf

from armorplan.geometry.covers.covering import covered_heads
from armorplan.geometry.covers.measuring import cover_measures
from armorplan.geometry.marks import MarkKind

ROW = {"1": 10.0, "2": 60.0, "3": 110.0}


def drawn(outline, holes, *, inside, name):
    """Return a part drawn from outside, or the same one drawn from inside: turned over, and moved."""
    if not inside:
        return part(name, outline, holes)
    over = part(
        name,
        tuple((500.0 - x, y) for x, y in outline),
        {hole: (500.0 - x, y) for hole, (x, y) in holes.items()},
    )
    return replace(over, drawn_from_inside=True)


def trimmed(*, trim=False, plate=False, strip=False):
    """Return a strip on a trim on a plate, which all hang 40 mm below their row; two heads on the
    plate, 25 mm below and above it. Of each it is told whether it is drawn from the inside.
    """
    strip_part = drawn(box(90.0, 50.0, (0.0, -5.0)), {f"s{n}": (x, 0.0) for n, x in ROW.items() if
        n != "3"}, inside=strip, name="strip")  # fmt: skip
    trim_holes = {f"t{n}": (x, 0.0) for n, x in ROW.items()}
    trim_part = drawn(box(120.0, 50.0, (0.0, -5.0)), trim_holes, inside=trim, name="trim")
    plate_holes = {f"p{n}": (x, 0.0) for n, x in ROW.items()}
    heads = {"under": (60.0, 25.0), "above": (60.0, -25.0)}
    plate_part = drawn(box(200.0, 200.0, (-40.0, -100.0)), {**plate_holes, **heads}, inside=plate,
        name="plate")  # fmt: skip
    tab = part("tab", box(60.0, 80.0), {"a": (10.0, 10.0), "b": (10.0, 60.0)})
    joints = (
        rivet("j1", "s1", "t1", "p1"),
        rivet("j2", "s2", "t2", "p2"),
        rivet("j3", "t3", "p3"),
        rivet("hid", "under", "a"),
        rivet("open", "above", "b"),
    )
    return pattern(strip_part, trim_part, plate_part, tab, joints=joints)


@pytest.mark.parametrize("strip", [False, True])
@pytest.mark.parametrize("trim", [False, True])
@pytest.mark.parametrize("plate", [False, True])
def test_from_whichever_face_it_is_drawn_the_same_head_is_hidden(strip, trim, plate):
    sketch = trimmed(trim=trim, plate=plate, strip=strip)
    assert {(cover, joint) for cover, joint, _ in covered_heads(sketch, shelf())} == {
        ("trim", "hid"),
        ("strip", "hid"),
    }
    found = {each.id: each for each in cover_measures(sketch, shelf())}
    zone = next(m for m in found["covers:trim:plate"].marks if m.kind is MarkKind.ZONE)
    xs, ys = zip(*zone.spots, strict=True)
    head = sketch.hole("under").centre
    assert (min(xs) + max(xs)) / 2 == pytest.approx(head[0])
    assert (min(ys) + max(ys)) / 2 == pytest.approx(head[1])


def test_through_a_part_in_between_it_is_turned_over_twice():
    """The strip lies on the trim alone, and is placed on the plate through it."""
    for strip, trim, plate in ((0, 1, 0), (1, 0, 1), (1, 1, 0), (0, 0, 1)):
        sketch = trimmed(trim=bool(trim), plate=bool(plate), strip=bool(strip))
        joints = (
            rivet("s_1", "s1", "t1"),
            rivet("s_2", "s2", "t2"),
            rivet("t_3", "t3", "p3"),
            rivet("t_2", "t2", "p2"),
            *sketch.joints[3:],
        )
        hidden = covered_heads(replace(sketch, joints=joints), shelf())
        assert ("strip", "hid") in {(cover, joint) for cover, joint, _ in hidden}
        assert "open" not in {joint for _, joint, _ in hidden}


def test_what_a_nearer_cover_hides_as_well_is_told_of_that_one_alone():
    found = {each.id: each for each in cover_measures(trimmed(), shelf())}
    assert set(found) == {
        "covers:trim:plate",
        f"covers:nothing:{trimmed().parts[0].piece}",
    }
    idle = next(each for key, each in found.items() if "nothing" in key)
    assert idle.text == (
        "Where they lie, they hide no head and no open hole that is still to be reached: strip over "
        "trim; strip over plate; plate over tab."
    )


def test_a_further_cover_is_told_where_it_hides_more():
    sketch = trimmed()
    strip, trim, *others = sketch.parts
    narrow = replace(trim, outline=box(120.0, 30.0, (0.0, -5.0)))
    found = {
        m.id for m in cover_measures(replace(sketch, parts=(strip, narrow, *others)), shelf())
    }
    assert {"covers:trim:plate", "covers:strip:plate"} <= found
