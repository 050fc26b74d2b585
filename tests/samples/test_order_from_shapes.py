"""What is set inside before a shape is shut comes from the shapes alone, however a pattern lists it."""

from dataclasses import replace

import pytest

from armorplan.app.opening import derive_folder
from armorplan.assembly.expand import assemble
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.orders.sequence import one_order
from armorplan.rules.reach_sketches import sketch_tube
from armorplan.rules.registry import derive_all
from armorplan.steps.deriving import derive_steps
from armorplan.workshop.shop import one_maker

SHELF = read_shelf()
LEFT_OUT = ("straps-before-lames", "flat-rivets-before-curve")
REACH = ("reach-before-closed", "easier-while-open")
DEEP = (20.0, 130.0, 240.0, 350.0, 460.0, 570.0, 680.0)


def order_of(pattern, *left_out):
    """Return the joints as they are set, steps taken as late as the pattern lists them."""
    assembly = assemble(pattern, SHELF, build="b")
    work = derive_steps(assembly, SHELF)
    relations = [
        relation
        for relation in derive_all(assembly, work, SHELF).relations
        if relation.reason.rule not in left_out
    ]
    place = {step.id: at for at, step in enumerate(work.steps)}
    found = one_order([step.id for step in work.steps], relations, key=place.__getitem__)
    assert found.conflict == ()
    sets = {
        step.id: step.joints[0] for joint in assembly.joints if (step := work.setting(joint.id))
    }
    return [sets[step] for step in found.order if step in sets]


def listed(pattern, how):
    joints = list(pattern.joints)
    if how == "reversed":
        joints.reverse()
    elif how == "rows first":
        joints.sort(key=lambda joint: "row" not in joint.id)
    else:
        joints = joints[1::2] + joints[::2]
    return replace(pattern, joints=tuple(joints))


@pytest.mark.parametrize("how", ["reversed", "rows first", "every other"])
def test_the_lace_tab_deep_in_the_cop_goes_on_before_both_its_rows_are_shut(how):
    pattern = derive_folder(samples_folder() / "elbow_cop", SHELF, one_maker("UTC")).pattern
    order = order_of(listed(pattern, how), *LEFT_OUT)
    shut = max(order.index(f"{row}_row_{n}") for row in ("left", "right") for n in range(1, 8))
    assert order.index("tab_top") < shut
    assert order.index("tab_bottom") < shut


def test_without_what_the_shapes_say_a_listing_with_the_rows_first_shuts_it_in():
    pattern = listed(sketch_tube(long_mm=700.0, spots_mm=DEEP, strap_mm=350.0), "rows first")
    assert order_of(pattern, *LEFT_OUT, *REACH)[-1] == "on"


@pytest.mark.parametrize("how", ["reversed", "rows first", "every other"])
@pytest.mark.parametrize("long_mm", [300.0, 700.0])
def test_a_strap_inside_a_tube_goes_on_before_the_tube_is_shut(how, long_mm):
    spots = DEEP if long_mm > 400 else (20.0, 110.0, 190.0, 280.0)
    tube = sketch_tube(long_mm=long_mm, spots_mm=spots, strap_mm=long_mm / 2)
    order = order_of(listed(tube, how), *LEFT_OUT)
    assert order.index("on") < max(order.index(f"row_{n}") for n in range(len(spots)))
