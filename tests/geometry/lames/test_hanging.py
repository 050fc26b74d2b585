"""Plates that cannot hang as their stacks say: it alone is told, and mended as told all is sound."""

from dataclasses import replace

from geometry.lame_sketches import bending, chain, codes, findings, lame, measures, pivots

from armorplan.kernel.findings import Severity
from armorplan.pattern.parts import PartKind


def three(*, angle_deg=30.0):
    """A cop over a lame below it and over one above it."""
    above = lame("above", 0, low_mm=0.0, high_mm=80.0, out=0.0)
    below = lame("below", 0, high_mm=60.0, low_mm=60.0, out=0.0, at=(0.0, 400.0))
    cop = replace(
        lame("cop", 1, high_mm=60.0, low_mm=90.0, inward=0.0, out=-24.0, at=(0.0, 200.0)),
        kind=PartKind.COP,
    )
    lower = tuple(
        replace(joint, stack=(f"cop_out_{side}", f"below_out_{side}"))
        for joint, side in zip(pivots("cop", "below"), ("near", "far"), strict=True)
    )
    return chain(
        above,
        cop,
        below,
        joints=(*pivots("cop", "above"), *lower),
        movement=bending("above", "cop", "below", angle_deg=angle_deg),
    )


def stacked(pattern, **stacks):
    """Return a pattern with some stacks written otherwise."""
    return replace(
        pattern,
        joints=tuple(
            replace(joint, stack=stacks.get(joint.id, joint.stack)) for joint in pattern.joints
        ),
    )


def turned_round(pattern):
    return stacked(pattern, cop_above_near=("above_out_near", "cop_in_near"))


def crossed(pattern):
    return stacked(
        pattern,
        cop_above_near=("cop_in_near", "above_out_far"),
        cop_above_far=("cop_in_far", "above_out_near"),
    )


def test_the_cop_over_both_is_sound():
    assert codes(three()) == []


def test_a_plate_over_and_under_another_is_told_with_both_pivots():
    (found,) = findings(turned_round(three()))
    assert (found.code, found.severity) == ("pivot-stacks-disagree", Severity.ERROR)
    assert "above lies over the cop at 'cop_above_near' and under it at 'cop_above_far'" in (
        found.text
    )
    assert "Turn one stack round: list the cop first in 'cop_above_near'" in found.remedy


def test_the_other_stack_turned_round_names_it():
    (found,) = findings(stacked(three(), cop_above_far=("above_out_far", "cop_in_far")))
    assert "over the cop at 'cop_above_far' and under it at 'cop_above_near'" in found.text


def test_nothing_else_is_told_of_that_pair_and_the_chain_carries_it():
    told = measures(turned_round(three(angle_deg=170.0)))
    assert not any(id_.startswith("lames:nest") and "above" in id_ for id_ in told)
    assert "lames:bend:above-cop" not in told
    assert told["lames:bend"].severity is Severity.ERROR
    assert "1 of 2 pairs do not hang" in told["lames:bend"].text


def test_crossed_pivots_are_told_with_the_holes_to_exchange():
    (found,) = findings(crossed(three()))
    assert (found.code, found.severity) == ("pivots-crossed", Severity.WARNING)
    assert "the above hangs upside down on the cop, or flesh side out" in found.text
    assert "The two holes are crossed in the stacks: exchange 'above_out_" in found.remedy
    assert "write up_deg = 270 for it" in found.remedy


def test_up_said_as_it_hangs_is_sound():
    pattern = crossed(three())
    above, *others = pattern.parts
    assert codes(replace(pattern, parts=(replace(above, up_deg=270.0), *others))) == []


def test_of_two_plates_alone_nothing_tells_which_hangs_upside_down():
    pattern = crossed(three())
    alone = replace(
        pattern,
        parts=pattern.parts[:2],
        joints=pattern.joints[:2],
        movements=(),
        forms=pattern.forms[:2],
    )
    assert codes(alone) == []


def test_what_hangs_upside_down_tells_no_gap_beside_it():
    told = measures(crossed(three(angle_deg=170.0)))
    assert "lames:bend:above-cop" not in told
    assert "lames:bend:cop-below" in told
