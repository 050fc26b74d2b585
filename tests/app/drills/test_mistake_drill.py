"""'Find the mistake': one step comes too early; whoever names one that mends it alone is right."""

from collections import Counter
from dataclasses import replace

import pytest
from app.drills.drill_sources import NAMES, asked, drills_of, source_of, tube
from app.drills.posed_orders import posed
from relations.relation_cases import before, before_all

from armorplan.app.drills.mistake_drill import MAKER
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.judging import judge_order
from armorplan.practice.drill import AnswerForm, DrillKind, Level
from armorplan.practice.levels import SIZES

MISTAKE = DrillKind.MISTAKE


@pytest.fixture(scope="module", params=NAMES)
def made(request):
    return source_of(request.param), drills_of(MISTAKE, request.param, seeds=4)


def valid(source, drill, order):
    derived, here = source.derived, {*drill.done, *order}
    whole = (*drill.done, *order, *(s for s in derived.order if s not in here))
    return judge_order(whole, derived.order, derived.relations).valid


def mends_alone(source, drill, step):
    """Tell whether the order is right once this step alone waits, wherever; by the whole build."""
    at, rest = drill.shown.index(step), [one for one in drill.shown if one != step]
    later = range(at + 1, len(drill.shown))
    return any(valid(source, drill, (*rest[:to], step, *rest[to:])) for to in later)


def test_the_order_shown_is_wrong_and_right_are_the_steps_that_mend_it_alone(made):
    source, drills = made
    assert {drill.asked.level for drill in drills} == set(Level)
    for drill in drills:
        assert drill.form is AnswerForm.ONE
        assert tuple(choice.id for choice in drill.choices) == drill.shown
        assert not valid(source, drill, drill.shown)
        if drill.asked.level is Level.HARNESS:
            continue  # the same again, of a dozen steps
        right = {step for step in drill.shown if judged(source, drill, (step,)).right}
        assert right == {step for step in drill.shown if mends_alone(source, drill, step)}
        assert solved(source, drill).answer[0] in right
        assert len(right) == 1


def test_what_comes_too_early_is_where_the_order_breaks_first(made):
    source, drills = made
    derived = source.derived
    for drill in drills:
        here = {*drill.done, *drill.shown}
        whole = (*drill.done, *drill.shown, *(s for s in derived.order if s not in here))
        broken = judge_order(whole, derived.order, derived.relations).first_break
        assert broken.step == solved(source, drill).answer[0]


def test_it_is_not_always_the_first_or_the_last(made):
    source, drills = made
    spots = {drill.shown.index(solved(source, drill).answer[0]) for drill in drills}
    assert len(spots) > 1


def test_a_wrong_answer_is_told_which_and_why(made):
    source, drills = made
    for drill in drills:
        (right,) = solved(source, drill).answer
        title = source.derived.work.step(right).title
        for step in drill.shown:
            told = judged(source, drill, (step,))
            assert f"'{title}' comes too early" in told.sentence
            named = [c.title for c in drill.choices if c.id in told.because[0].steps]
            assert sum(f"'{title}'" in told.sentence for title in named) > 1
            assert told.because[0].text not in told.sentence
            assert told.nearest == (right,)
            assert told.distance == (step != right)
            assert all(met.kept == (step == right) for met in told.met)
            assert told.met
            if step == right:
                assert told.credit == 1.0


def faulty(case, shown):
    """Return an exercise about relations that are thought up."""
    return replace(
        case.drill,
        asked=asked(MISTAKE, 1),
        form=AnswerForm.ONE,
        shown=case.answer(shown),
    )


def test_a_step_that_has_its_part_in_it_is_half_right():
    case = posed("abc", [before("a", "b")])
    source, drill = case.source, faulty(case, "bca")
    assert judged(source, drill, case.answer("b")).right
    near, far = (judged(source, drill, case.answer(name)) for name in "ac")
    assert (near.credit, far.credit) == (0.5, 0.0)
    assert near.sentence.startswith("Not yet, but near: ")
    assert far.sentence.startswith("Not yet: ")


def test_where_two_mend_it_both_are_right():
    case = posed("abc", [before_all("a", "bc")])
    drill = faulty(case, "bca")
    rights = [judged(case.source, drill, case.answer(name)).right for name in "abc"]
    assert rights == [False, True, True]
    assert solved(case.source, drill).others.startswith("Right as well: ")


def test_the_same_asked_makes_the_same(made):
    source, drills = made
    assert drill_for(source, drills[0].asked) == drills[0]


@pytest.mark.parametrize("focus", ["hidden-before-cover", "damp-window", "cure-before-closing"])
def test_the_rule_that_is_asked_for_is_the_one_broken(focus):
    drill = drill_for(source_of("elbow_cop"), asked(MISTAKE, 2, Level.PIECE, focus=focus))
    assert drill.rules[0] == focus


def test_a_joint_out_of_reach_is_a_mistake():
    source = tube()
    drill = drill_for(source, asked(MISTAKE, 1, Level.ROW, focus="reach-before-closed"))
    assert drill.rules[0] == "reach-before-closed"
    (right,) = solved(source, drill).answer
    told = judged(source, drill, (right,))
    assert told.right
    assert told.because[0].exact


def test_only_one_step_is_an_answer():
    source = source_of("elbow_cop")
    drill = MAKER.make(source, asked(MISTAKE, 1))
    with pytest.raises(ArmorplanError, match="Only one step"):
        judged(source, drill, drill.shown[:2])
    with pytest.raises(ArmorplanError, match="Nothing was answered"):
        judged(source, drill, ())


@pytest.mark.parametrize("level", [Level.STRAP, Level.ROW], ids=lambda level: level.words)
def test_no_place_is_hardly_ever_or_nearly_always_right(level):
    """Over three samples and as many seeds; the last step of all can wait for nothing."""
    places = Counter()
    for at, name in enumerate(("elbow_cop", "three_lames", "collar")):
        source = source_of(name)
        for seed in range(10 * at, 10 * at + 10):
            drill = drill_for(source, asked(MISTAKE, seed, level))
            places[drill.shown.index(solved(source, drill).answer[0])] += 1
    assert places[0] >= 3
    assert max(places.values()) <= 20
    assert len(places) >= SIZES[level][0] - 1
