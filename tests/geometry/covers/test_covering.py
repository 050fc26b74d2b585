from dataclasses import replace
from math import acos, pi, sqrt

import pytest
from geometry.leather_sketches import box, part, pattern, rivet, shelf

from armorplan.geometry.covers.covering import covered_heads, open_heads
from armorplan.geometry.covers.measuring import cover_measures
from armorplan.kernel.findings import Severity
from armorplan.pattern.parts import PartKind


def _told(sketch, code="which-lies-outside"):
    measures = cover_measures(sketch, shelf())
    return [found for each in measures for found in each.findings if found.code == code]


PLATE_HOLES = {"p1": (30.0, 30.0), "p2": (70.0, 30.0), "under": (50.0, 30.0), "far": (90.0, 80.0)}
TAB = part("tab", box(60.0, 20.0), {"t": (10.0, 10.0), "t_far": (50.0, 10.0)})


def _plate():
    return part("plate", box(100.0, 100.0), PLATE_HOLES)


def _boss(holes=None):
    spots = holes or {"b1": (10.0, 10.0), "b2": (50.0, 10.0)}
    return part("boss", box(60.0, 20.0), spots, kind=PartKind.TRIM)


def _joined(*more):
    return (
        rivet("boss_left", "b1", "p1"),
        rivet("boss_right", "b2", "p2"),
        rivet("tab_rivet", "under", "t"),
        rivet("far_rivet", "far", "t_far"),
        *more,
    )


def test_a_boss_hides_the_head_beneath_it_and_not_the_one_beside_it():
    sketch = pattern(_plate(), _boss(), TAB, joints=_joined())
    assert covered_heads(sketch, shelf()) == (("boss", "tab_rivet", 100.0),)


def test_a_boss_drawn_turned_elsewhere_on_the_sheet_hides_the_same_head():
    spots = {"b1": (310.0, 450.0), "b2": (310.0, 410.0)}
    turned = part("boss", box(20.0, 60.0, (300.0, 400.0)), spots, kind=PartKind.TRIM)
    sketch = pattern(_plate(), turned, TAB, joints=_joined())
    assert covered_heads(sketch, shelf()) == (("boss", "tab_rivet", 100.0),)


def test_half_a_head_is_measured_against_the_circle_segment():
    plate = part("plate", box(100.0, 100.0), {**PLATE_HOLES, "under": (50.0, 42.0)})
    ((_, _, pct),) = covered_heads(pattern(plate, _boss(), TAB, joints=_joined()), shelf())
    radius, out = 4.5, 2.0
    segment = radius**2 * acos(out / radius) - out * sqrt(radius**2 - out**2)
    assert pct == pytest.approx(100 * segment / (pi * radius**2), abs=0.5)


def test_a_part_held_by_one_joint_is_not_placed():
    held_once = tuple(j for j in _joined() if j.id != "boss_right")
    assert covered_heads(pattern(_plate(), _boss(), TAB, joints=held_once), shelf()) == ()


def test_a_part_that_lies_inside_hides_no_head_outside():
    inside = tuple(
        replace(j, stack=j.stack[::-1]) if j.id.startswith("boss") else j for j in _joined()
    )
    assert covered_heads(pattern(_plate(), _boss(), TAB, joints=inside), shelf()) == ()


def test_a_rivet_that_also_passes_the_cover_is_not_hidden_by_it():
    boss = _boss({"b1": (10.0, 10.0), "b2": (50.0, 10.0), "b3": (30.0, 10.0)})
    joints = tuple(
        replace(j, stack=("b3", *j.stack)) if j.id == "tab_rivet" else j for j in _joined()
    )
    assert covered_heads(pattern(_plate(), boss, TAB, joints=joints), shelf()) == ()


def test_a_cover_hides_heads_one_layer_further_down():
    lower = part(
        "lower",
        box(100.0, 100.0),
        {"l1": (20.0, 20.0), "l2": (80.0, 20.0)} | {"low_head": (50.0, 52.0)},
    )
    plate = part(
        "plate", box(100.0, 40.0), {**PLATE_HOLES, "q1": (20.0, 20.0), "q2": (80.0, 20.0)}
    )
    boss = part(
        "boss", box(60.0, 60.0), {"b1": (10.0, 10.0), "b2": (50.0, 10.0)}, kind=PartKind.TRIM
    )
    joints = (
        rivet("boss_left", "b1", "p1"),
        rivet("boss_right", "b2", "p2"),
        rivet("q1", "q1", "l1"),
        rivet("q2", "q2", "l2"),
        rivet("deep", "low_head", "t"),
    )
    found = covered_heads(pattern(lower, plate, boss, TAB, joints=joints), shelf())
    assert ("boss", "deep", 100.0) in found


def test_a_strap_hides_heads_only_between_its_fixings():
    holes = {"b1": (10.0, 10.0), "b2": (50.0, 10.0)}
    strap = part("boss", box(200.0, 20.0), holes, kind=PartKind.STRAP)
    plate_holes = {**PLATE_HOLES, "far": (95.0, 30.0)}
    plate = part("plate", box(200.0, 100.0), plate_holes)
    as_strap = covered_heads(pattern(plate, strap, TAB, joints=_joined()), shelf())
    as_trim = covered_heads(
        pattern(plate, replace(strap, kind=PartKind.TRIM), TAB, joints=_joined()), shelf()
    )
    assert [joint for _, joint, _ in as_strap] == ["tab_rivet"]
    assert [joint for _, joint, _ in as_trim] == ["tab_rivet", "far_rivet"]


def test_a_rough_place_finds_less():
    """Holes that miss by 6 mm place the outline no better than that, so it is drawn in."""
    roomy = part("plate", box(100.0, 100.0), {**PLATE_HOLES, "under": (50.0, 38.0)})
    rough = _boss({"b1": (4.0, 10.0), "b2": (56.0, 10.0)})
    sound = covered_heads(pattern(roomy, _boss(), TAB, joints=_joined()), shelf())
    assert [joint for _, joint, _ in sound] == ["tab_rivet"]
    assert covered_heads(pattern(roomy, rough, TAB, joints=_joined()), shelf()) == ()


def test_woven_parts_cover_nothing():
    woven = tuple(replace(j, stack=j.stack[::-1]) if j.id == "boss_left" else j for j in _joined())
    assert covered_heads(pattern(_plate(), _boss(), TAB, joints=woven), shelf()) == ()


def _strap_on_the_plate(*more):
    """A strap riveted on the plate from outside, where the boss lies too."""
    strap = part("strap", box(60.0, 20.0), {"s": (10.0, 10.0)}, kind=PartKind.STRAP)
    joints = (
        rivet("boss_left", "b1", "p1"),
        rivet("boss_right", "b2", "p2"),
        rivet("strap_rivet", "s", "under"),
        *more,
    )
    return pattern(_plate(), _boss(), strap, joints=joints)


def test_which_of_two_parts_on_a_third_lies_outside_is_asked():
    sketch = _strap_on_the_plate()
    assert covered_heads(sketch, shelf()) == ()
    (over,) = open_heads(sketch, shelf())
    assert over == ("boss", "strap_rivet", 100.0, "strap")
    (found,) = _told(sketch)
    assert found.severity is Severity.NOTE
    assert found.text == (
        "Boss and strap overlap at the head of 'strap_rivet', and no stack tells which of them "
        "lies outside."
    )
    assert 'lies_over = ["strap"] under [parts.boss] if boss lies outside' in found.remedy
    assert 'lies_over = ["boss"] under [parts.strap] if strap does' in found.remedy


def test_a_declaration_answers_it():
    sketch = _strap_on_the_plate()
    parts = tuple(
        replace(p, hides=("strap_rivet",)) if p.id == "boss" else p for p in sketch.parts
    )
    assert _told(replace(sketch, parts=parts)) == []


@pytest.mark.parametrize(
    ("outer", "inner", "hidden"),
    [("boss", "strap", [("boss", "strap_rivet", 100.0)]), ("strap", "boss", [])],
)
def test_the_maker_s_word_answers_it_either_way(outer, inner, hidden):
    """The strap hides nothing of the boss: without a joint to name, the part is named."""
    sketch = _strap_on_the_plate()
    parts = tuple(replace(p, lies_over=(inner,)) if p.id == outer else p for p in sketch.parts)
    told = replace(sketch, parts=parts)
    assert _told(told) == []
    assert open_heads(told, shelf()) == ()
    assert list(covered_heads(told, shelf())) == hidden


@pytest.mark.parametrize(("boss_outside", "hidden"), [(True, ["strap_rivet"]), (False, [])])
def test_stacks_through_a_part_in_between_answer_it(boss_outside, hidden):
    """Boss on keeper and keeper on strap, elsewhere: then the boss lies outside the strap."""
    sketch = _strap_on_the_plate()
    between = part("keeper", box(60.0, 20.0), {"k1": (10.0, 10.0), "k2": (50.0, 10.0)})
    parts = (*sketch.parts, between)
    parts = tuple(
        replace(p, holes=(*p.holes, replace(p.holes[0], id=f"{p.id}_far", centre=(5.0, 5.0))))
        for p in parts
    )
    stacks = (("boss_far", "k1"), ("k2", "strap_far"))
    more = tuple(
        rivet(f"by_{at}", *(stack if boss_outside else stack[::-1]))
        for at, stack in enumerate(stacks)
    )
    told = replace(sketch, parts=parts, joints=(*sketch.joints, *more))
    assert [joint for _, joint, _ in covered_heads(told, shelf()) if joint == "strap_rivet"] == (
        hidden
    )
    assert not [over for over in open_heads(told, shelf()) if over.joint == "strap_rivet"]
