"""The dry fits of the samples, read as a maker would: what is pinned, in which order, what is looked at.

Two pins a seam, one where it turns, pins that fill their holes, straps marked only on the wearer, and
one-handed fastening that decides the opening side: common practice, no source.
"""

from dataclasses import replace

import pytest

from armorplan.app.derived import derive_build
from armorplan.app.dry_fit_rows import dry_fit_plan, stock_of
from armorplan.app.fit_asking import FitAsking
from armorplan.app.fit_looks import LookKind
from armorplan.app.fit_order import pin_reach
from armorplan.app.fit_seams import fit_seams, neighbours
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.joining import Motion
from armorplan.pattern.wearing import CheckTime
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

SHELF = read_shelf()
NAMES = ("elbow_cop", "three_lames", "collar", "arm_harness")
FEW, SOME, MANY = 4, 8, None


class Found(dict):
    """Keeps what was made once; a sample that no test asks for is not derived."""

    def __init__(self, make):
        super().__init__()
        self._make = make

    def __missing__(self, key):
        self[key] = made = self._make(key)
        return made


@pytest.fixture(scope="module")
def builds(begun):
    def built(name):
        if name == "elbow_cop":
            return begun[1].derived
        pattern = read_pattern(read_folder(samples_folder() / name), SHELF).pattern
        return derive_build(pattern, SHELF, one_maker("UTC"), build=f"{name}-1")

    return Found(built)


@pytest.fixture(scope="module")
def plans(builds):
    return Found(lambda asked: FitAsking(derived=builds[asked[0]], most=asked[1]).at_once())


SLOW = {(name, most) for name in ("three_lames", "arm_harness") for most in (FEW, MANY)}
"""The same code on larger pieces: some pins are enough for every day."""


@pytest.fixture(
    params=[
        pytest.param((name, most), marks=[pytest.mark.long] if (name, most) in SLOW else [])
        for name in NAMES
        for most in (FEW, SOME, MANY)
    ],
    ids=str,
)
def asked(request, builds, plans):
    name, most = request.param
    return builds[name], most, plans[request.param].fits


def joint_of(built, pin):
    return built.assembly.joint(pin.joint)


def test_every_fit_has_its_rounds(asked):
    built, _, fits = asked
    assert [fit.step for fit in fits] == sorted(
        (step.id for step in built.work.of_kind(StepKind.DRY_FIT)), key=built.place.__getitem__
    )
    for fit in fits:
        on = {seam for each in fit.rounds for seam in each.seams}
        assert on == {seam for seam, _ in fit.seams}


def test_no_round_takes_more_pins_than_there_are(asked):
    _, most, fits = asked
    assert all(most is None or len(each.pins) <= most for fit in fits for each in fit.rounds)


def test_pins_enter_their_holes_and_hold_their_stacks(asked):
    built, _, fits = asked
    for pin in (pin for fit in fits for each in fit.rounds for pin in each.pins):
        holes = [built.pattern.hole(hole).diameter_mm for _, hole in joint_of(built, pin).stack]
        assert pin.hole_mm == min(holes)
        assert min(holes) - 1.0 <= pin.diameter_mm <= min(holes) + 0.05
        parts = [
            built.pattern.part(built.pattern.hole(h).part) for _, h in joint_of(built, pin).stack
        ]
        assert pin.length_mm > 0.9 * sum(part.thickness_mm for part in parts)


def test_two_pins_hold_a_seam_and_one_each_joint_that_turns(asked):
    built, _, fits = asked
    names = {fit.step: dict(fit.seams) for fit in fits}
    for fit in fits:
        for each in fit.rounds:
            held = {pin.joint for pin in each.pins} | {clip.joint for clip in each.clips}
            turning = [
                j
                for j in built.work.step(fit.step).joints
                if built.assembly.joint(j).joint.motion is not Motion.FIXED
            ]
            for seam in each.seams:
                row = next((s for s in built.assembly.seams if s.id == seam), None)
                if row is not None:
                    assert len(held & {*row.joints}) >= 2, names[fit.step][seam]
                if seam in turning:
                    parts = {*built.assembly.joint(seam).parts}
                    beside = [j for j in turning if {*built.assembly.joint(j).parts} == parts]
                    assert held.issuperset(beside)


def test_nothing_placed_on_the_wearer_is_pinned_before_it_is_marked(asked):
    built, _, fits = asked
    for fit in fits:
        placed = [
            j
            for j in built.work.step(fit.step).joints
            if built.assembly.joint(j).joint.placed_on_wearer
        ]
        assert not {pin.joint for each in fit.rounds for pin in each.pins} & {*placed}
        marks = [look for each in fit.rounds for look in each.looks if look.kind is LookKind.MARK]
        assert len(marks) == bool(placed)
        assert all({*placed} <= {*look.about} and look.on_wearer for look in marks)
        assert all(built.work.step(look.step).kind is StepKind.MARK for look in marks)


def test_every_pin_goes_in_after_those_before_it(asked):
    built, _, fits = asked
    reach = pin_reach(built)
    for each in (each for fit in fits for each in fit.rounds):
        joints = [pin.joint for pin in each.pins]
        assert [pin.number for pin in each.pins] == list(range(1, len(joints) + 1))
        assert not any(pin.is_stuck for pin in each.pins)
        for at, joint in enumerate(joints):
            before = frozenset(joints[:at])
            assert reach.may_be_last(joint, before, pinned=frozenset(joints))


def test_what_the_boss_hides_is_pinned_before_the_boss(plans):
    pins = [pin.joint for pin in plans["elbow_cop", MANY].fits[0].rounds[0].pins]
    assert max(map(pins.index, ("tab_top", "tab_bottom"))) < max(
        map(pins.index, ("boss_left", "boss_right"))
    )


def test_the_last_round_alone_is_worn_and_only_what_moves_or_is_marked(asked):
    built, _, fits = asked
    for fit in fits:
        worn = [each.number for each in fit.rounds if each.on_wearer]
        joints = [built.assembly.joint(j).joint for j in built.work.step(fit.step).joints]
        moves = any(j.motion is not Motion.FIXED or j.placed_on_wearer for j in joints)
        assert worn == ([len(fit.rounds)] if moves else [])
        for each in fit.rounds:
            assert each.on_wearer or not any(look.on_wearer for look in each.looks)


def test_each_seam_is_looked_at_and_each_look_stands_once(asked):
    _, _, fits = asked
    for fit in fits:
        looks = [look for each in fit.rounds for look in each.looks]
        assert len({look.id for look in looks}) == len(looks)
        assert {seam for look in looks for seam in look.seams} == {seam for seam, _ in fit.seams}
        assert looks[0].kind is LookKind.HAND


def test_the_patterns_own_checks_are_among_the_looks(asked):
    built, _, fits = asked
    told = {look.step for fit in fits for each in fit.rounds for look in each.looks}
    own = [s.id for s in built.work.of_kind(StepKind.CHECK) if "dry fit" in s.title]
    assert told.issuperset(own)


def test_with_too_few_pins_clips_hold_the_rest_on_the_wearer(plans):
    fit = plans["collar", FEW].fits[0]
    last = fit.rounds[-1]
    assert last.on_wearer
    assert {"hinge", "front_rim_row", "back_rim_row"} <= {*last.seams}
    assert "hinge" in {pin.joint for pin in last.pins}
    assert len(last.pins) + len(last.clips) == 10
    assert fit.words[0] == (
        "7 rounds on the bench with the pins there are; fewer will not do. "
        "Then one on the wearer, with clips."
    )
    assert "To wear it takes 9 pins at once (10 to close it as well)" in " ".join(fit.words)


def test_a_hinge_leather_is_what_holds_a_forearm_together(plans):
    fit = next(f for f in plans["arm_harness", SOME].fits if "lower_arm/left" in f.step)
    hinges = {"wrist_hinge_outer.left", "wrist_hinge_inner.left", "fore_hinge_outer.left"}
    assert hinges <= {*fit.rounds[-1].seams}


def test_a_mirror_is_fitted_as_its_left(plans):
    by_step = {fit.step: fit for fit in plans["arm_harness", SOME].fits}
    for step, fit in by_step.items():
        if "/left/" in step:
            right = by_step[step.replace("/left/", "/right/")]
            assert [len(each.pins) for each in fit.rounds] == [
                len(each.pins) for each in right.rounds
            ]


def test_lames_are_laid_from_the_undermost_and_flow_from_the_cop(plans):
    fit = plans["three_lames", SOME].fits[0]
    order = [row.part for row in fit.lay_out]
    lames = [f"{p}_lame.left" for p in ("top", "middle")]
    assert [p for p in order if p in (*lames, "cop.left")] == [*lames, "cop.left"]
    assert fit.flow.startswith("Flow: cop over middle lame over top lame; cop over lower lame.")
    inner = next(row for row in fit.lay_out if row.part == "inner_leather.left")
    assert (inner.hand, inner.grain_out) == ("left", False)
    for row in fit.lay_out:
        assert all(order.index(below) < order.index(row.part) for below in row.over)


def test_a_five_millimetre_post_does_not_enter_a_three_millimetre_hole(builds):
    posts = tuple(pin for pin in SHELF.pins if pin.diameter_mm >= 5)
    thick = replace(builds["collar"], shelf=replace(SHELF, pins=posts))
    fit = dry_fit_plan(thick).fits[0]
    pinned = {pin.joint for each in fit.rounds for pin in each.pins}
    assert pinned == {"hinge"}
    looked = {seam for look in fit.rounds[-1].looks for seam in look.seams}
    assert looked == {seam for seam, _ in fit.seams}
    assert len(fit.rounds[-1].clips) == 11
    assert any("holes of 3 mm" in words and "no size of pin" in words for words in fit.words)


def test_a_hand_too_short_is_told_at_the_pin(builds):
    tools = tuple(
        replace(tool, reach_mm=20.0, opening_mm=200.0) if "dry-fit" in tool.serves else tool
        for tool in SHELF.tools
    )
    clumsy = replace(builds["elbow_cop"], shelf=replace(SHELF, tools=tools))
    fit = dry_fit_plan(clumsy, stock_of(SHELF.pins)).fits[0]
    stuck = [pin for pin in fit.rounds[0].pins if pin.is_stuck]
    assert stuck
    assert fit.words[-1].startswith("Neither hand nor pliers get in behind, with the others in: ")
    assert stuck[0].name in fit.words[-1] or f"{len(stuck)} pins" in fit.words[-1]


def test_what_nobody_wears_and_nothing_pins_is_looked_at_too(builds):
    """A lining glued to a plate, with a check of its own."""
    built = builds["three_lames"]
    glued = tuple(j for j in built.pattern.joints if j.id == "lining_glue")
    check = replace(
        built.pattern.fit_checks[0], id="lies", when=CheckTime.DRY_FIT, piece="elbow", parts=()
    )
    pattern = replace(
        built.pattern,
        joints=glued,
        seams=(),
        movements=(),
        threads=(),
        fit_checks=(check,),
        hardware=(),
    )
    fit = dry_fit_plan(derive_build(pattern, SHELF, one_maker("UTC"), build="plain-1")).fits[0]
    assert [each.title for each in fit.rounds] == ["One round, on the bench: no pins"]
    kinds = [look.kind for look in fit.rounds[0].looks]
    assert kinds == [LookKind.HAND, LookKind.CHECK]
    assert fit.words[0] == "Nothing of it goes on pins."


def test_of_sizes_that_nobody_counted_there_is_plenty(plans):
    fit = plans["collar", MANY].fits[0]
    assert fit.pins_owned is None
    assert len(fit.rounds) == 1
    assert sum(count for _, count in fit.pins_wanted) == fit.pins_needed == 12
    assert "12 pins, and 8 that may be left out" in fit.rounds[0].title
    assert any("All at once takes 12 pins: " in words for words in fit.words)


def test_seams_are_named_as_a_maker_says_them(plans):
    named = dict(plans["elbow_cop", MANY].fits[0].seams)
    assert named["left_row"] == "left row"
    assert named["right_row_4"] == "closing strap in the right row"
    assert named["tab_top"] == "lace tab inside middle petal"
    assert named["buckle_fold"] == "fold of buckle strap"
    arm = next(f for f in plans["arm_harness", SOME].fits if "elbow/left" in f.step)
    assert dict(arm.seams)["lower_near.left"] == "pivots of lower lame in cop"


def test_a_row_of_which_each_half_holds_other_parts_is_two_seams(builds):
    built = builds["elbow_cop"]
    one, *_ = built.pattern.seams
    mixed = replace(one, joints=(*one.joints[:2], "boss_left", "boss_right"))
    pattern = replace(built.pattern, seams=(mixed,), threads=(), forms=(), corrections=())
    fit = dry_fit_plan(derive_build(pattern, SHELF, one_maker("UTC"), build="mixed-1")).fits[0]
    ids = [seam for seam, _ in fit.seams]
    assert len({*ids}) == len(ids)
    assert {"left_row_1", "boss_left"} <= {*ids}


def test_what_lies_on_one_plate_is_not_pinned_again_with_every_row_of_it(builds):
    """A boss, a rib or a tab pulls at no row: common practice, no source."""
    cop = builds["elbow_cop"]
    (fit,) = cop.work.of_kind(StepKind.DRY_FIT)
    seams = fit_seams(cop, fit)
    assert {frozenset(two) for two in neighbours(cop.assembly, seams)} == {
        frozenset(("tab_top", "boss_left")),
        frozenset(("left_row", "right_row")),
        frozenset(("right_row", "right_row_4")),
    }
    lames = builds["three_lames"]
    fit = next(f for f in lames.work.of_kind(StepKind.DRY_FIT) if "/left/" in f.id)
    found = {frozenset(two) for two in neighbours(lames.assembly, fit_seams(lames, fit))}
    assert frozenset(("inner_to_middle.left", "top_near.left")) in found
    assert frozenset(("upper_fold.left", "upper_tab_row.left")) in found
    assert not any("boss_row.left" in two for two in found)
