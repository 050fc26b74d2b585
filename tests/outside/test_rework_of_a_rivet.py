"""Rework of a rivet as the trade does it: common practice, no source, but for one trade page.

A drilled rivet takes 3 to 5 minutes; where its hole has worn it is replaced one size up (common practice, no
source). Support the back, centre-punch the cap, drill just the head, never pry the cap off: a craft
page on the repair of tubular rivets. What must be adjusted is held by screws, which open for nothing.
"""

import pytest
from orders.recovery.build_scenes import named, sample_scene

from armorplan.orders.recovery.costs import next_size, sets_what
from armorplan.orders.recovery.model import Means
from armorplan.orders.recovery.taking_back import again, opening


def opened(name, tail):
    scene = sample_scene(name)
    (step,) = named(name, tail)
    return scene, step, opening(scene, step, frozenset(scene.place))


@pytest.mark.parametrize(
    ("name", "tail", "larger"),
    [
        ("elbow_cop", "rivet/keeper_ends", "double_cap_9"),
        ("collar", "rivet/front_plate_row_1", "copper_burr_3_4"),
        ("elbow_cop", "rivet/left_row_1", None),
    ],
)
def test_a_rivet_is_drilled_in_minutes_and_replaced_one_size_up_where_the_hole_has_worn(
    name, tail, larger
):
    scene, step, (move, note) = opened(name, tail)
    assert move.means is Means.DRILL
    assert 3 <= move.cost.minutes <= 5
    assert "centre-punch the cap, drill just the head" in note.detail
    assert any("never pry a cap off" in caution for caution in note.cautions)
    found = next_size(scene, sets_what(scene, scene.step(step)))
    assert (found.id if found else None) == larger
    _, told = again(scene, step)
    worn = "put a washer under its head" if larger is None else f"the next one up: {found.name}"
    assert worn in told.detail


def test_the_next_size_is_the_next_and_of_the_same_make():
    scene, step, _ = opened("elbow_cop", "rivet/keeper_ends")
    joint = sets_what(scene, scene.step(step))
    here, larger = scene.facts.shelf.fastener(joint.joint.fastener), next_size(scene, joint)
    between = [
        each
        for each in scene.facts.shelf.fasteners
        if each.kind == here.kind
        and each.foot == here.foot
        and here.hole_mm < each.hole_mm < larger.hole_mm
    ]
    assert not between


def test_a_screw_post_opens_in_a_minute_with_no_risk_and_serves_again():
    scene, step, (move, _) = opened("collar", "screw/hinge")
    assert move.means is Means.UNSCREW
    assert (move.cost.minutes, move.cost.risk_pct) == (1.0, 0.0)
    assert again(scene, step)[0].cost.hardware == ()
