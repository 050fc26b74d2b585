"""Posts for stacks: ranges, washers, slots, and joints that have no post."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import CAP, box, part, pattern, rivet, shelf

from armorplan.geometry.posts.measuring import post_measures
from armorplan.geometry.stacks import Stack, joint_stack, stack_of
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Joint, JointKind, Motion
from armorplan.workshop.fastening import choose_length


def _layers(*ends_mm, holes=1):
    return [
        replace(
            part(
                f"p{n}",
                box(60.0, 60.0),
                {f"h{n}_{k}": (20.0 + 20.0 * k, 30.0) for k in range(holes)},
            ),
            least_mm=least if least < most else None,
            thickness_mm=most,
        )
        for n, (least, most) in enumerate(ends_mm)
    ]


def _told(sketch):
    return [found for each in post_measures(sketch, shelf()) for found in each.findings]


def _found(*parts, joint=None, **more):
    joint = joint or rivet("j", *(p.holes[0].id for p in parts))
    sketch = pattern(*parts, joints=(replace(joint, **more),))
    return _told(sketch)


def test_a_stack_has_two_ends_and_counts_washers_and_repeats():
    strap, plate = _layers((2.8, 3.2), (4.0, 4.0))
    assert stack_of([strap, strap, plate]) == Stack(9.6, 10.4)
    assert stack_of([plate], 1.5) == Stack(5.5, 5.5, 1.5)
    assert stack_of([]) == Stack(0.0, 0.0)


def test_a_strap_folded_on_itself_is_two_layers():
    (strap,) = _layers((2.8, 3.2), holes=2)
    sketch = pattern(strap, joints=(rivet("fold", "h0_0", "h0_1"),))
    assert joint_stack(sketch, sketch.joint("fold")) == Stack(5.6, 6.4)


def test_the_post_is_for_the_upper_end_and_the_lower_end_gets_a_note():
    """Pinched 7.5 %: 8.0 mm becomes 7.4 mm, 4.8 mm becomes 4.44 mm and bears 7.44 mm at most."""
    thin = _layers((2.4, 4.0), (2.4, 4.0))
    assert choose_length(8.0, CAP, pinch_pct=7.5) == 8.0
    (found,) = _found(*thin)
    assert (found.code, found.severity) == ("measure-before-buying", Severity.NOTE)
    assert "the 8 mm post of Cap rivet is for the upper end of the leather, 8.0 mm" in found.text
    assert "at the lower end, 4.8 mm, it is 0.6 mm too long, and a 6 mm post fits" in found.text
    assert "before you buy" in found.remedy


def test_a_range_whose_ends_take_the_same_post_has_nothing_to_tell():
    assert _found(*_layers((3.2, 3.6), (3.2, 3.6))) == []


def test_washers_bring_a_stack_up_to_its_post():
    layers = _layers((1.5, 1.5), (1.2, 1.2))
    (found,) = _found(*layers)
    assert "Joint 'j' (p0, p1): the stack is 2.7 mm, 2.5 mm pinched" in found.text
    assert "Add 2.0 mm of washers (washer_mm) for the 6 mm post" in found.remedy
    assert _found(*layers, washer_mm=2.0) == []


def test_a_stack_too_thick_for_every_post_is_skived_by_the_mm_that_are_told():
    layers = _layers((7.1, 7.1), (7.1, 7.1))
    (found,) = _found(*layers, washer_mm=0.4)
    assert "the stack is 14.6 mm with 0.4 mm of washers, 13.5 mm pinched" in found.text
    assert found.remedy.startswith("Skive 1.7 mm off the layers")
    # 14.6 - 1.7 = 12.9, pinched 11.93: the 12 mm post reaches through.
    assert choose_length(14.6 - 1.7, CAP, pinch_pct=7.5) == 12.0


def test_many_joints_alike_are_counted_and_the_first_named():
    layers = _layers((7.1, 7.1), (7.1, 7.1), holes=2)
    joints = tuple(rivet(f"j{k}", f"h0_{k}", f"h1_{k}") for k in range(2))
    more = tuple(replace(joints[0], id=f"k{k}") for k in range(3))
    (found,) = _told(pattern(*layers, joints=(*joints, *more)))
    assert found.text.startswith(
        "5 joints ('j0', 'j1', 'k0' and 2 more; in p0, p1): the stack is 14.2 mm"
    )
    assert found.about == ("j0", "j1", "k0", "k1", "k2")


@pytest.mark.parametrize("kind", [JointKind.GLUE, JointKind.STITCH, JointKind.LACE])
def test_what_has_no_post_is_not_asked_for_one(kind):
    layers = _layers((7.1, 7.1), (7.1, 7.1))
    joined = Joint(id="j", kind=kind, layers=("p0", "p1"))
    assert _found(*layers, joint=joined) == []
    through = Joint(id="j", kind=kind, stack=("h0_0", "h1_0"))
    assert _found(*layers, joint=through) == []


def test_of_a_slot_the_width_is_the_hole():
    outer, inner = _layers((3.2, 3.2), (3.2, 3.2))
    slot = replace(inner.holes[0], travel_mm=12.0, diameter_mm=3.8)
    sliding = {"motion": Motion.SLIDING}
    assert _found(outer, replace(inner, holes=(slot,)), **sliding) == []
    wide = replace(slot, diameter_mm=5.0)
    (found,) = _found(outer, replace(inner, holes=(wide,)), **sliding)
    assert found.code == "hole-wrong-size"
    assert found.text.startswith("Slot 'h1_0' in p1 is 5.0 mm wide, 1.0 mm looser")


def test_holes_of_one_part_that_need_another_punch_are_told_at_once():
    outer, inner = _layers((3.2, 3.2), (3.2, 3.2), holes=2)
    holes = tuple(
        replace(h, diameter_mm=wide) for h, wide in zip(outer.holes, (2.0, 6.0), strict=True)
    )
    joints = tuple(rivet(f"j{k}", f"h0_{k}", f"h1_{k}") for k in range(2))
    (found,) = _told(pattern(replace(outer, holes=holes), inner, joints=joints))
    assert found.text == (
        "2 holes in p0 are not as wide as Cap rivet needs, 3.5 mm: 'h0_1' 6.0 mm and 'h0_0' 2.0 mm."
    )
    assert found.about == ("p0", "h0_1", "h0_0", "j1", "j0")
