"""'Which fastener': what holds is held against the sum of the layers, reckoned here once more."""

from collections import Counter
from dataclasses import replace

import pytest
from app.drills.drill_sources import NAMES, asked, drills_of, source_of

from armorplan.app.drills.fastener_choices import fitting_of
from armorplan.app.drills.fastener_faults import Offer
from armorplan.app.drills.fastener_sums import LAYER, PINCHED, STACK, WASHERS
from armorplan.app.drills.reasons import rule_words
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.app.drills.source import DrillSource
from armorplan.geometry.holes.sizes import HOLE_OFF_MM
from armorplan.kernel.errors import ArmorplanError
from armorplan.pattern.joining import Motion
from armorplan.practice.drill import AnswerForm, DrillKind, Level
from armorplan.practice.reason_names import (
    CARRIES,
    CLAMPS_OR_TURNS,
    HOLE_WIDTH,
    OPENS_AGAIN,
    POST_LENGTH,
    REASON_NAMES,
)
from armorplan.rules.registry import rule_named

FASTENER = DrillKind.FASTENER
PINCH = 0.075
"""What leather gives under a fastener, of 5–10 % (common practice, no source; from memory)."""


def parts_of(name, length):
    used, _, length_mm = name.rpartition(":")
    return used, float(length_mm if length is None else length)


def holds_by_hand(derived, joint, name):
    """Tell whether a post holds: its window, the width of its hole, and what moves; all by hand."""
    used, length_mm = parts_of(name, None)
    fastener = derived.shelf.fastener(used)
    plain = derived.assembly.joint(joint).joint
    layers = [derived.pattern.part(p).thickness_mm for p in derived.pattern.stack_parts(plain.id)]
    grip_mm = sum(layers) * (1 - PINCH) + plain.washer_mm
    least_mm, most_mm = fastener.over_stack_mm
    fits = grip_mm + least_mm <= length_mm <= grip_mm + most_mm
    holes = [derived.pattern.hole(hole).diameter_mm for hole in plain.stack]
    moves = plain.motion is not Motion.FIXED
    clearance_mm = 0.5 if moves and not plain.washer_mm and fastener.motion != "turning" else 0.0
    wide = all(abs(mm - fastener.hole_mm - clearance_mm) <= HOLE_OFF_MM for mm in holes)
    clamped = moves and not plain.washer_mm and fastener.motion == "fixed"
    loose = not moves and fastener.motion == "turning"
    hung = {each.part for each in derived.pattern.suspensions}
    light = not fastener.load and hung.intersection(derived.pattern.stack_parts(plain.id))
    if light:
        return False
    return fits and wide and not clamped and not loose and fastener.kind == plain.kind


@pytest.fixture(scope="module", params=NAMES)
def made(request):
    return source_of(request.param), drills_of(FASTENER, request.param, 4)


def test_what_holds_is_what_holds_by_hand(made):
    source, drills = made
    for drill in drills:
        joint = drill.choices[0].joints[0]
        by_hand = [c.id for c in drill.choices if holds_by_hand(source.derived, joint, c.id)]
        assert list(solved(source, drill).answer) == by_hand
        assert 0 < len(by_hand) < len(drill.choices)
        assert (drill.form is AnswerForm.SOME) == (len(by_hand) > 1)


def test_every_sample_holds_exercises_with_posts_near_each_other(made):
    _, drills = made
    assert len(drills) == 4
    for drill in drills:
        assert 3 <= len(drill.choices) <= 5
        assert len({c.id for c in drill.choices}) == len(drill.choices)
        assert POST_LENGTH in drill.rules
        assert drill.cautions


def test_the_sum_is_shown_in_mm(made):
    source, drills = made
    for drill in drills:
        for because in solved(source, drill).because:
            told = Counter()
            for number in because.exact:
                told[number.name] += number.value
            assert told[STACK] == pytest.approx(told[LAYER] + told[WASHERS], abs=1e-3)
            assert told[PINCHED] == pytest.approx(
                told[LAYER] * (1 - PINCH) + told[WASHERS], abs=1e-3
            )
            assert because.text.endswith("mm holds.")


def test_every_wrong_choice_is_told_why(made):
    source, drills = made
    for drill in drills:
        answer = solved(source, drill).answer
        for choice in drill.choices:
            found = judged(source, drill, (choice.id,))
            if choice.id in answer:
                assert found.right == (len(answer) == 1)
                continue
            assert not found.right
            rules = {why.rule for why in found.because}
            pattern = source.derived.pattern
            holes = (hole.id for part in pattern.parts for hole in part.holes)
            ids = {*holes, *(joint.id for joint in pattern.joints)}
            assert not any(f"'{one}'" in why.text for one in ids for why in found.because)
            assert {met.rule for met in found.met} <= rules
            assert not any(met.kept for met in found.met)
            assert found.nearest == answer
            assert choice.title in found.sentence


def test_two_lengths_that_hold_are_both_asked_for():
    source = source_of("collar")
    drills = [drill_for(source, asked(FASTENER, seed, Level.PIECE)) for seed in range(12)]
    several = [drill for drill in drills if drill.form is AnswerForm.SOME]
    assert several
    for drill in several:
        answer = solved(source, drill).answer
        assert len(answer) == 2
        assert judged(source, drill, answer[::-1]).right
        part = judged(source, drill, answer[:1])
        assert not part.right
        assert part.moved == answer[1:]
        assert 0 < part.credit < 1
        assert "as well" in part.sentence


def test_the_right_post_is_not_always_the_one_in_the_middle():
    places = set()
    for name in NAMES:
        for drill in drills_of(FASTENER, name, 5):
            lengths = sorted(parts_of(c.id, None)[1] for c in drill.choices)
            right = solved(source_of(name), drill).answer[0]
            places.add(lengths.index(parts_of(right, None)[1]) / (len(lengths) - 1))
    assert 0.0 in places
    assert len(places) > 2


def fitting(name, joint):
    derived = source_of(name).derived
    return derived, fitting_of(derived, derived.assembly.joint(joint))


@pytest.mark.parametrize(
    ("name", "joint", "used", "rule"),
    [
        ("elbow_cop", "left_row_2", "copper_burr_2_8", HOLE_WIDTH),
        ("elbow_cop", "left_row_2", "screw_post_turning", CLAMPS_OR_TURNS),
        ("three_lames", "hang_1.left", "bifurcated_8", CARRIES),
        ("three_lames", "top_near.left", "tubular_9", OPENS_AGAIN),
    ],
)
def test_fasteners_that_do_not_suit_are_told_by_their_own_reason(name, joint, used, rule):
    derived, found = fitting(name, joint)
    fastener = derived.shelf.fastener(used)
    assert rule in {why.rule for why in found.unsuited(fastener)}
    own = derived.shelf.fastener(found.joint.fastener)
    assert not found.unsuited(own)


def test_a_joint_that_turns_without_a_washer_is_not_clamped():
    derived, found = fitting("collar", "hinge")
    clamping = derived.shelf.fastener("screw_post_fixed")
    assert CLAMPS_OR_TURNS in {why.rule for why in found.unsuited(clamping)}
    with_washer = type(found)(found.pattern, found.shelf, replace(found.joint, washer_mm=1.0))
    assert CLAMPS_OR_TURNS not in {why.rule for why in with_washer.unsuited(clamping)}


def test_a_post_at_the_edge_of_its_window_is_not_offered():
    derived, found = fitting("elbow_cop", "left_row_2")
    own = derived.shelf.fastener(found.joint.fastener)
    most_mm = found.post(Offer(fastener=own, length_mm=9.5)).window_mm[1]
    assert not found.is_clear(Offer(fastener=own, length_mm=most_mm + 0.1))
    assert found.is_clear(Offer(fastener=own, length_mm=most_mm + 1.0))


def test_where_every_post_holds_nothing_is_asked():
    source = source_of("elbow_cop")
    shelf = source.derived.shelf
    wide = tuple(replace(one, over_stack_mm=(-50.0, 50.0)) for one in shelf.fasteners)
    derived = replace(source.derived, shelf=replace(shelf, fasteners=wide))
    assert drill_for(DrillSource(derived=derived), asked(FASTENER, 0)) is None


@pytest.mark.parametrize("focus", [CLAMPS_OR_TURNS, OPENS_AGAIN, HOLE_WIDTH])
def test_what_is_asked_for_is_asked(focus):
    drill = drill_for(source_of("collar"), asked(FASTENER, 2, Level.PIECE, focus=focus))
    assert focus in drill.rules


def test_a_part_that_is_named_is_kept_to():
    drill = drill_for(source_of("elbow_cop"), asked(FASTENER, 0, part="keeper"))
    assert "keeper" in drill.parts
    assert drill_for(source_of("elbow_cop"), asked(FASTENER, 0, part="nothing")) is None


@pytest.mark.parametrize("answer", [(), ("nothing",)])
def test_what_is_no_answer_is_told(answer):
    source = source_of("elbow_cop")
    with pytest.raises(ArmorplanError, match="Answer with"):
        judged(source, drill_for(source, asked(FASTENER, 0)), answer)


def test_no_reason_of_a_fastener_is_called_as_a_rule_of_the_order():
    assert not any(rule_named(code) for code in REASON_NAMES)
    assert rule_words(POST_LENGTH) == REASON_NAMES[POST_LENGTH]


def test_what_stands_there_most_often_is_not_always_right():
    """Neither the fastener with most lengths, nor a length that stands there twice."""
    families, twice, often = 0, [], 0
    for name in ("elbow_cop", "three_lames"):
        source = source_of(name)
        for seed in range(10):
            drill = drill_for(source, asked(FASTENER, seed, Level.PIECE))
            right = {one.rpartition(":")[::2] for one in solved(source, drill).answer}
            offers = [choice.id.rpartition(":")[::2] for choice in drill.choices]
            used = Counter(fastener for fastener, _ in offers)
            most = [one for one, count in used.items() if count == max(used.values())]
            often += 1
            families += sum(one in most for one, _ in right) / len(right) / len(most)
            lengths = Counter(length for _, length in offers)
            doubled = [length for length, count in lengths.items() if count > 1]
            if doubled:
                twice.append(any(length in doubled for _, length in right))
    assert 0 < families < 0.75 * often
    assert not all(twice)
    assert any(twice)


def test_lengths_are_not_nearly_always_the_same():
    source = source_of("elbow_cop")
    drills = [drill_for(source, asked(FASTENER, seed)) for seed in range(16)]
    right = [one.rpartition(":")[2] for drill in drills for one in solved(source, drill).answer]
    assert max(Counter(right).values()) < len(right) / 2


def test_what_is_given_is_enough_to_reckon_with(made):
    source, drills = made
    for drill in drills:
        told = " ".join(drill.given)
        for choice in drill.choices:
            fastener = source.derived.shelf.fastener(choice.id.rpartition(":")[0])
            assert f"{fastener.name[1:]}" in told
            assert all(f"{abs(mm):g}" in told for mm in fastener.over_stack_mm if mm)
