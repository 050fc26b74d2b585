"""'Which joint first': just one of the joints cannot wait, by orders found and checked apart."""

from collections import Counter
from dataclasses import replace
from itertools import permutations

import pytest
from app.drills.drill_sources import NAMES, asked, drills_of, source_of, tube
from hypothesis import given
from hypothesis import strategies as st

from armorplan.app.drills.first_truth import decided, may_be_last
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.margins import margin
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.sequence import one_order
from armorplan.practice.drill import AnswerForm, DrillKind, Level
from armorplan.relations.checking import breaks
from armorplan.relations.index import index_relations
from armorplan.relations.model import Before, BeforeAll, Force, Reason
from armorplan.relations.weighing import binding
from armorplan.rules.reaching import BY_REACH, LEAST_MIN

FIRST = DrillKind.FIRST
ASKED = Reason(rule="asked", text="", force=Force.CANNOT, source="")
ONE_SIDED = ("elbow_cop", "collar")
WHOLE_MOST = 5


SMALL = tuple(name for name in NAMES if name != "arm_harness")


@pytest.fixture(scope="module", params=SMALL)
def made(request):
    return source_of(request.param), drills_of(FIRST, request.param, 5)


def steps_of(drill):
    return [choice.steps[0] for choice in drill.choices]


def last_of(source, drill, step):
    """Return a whole order that begins with what is done and has a step after all other choices."""
    derived, at = source.derived, {one: n for n, one in enumerate(drill.done)}
    done = frozenset(drill.done)
    first = [
        Before(first=one, then=other, reason=ASKED)
        for one in steps_of(drill)
        for other in steps_of(drill)
        if other == step != one
    ]
    kept = [
        each
        for each in binding(derived.relations)
        if not (isinstance(each, Before) and {each.first, each.then} <= done)
    ]
    place = derived.place
    return one_order(
        derived.order, (*kept, *first), key=lambda one: (one not in at, at.get(one, place[one]))
    ).order


def test_just_one_joint_cannot_wait(made):
    source, drills = made
    for drill in drills:
        if "cannot wait" not in drill.question:
            continue
        (right,) = solved(source, drill).answer
        for choice in drill.choices:
            order = last_of(source, drill, choice.steps[0])
            is_kept = bool(order) and order[: len(drill.done)] == drill.done
            broken = is_kept and breaks(order, binding(source.derived.relations))
            assert (is_kept and not broken) == (choice.id != right), choice.id


def test_every_sample_holds_exercises(made):
    drills = made[1]
    assert len(drills) == 5
    for drill in drills:
        assert drill.form is AnswerForm.ONE
        assert 2 <= len(drill.choices) <= WHOLE_MOST
        assert not set(drill.done) & set(steps_of(drill))
        assert {c.joints for c in drill.choices} == {(c.id,) for c in drill.choices}
        assert drill.hint
        assert drill.given


def test_what_is_right_is_told_with_its_reason_and_what_is_wrong_with_the_right_one(made):
    source, drills = made
    for drill in drills:
        (right,) = solved(source, drill).answer
        for choice in drill.choices:
            found = judged(source, drill, (choice.id,))
            assert found.right == (choice.id == right)
            assert found.nearest == (right,)
            assert found.credit == (choice.id == right)
            assert {met.rule for met in found.met} == set(drill.rules)
            assert all(met.kept == found.right for met in found.met)
            assert drill.choice(right).steps[0] in found.because[0].steps
            if not found.right:
                assert drill.choice(right).title in found.sentence


def test_wrong_answers_are_played_up_to_the_joint_that_nothing_reaches(made):
    source, drills = made
    for drill in drills:
        (right,) = solved(source, drill).answer
        wrong = next(choice for choice in drill.choices if choice.id != right)
        play = judged(source, drill, (wrong.id,)).play
        assert play[0].done == drill.done
        assert play[1].at == wrong.steps[0]
        if "cannot wait" in drill.question:
            assert right in play[-1].ghosts
            assert drill.choice(right).steps[0] in play[-1].amiss
        else:
            assert drill.choice(right).title in play[-1].said
            assert not play[-1].ghosts


@pytest.mark.parametrize("name", ONE_SIDED)
def test_what_takes_longer_does_so_by_the_model_of_reach(name):
    source = source_of(name)
    derived = source.derived
    reach = reach_of(derived.pattern, derived.shelf)
    for seed in range(5):
        drill = drill_for(source, asked(FIRST, seed, focus="easier-while-open"))
        assert not BY_REACH.isdisjoint(drill.rules)
        (right,) = solved(source, drill).answer
        done = {j for s in drill.done for j in derived.work.sets(derived.work.step(s))}
        dearer = {}
        for choice in drill.choices:
            others = {each.id for each in drill.choices} - {choice.id}
            now = margin(reach.net, choice.id, frozenset(done), reach.bench).effort
            then = margin(reach.net, choice.id, frozenset(done | others), reach.bench).effort
            minutes = derived.flat_work.step(choice.steps[0]).minutes
            dearer[choice.id] = (then - now) * minutes
        assert [one for one, more in dearer.items() if more >= LEAST_MIN] == [right]


def test_the_same_is_made_again_and_no_place_is_always_right(made):
    source, drills = made
    again = [drill_for(source, drill.asked) for drill in drills]
    assert again == drills
    places = Counter(
        [c.id for c in drill.choices].index(solved(source, drill).answer[0]) for drill in drills
    )
    assert len(places) > 1


def test_level_decides_how_many_joints():
    found = {
        level: {
            len(drill_for(source_of("elbow_cop"), asked(FIRST, seed, level)).choices)
            for seed in range(4)
        }
        for level in Level
    }
    assert max(found[Level.STRAP]) < max(found[Level.HARNESS]) == WHOLE_MOST


@pytest.mark.parametrize("focus", ["hidden-before-cover", "easier-while-open"])
def test_what_is_asked_for_is_asked(focus):
    for seed in range(4):
        drill = drill_for(source_of("elbow_cop"), asked(FIRST, seed, focus=focus))
        assert drill.rules == (focus,)


def test_a_piece_or_part_that_is_named_is_kept_to():
    source = source_of("arm_harness")
    for seed in range(2):
        drill = drill_for(source, asked(FIRST, seed, piece="elbow"))
        (right,) = solved(source, drill).answer
        assert source.derived.assembly.joint(right).piece == "elbow"
    part = drill_for(source_of("elbow_cop"), asked(FIRST, 1, part="lace_tab"))
    assert "lace_tab" in part.parts


def test_in_a_tube_that_the_horn_does_not_reach_through_the_strap_comes_first():
    source = tube(250.0)
    for seed in range(4):
        drill = drill_for(source, asked(FIRST, seed, focus="reach-before-closed"))
        assert solved(source, drill).answer == ("on",)
        assert "cannot wait" in drill.question
        assert any("250 mm" in line for line in drill.given)
        wrong = next(choice for choice in drill.choices if choice.id != "on")
        assert judged(source, drill, (wrong.id,)).play[-1].ghosts == ("on",)


def test_what_no_longer_fits_the_build_is_told():
    drill = drill_for(tube(250.0), asked(FIRST, 0, focus="reach-before-closed"))
    with pytest.raises(ArmorplanError, match="no longer fits"):
        judged(tube(900.0), drill, ("on",))


@pytest.mark.parametrize("answer", [(), ("nothing",), ("boss_left", "tab_bottom")])
def test_what_is_no_answer_is_told(answer):
    source = source_of("elbow_cop")
    drill = drill_for(source, asked(FIRST, 0))
    with pytest.raises(ArmorplanError, match="one letter"):
        judged(source, drill, answer)


@st.composite
def standings(draw):
    """Return steps with relations that an order of them keeps, and how many of that are done."""
    count = draw(st.integers(3, 6))
    names = [f"s{n}" for n in range(count)]
    relations = []
    for first in range(count - 1):
        behind = st.sampled_from(names[first + 1 :])
        if draw(st.booleans()):
            of = draw(st.frozensets(behind, min_size=1, max_size=3))
            relations.append(BeforeAll(first=names[first], of=of, reason=ASKED))
    return names, tuple(relations), draw(st.integers(0, count - 3))


@given(standings())
def test_what_may_be_last_is_last_in_some_order(standing):
    names, relations, at = standing
    done, left = names[:at], names[at:]
    index = index_relations(names, relations)
    marks = index.left_after(done)
    step, others = left[0], left[1:3]
    orders = (
        order
        for order in permutations(left)
        if order.index(step) > max(map(order.index, others))
        and not breaks((*done, *order), relations)
    )
    assert may_be_last(index, marks, step, others) == (next(orders, None) is not None)


def test_of_joints_that_may_all_wait_none_is_first():
    source = source_of("elbow_cop")
    work, place = source.derived.work, source.derived.place
    row = [work.setting(joint).id for joint in ("left_row_2", "left_row_3")]
    done = source.derived.order[: min(map(place.__getitem__, row))]
    assert decided(source.derived, row, done) is None


def test_the_last_picture_of_what_takes_longer_is_of_the_joint_that_is_left():
    source = source_of("elbow_cop")
    drill = drill_for(source, asked(FIRST, 0, focus="fold-while-loose"))
    (right,) = solved(source, drill).answer
    wrong = next(choice for choice in drill.choices if choice.id != right)
    last = judged(source, drill, (wrong.id,)).play[-1]
    assert last.at == drill.choice(right).steps[0]
    assert last.at not in last.done


def test_what_reach_alone_shuts_off_cannot_wait_either():
    """No relation tells of it, so that there are two: nothing is asked then."""
    derived = tube(250.0).derived
    row = [derived.work.setting(f"row_{at}").id for at in range(7)]
    on = derived.work.setting("on").id
    first = Before(first=row[0], then=row[6], reason=ASKED)
    kept = tuple(r for r in derived.index.relations if r.reason.rule not in BY_REACH)
    bare = replace(derived, index=index_relations(derived.index.steps, (*kept, first)))
    done = [*derived.order[: derived.place[on]], *row[1:6]]
    ends = [row[0], row[6]]
    assert decided(bare, ends, done).step == row[0]
    assert decided(bare, [*ends, on], done) is None


def test_a_cover_that_hangs_on_one_fastener_is_said_to_swing_aside():
    source, said = source_of("elbow_cop"), {True: 0, False: 0}
    for seed in range(8):
        drill = drill_for(source, asked(FIRST, seed, focus="hidden-before-cover"))
        begun = any("/rivet/boss_" in step for step in drill.done)
        found = judged(source, drill, solved(source, drill).answer)
        assert ("swings aside" in found.sentence) == begun
        said[begun] += 1
    assert all(said.values())
