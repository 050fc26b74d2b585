"""For each mistake on each sample every feasible salvage, living with it and cutting anew are priced."""

from dataclasses import replace

import pytest
from orders.recovery.build_scenes import SAMPLES, derived_sample, named, row, sample_scene

from armorplan.app.ways_back import ways_back
from armorplan.app.ways_back_words import folded, risk_words, takes_words, way_title
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.recovery.amiss import amiss_of
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.orders.recovery.model import Means
from armorplan.orders.recovery.salvaging import feasible
from armorplan.steps.model import StepKind

PARTS = {
    "elbow_cop": "petal_left",
    "three_lames": "middle_lame.right",
    "collar": "front_lame",
    "arm_harness": "cop.right",
}
ROWS = {
    "elbow_cop": "left_row",
    "three_lames": "upper_strap_row.left",
    "collar": "front_rim_row",
    "arm_harness": "upper_far_rib.left",
}
JOINTS = {
    "elbow_cop": "left_row_1",
    "three_lames": "upper_strap_1.left",
    "collar": "front_rim_row_1",
    "arm_harness": "upper_ribs_far_1.left",
}


def mistakes(name):
    part, seam, joint = PARTS[name], ROWS[name], JOINTS[name]
    yield Mistake(kind=MistakeKind.WRONG_HOLE, about=(joint,), mm=2.0)
    yield Mistake(kind=MistakeKind.WRONG_COLOUR, about=(part,), darker=False)
    yield Mistake(kind=MistakeKind.WRONG_COLOUR, about=(part,), darker=True)
    yield Mistake(kind=MistakeKind.ROW_OFF, about=(seam,), mm=3.0)
    yield Mistake(kind=MistakeKind.SPOILT, about=(part,), mm=3.0)
    if ".right" in part:
        yield Mistake(kind=MistakeKind.TWO_ALIKE, about=(part,))


CASES = [(name, mistake) for name in SAMPLES for mistake in mistakes(name)]


@pytest.mark.parametrize("is_joined", [False, True], ids=["on cut leather", "joined"])
@pytest.mark.parametrize(
    ("name", "mistake"), CASES, ids=[f"{name}-{m.kind.slug}-{m.darker}" for name, m in CASES]
)
def test_every_salvage_living_with_it_and_cutting_anew_are_priced(name, mistake, is_joined):
    scene, derived = sample_scene(name), derived_sample(name)
    kinds = {StepKind.LAY_OUT, StepKind.CUT, StepKind.PUNCH}
    cut = frozenset(s.id for s in derived.work.of_kind(*kinds))
    done = frozenset(derived.order) if is_joined else cut
    found = ways_back(derived, done, (mistake,))
    moves = {move.id for way in found.ways for move in way.moves}
    (amiss,) = amiss_of(scene, (mistake,))
    salvages = feasible(scene, amiss, done)
    assert salvages
    assert {f"{amiss.id}:{each.id}" for each in salvages} <= moves
    assert any(each.means == "as-is" for each in salvages)
    means = [way.means for way in found.ways]
    assert {Means.AS_IS, Means.REMAKE} <= set(means)
    _is_told_sanely(found)


def _is_told_sanely(found):
    best = found.ways[0]
    assert [way.is_best for way in found.ways] == [True] + [False] * (len(found.ways) - 1)
    sound = [way for way in found.ways if not way.is_risky]
    assert not best.is_risky or not sound
    if best.means == Means.REMAKE:
        # A salvage of acceptable risk that costs less would stand first.
        assert all(way.price >= best.price for way in sound)
    for way in found.ways:
        assert way.proved
        assert way.price >= way.minutes - 0.01
        assert way.minutes == pytest.approx(sum(move.minutes for move in way.moves))
        assert way.wait_min == pytest.approx(sum(move.wait_min for move in way.moves))
        assert way.title
        assert takes_words(way)
        if way.means == Means.AS_IS:
            assert way.leaves or way.risk_pct < 10


def test_a_part_cut_anew_after_its_finish_takes_hours_and_days():
    derived = derived_sample("elbow_cop")
    mistake = Mistake(kind=MistakeKind.SPOILT, about=("petal_left",))
    found = ways_back(derived, derived.order, (mistake,))
    anew = next(way for way in found.ways if way.means == Means.REMAKE)
    assert 90 < anew.minutes < 400
    assert 2 * 1440 < anew.wait_min < 8 * 1440
    assert any(what.startswith("leather of") for what, _ in anew.hardware)
    assert anew.title.startswith("Cut left petal anew; drill out 10 rivets")


def test_two_of_one_hand_cost_little_while_the_other_side_is_not_cut():
    derived = derived_sample("three_lames")
    mistake = Mistake(kind=MistakeKind.TWO_ALIKE, about=("top_lame.right",))
    early = ways_back(derived, named("three_lames", "cut/top_lame.right"), (mistake,))
    assert early.ways[0].means == Means.OTHER_PLACE
    both = named("three_lames", "cut/top_lame.right", "cut/top_lame.left")
    assert ways_back(derived, both, (mistake,)).ways[0].means == Means.REMAKE


def test_what_was_hardened_or_dyed_is_not_formed_again():
    derived = derived_sample("elbow_cop")
    mistake = Mistake(kind=MistakeKind.SPOILT, about=("petal_left",))
    scene = sample_scene("elbow_cop")
    formed = scene.standing(named("elbow_cop", "form/petal_dish"), left=())
    means = [way.means for way in ways_back(derived, formed, (mistake,)).ways]
    assert Means.REFORM in means
    dyed = scene.standing(named("elbow_cop", "dye/colour.coat-1"), left=())
    means = [way.means for way in ways_back(derived, dyed, (mistake,)).ways]
    assert Means.REFORM not in means


def test_a_hole_too_far_out_is_not_made_oval_and_too_near_the_edge_neither():
    derived = derived_sample("elbow_cop")
    cut = named("elbow_cop", "punch/petal_left")
    means = {}
    for mm in (2.0, 30.0):
        mistake = Mistake(kind=MistakeKind.WRONG_HOLE, about=("left_row_3",), mm=mm)
        means[mm] = {way.means for way in ways_back(derived, cut, (mistake,)).ways}
    assert Means.OVAL in means[2.0]
    assert Means.OVAL not in means[30.0]
    assert Means.PLUG in means[30.0]


def test_a_row_closed_before_its_strap_is_set_with_the_tool_that_still_reaches():
    derived = derived_sample("collar")
    scene = sample_scene("collar")
    rows = ("front_rim_row", "front_plate_row", "back_rim_row", "back_plate_row")
    done = frozenset().union(*(row("collar", each) for each in rows))
    left = named("collar", "rivet/strap_inner", "rivet/strap_outer")
    found = ways_back(derived, scene.standing(done, left=left))
    assert found.stuck
    assert all(one.harder for one in found.stuck)
    assert found.ways[0].means == Means.OTHER_TOOL
    assert any(way.means == Means.DRILL for way in found.ways)
    move = next(m for m in found.ways[0].moves if m.means == Means.OTHER_TOOL)
    assert "mm in" in move.detail


def test_under_a_cover_that_still_turns_the_first_word_is_to_hold_it_aside():
    derived, scene = derived_sample("elbow_cop"), sample_scene("elbow_cop")
    left = named("elbow_cop", "rivet/tab_top")
    done = scene.standing(named("elbow_cop", "rivet/boss_left"), left=left)
    found = ways_back(derived, done)
    best = found.ways[0]
    assert best.title == "Set 2 as they stand now, boss held aside"
    assert best.means == Means.IN_PLACE
    swung = "Swing the boss aside and keep it there with a strip of leather"
    assert all(move.cautions[0].startswith(swung) for move in best.moves)
    both = scene.standing(named("elbow_cop", "rivet/boss_left", "rivet/boss_right"), left=left)
    drilled = next(way for way in ways_back(derived, both).ways if way.means == Means.DRILL)
    tab = next(move for move in drilled.moves if move.step.endswith("/tab_top"))
    assert tab.cautions[0].startswith(swung)
    # Whatever is drilled off whole lies in nobody's way.
    alone = next(way for way in found.ways if way.means == Means.DRILL)
    tab = next(move for move in alone.moves if move.step.endswith("/tab_top"))
    assert not any(caution.startswith(swung) for caution in tab.cautions)


@pytest.mark.parametrize("name", ["elbow_cop", "three_lames"])
def test_two_parts_cut_anew_open_what_they_share_once(name):
    parts = {
        "elbow_cop": ("petal_left", "petal_middle"),
        "three_lames": ("middle_lame.left", "cop.left"),
    }[name]
    derived = derived_sample(name)
    apart = tuple(Mistake(kind=MistakeKind.SPOILT, about=(part,), mm=200.0) for part in parts)
    together = Mistake(kind=MistakeKind.SPOILT, about=parts, mm=200.0)

    def anew(mistakes):
        ways = ways_back(derived, derived.order, mistakes).ways
        return next(w for w in ways if sum(m.means == Means.REMAKE for m in w.moves) == len(parts))

    one, two = anew((together,)), anew(apart)
    opened = [step for move in two.moves if move.opens for step in move.clears]
    assert len(opened) == len(set(opened))
    assert two.price == pytest.approx(one.price, rel=0.002)
    assert two.minutes == pytest.approx(one.minutes)
    assert (one.proved, two.proved) == (True, False)
    held = set(derived.order)
    for move in two.moves:
        if move.opens:
            assert set(move.clears) <= held
            held -= set(move.clears)
        elif move.step:
            assert move.step not in held
            held.add(move.step)
    assert held == set(derived.order)


def test_each_spoilt_part_has_a_spot_to_mend_and_a_risk_of_its_own():
    derived = derived_sample("elbow_cop")
    cut = named("elbow_cop", "cut/petal_left", "cut/petal_middle")

    def hidden(*parts):
        mistake = Mistake(kind=MistakeKind.SPOILT, about=parts, mm=9.0, way="face")
        ways = ways_back(derived, cut, (mistake,)).ways
        return next(way for way in ways if way.means == Means.HIDE)

    one, two = hidden("petal_left"), hidden("petal_left", "petal_middle")
    assert two.minutes == pytest.approx(2 * one.minutes)
    assert dict(two.hardware)["boss or patch"] == 2 * dict(one.hardware)["boss or patch"]
    assert two.risk_pct == pytest.approx(100 * (1 - (1 - one.risk_pct / 100) ** 2))


def test_paint_stands_behind_a_darker_dye_and_is_called_what_it_is():
    derived = derived_sample("elbow_cop")
    mistake = Mistake(kind=MistakeKind.WRONG_COLOUR, about=("petal_left",), darker=False)
    found = ways_back(derived, derived.order, (mistake,)).ways
    means = [way.means for way in found]
    assert means.index(Means.DARKER) < means.index(Means.PAINT)
    assert Means.HIDE not in means


def test_a_build_begun_before_there_were_salvages_has_those_that_ship():
    derived = derived_sample("elbow_cop")
    older = replace(derived, shelf=replace(derived.shelf, salvages=()))
    mistake = Mistake(kind=MistakeKind.ROW_OFF, about=("left_row",), mm=3.0)
    assert ways_back(older, (), (mistake,)) == ways_back(derived, (), (mistake,))


def test_nothing_wrong_has_no_way_back():
    derived = derived_sample("elbow_cop")
    found = ways_back(derived, derived.order[:20])
    assert (found.stuck, found.ways) == ((), ())
    assert found.told == "Nothing is barred: go on as before."


@pytest.mark.parametrize(
    ("kind", "about", "told"),
    [
        (MistakeKind.SPOILT, ("petal",), "No part of this build is called 'petal'"),
        (MistakeKind.SPOILT, (), "name the part"),
        (MistakeKind.ROW_OFF, ("tor",), "No row of this build is called 'tor'"),
        (
            MistakeKind.WRONG_HOLE,
            ("tor",),
            "No hole, joint or row of this build is called 'tor'",
        ),
        (MistakeKind.WRONG_HOLE, (), "name the hole, joint or row"),
        (MistakeKind.CLOSED, ("tor",), "No step, joint or row of this build is called 'tor'"),
    ],
)
def test_what_is_not_in_the_build_is_told(kind, about, told):
    with pytest.raises(ArmorplanError, match=told):
        ways_back(derived_sample("elbow_cop"), (), (Mistake(kind=kind, about=about),))


def test_a_part_of_a_pair_has_to_be_named_with_its_side():
    mistake = Mistake(kind=MistakeKind.SPOILT, about=("top_lame",))
    with pytest.raises(ArmorplanError, match=r"top_lame\.left or top_lame\.right"):
        ways_back(derived_sample("three_lames"), (), (mistake,))


def test_rivets_of_one_row_fold_into_one_line_and_keep_their_moves():
    derived = derived_sample("elbow_cop")
    mistake = Mistake(kind=MistakeKind.SPOILT, about=("petal_left",))
    found = ways_back(derived, derived.order, (mistake,))
    anew = next(way for way in found.ways if way.means == Means.REMAKE)
    lines = folded(anew.moves)
    assert sum(len(run) for _, run in lines) == len(anew.moves)
    assert "Drill out 7 rivets: left row" in [title for title, _ in lines]
    assert way_title(anew.moves) == anew.title


def test_risks_have_words():
    said = [risk_words(pct) for pct in (0, 3, 8, 15, 30)]
    assert said == ["hardly any risk", "little risk", "some risk", "a fair risk", "a high risk"]
