"""'Put in order': never trivial, right is right, a wrong order is told its break and mended."""

import random
from itertools import permutations
from math import factorial

import pytest
from app.drills.drill_sources import NAMES, asked, drills_of, source_of, tube
from app.drills.posed_orders import posed
from relations.relation_cases import before, before_all

from armorplan.app.drills.order_drill import MAKER, measured
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.app.drills.step_words import learned_of
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.judging import judge_order
from armorplan.practice.drill import AnswerForm, DrillKind, Level
from armorplan.practice.levels import FEWEST_STEPS, SIZES, topics

ORDER = DrillKind.ORDER


@pytest.fixture(scope="module", params=NAMES)
def made(request):
    return source_of(request.param), drills_of(ORDER, request.param, seeds=4)


def ids(drill):
    return tuple(choice.id for choice in drill.choices)


def whole(source, drill, answer):
    here = {*drill.done, *answer}
    return (*drill.done, *answer, *(s for s in source.derived.order if s not in here))


def test_every_level_has_one_of_its_size(made):
    _, drills = made
    assert {drill.asked.level for drill in drills} == set(Level)
    for drill in drills:
        low, high = SIZES[drill.asked.level]
        assert low <= len(drill.choices) <= high
        assert drill.form is AnswerForm.ORDER


def test_it_is_shown_in_no_right_order_and_half_of_all_at_most_are_right(made):
    source, drills = made
    for drill in drills:
        assert not judged(source, drill, ids(drill)).right
        assert not judged(source, drill, ids(drill)[::-1]).right
        count = learned_of(source.derived, drill).few.count
        assert 0 < count <= factorial(len(drill.choices)) / 2


def test_a_solution_keeps_every_relation_of_the_whole_build(made):
    source, drills = made
    derived = source.derived
    for drill in drills:
        answer = solved(source, drill).answer
        order = whole(source, drill, answer)
        assert judge_order(order, derived.order, derived.relations).valid
        told = judged(source, drill, answer)
        assert told.right
        assert all(met.kept for met in told.met)
        assert {met.rule for met in told.met} <= set(drill.rules)


def test_right_is_exactly_what_the_whole_build_can_be_made_by(made):
    source, drills = made
    derived = source.derived
    for drill in drills:
        chance = random.Random(drill.asked.seed)  # noqa: S311 - orders, not secrets
        few = learned_of(derived, drill).few
        for answer in (few.drawn(chance), chance.sample(ids(drill), len(drill.choices))):
            order = whole(source, drill, answer)
            valid = judge_order(order, derived.order, derived.relations).valid
            assert judged(source, drill, answer).right == valid


def test_a_wrong_order_is_told_its_first_break_and_the_fewest_moves(made):
    source, drills = made
    for drill in drills:
        told = judged(source, drill, ids(drill))
        assert told.sentence.startswith("Not yet: '")
        named = [c.title for c in drill.choices if c.id in told.because[0].steps]
        assert sum(f"'{title}'" in told.sentence for title in named) > 1
        assert told.because[0].text not in told.sentence
        assert told.distance == len(told.moved) > 0
        assert told.exact
        assert 0.0 <= told.credit < 1.0
        assert not all(met.kept for met in told.met)
        assert judged(source, drill, told.nearest).right
        stays = [step for step in ids(drill) if step not in told.moved]
        assert stays == [step for step in told.nearest if step not in told.moved]


def test_the_same_asked_makes_the_same_and_another_seed_another(made):
    source, drills = made
    assert drill_for(source, drills[1].asked) == drills[1]
    assert len({ids(drill) for drill in drills}) == len(drills)


@pytest.mark.parametrize(
    "focus", ["hidden-before-cover", "dry-fit-before-permanent", "damp-window", "bevel-before-dye"]
)
@pytest.mark.parametrize("level", Level)
def test_the_rule_that_is_asked_for_is_needed_and_broken(focus, level):
    source = source_of("elbow_cop")
    drill = drill_for(source, asked(ORDER, 3, level, focus=focus))
    assert drill.rules[0] == focus
    broken = {met.rule for met in judged(source, drill, ids(drill)).met if not met.kept}
    assert focus in broken


def test_piece_and_part_do_not_give_way():
    source = source_of("arm_harness")
    drill = drill_for(source, asked(ORDER, 1, Level.ROW, piece="elbow"))
    assert any(source.derived.work.step(step).piece == "elbow" for step in ids(drill))
    drill = drill_for(source, asked(ORDER, 1, Level.STRAP, part="boss"))
    assert any("boss.left" in c.parts or "boss.right" in c.parts for c in drill.choices)
    assert drill_for(source, asked(ORDER, 1, part="no_such_part")) is None


def test_a_hint_names_no_step(made):
    _, drills = made
    for drill in drills:
        assert drill.hint
        if not drill.rules[0].startswith("own:"):
            assert not any(choice.title in drill.hint for choice in drill.choices)


def test_reach_refuses_what_no_relation_told_of():
    """The strap of a tube has to be set before the last rivet that leaves the horn a way in."""
    source = tube()
    drill = drill_for(source, asked(ORDER, 1, Level.STRAP, focus="reach-before-closed"))
    told = judged(source, drill, ids(drill))
    first = next(one for one in told.because if one.rule == "reach-before-closed")
    assert first.numbers
    assert first.exact
    assert first.text
    longer = tube(900.0)
    assert not any(r.reason.rule == "reach-before-closed" for r in longer.derived.relations)


def test_what_is_missing_or_twice_is_told_with_what_it_takes():
    case = posed("abc", [before("a", "b"), before("b", "c")])
    told = judged(case.source, case.drill, case.answer("ac"))
    assert not told.right
    assert told.distance == 1
    assert "Still to be put in" in told.sentence
    told = judged(case.source, case.drill, case.answer("abcc"))
    assert (told.right, told.distance) == (False, 1)
    assert "twice" in told.sentence


def test_what_is_no_answer_is_refused_in_one_message():
    case = posed("abc", [before("a", "b")])
    with pytest.raises(ArmorplanError, match="Nothing was answered"):
        judged(case.source, case.drill, ())
    with pytest.raises(ArmorplanError, match="'z' is none of the choices"):
        judged(case.source, case.drill, ("z",))


def test_others_are_counted_in_words():
    case = posed("abc", [before("a", "b")])
    assert solved(case.source, case.drill).others == "Two other orders are right as well."
    case = posed("abc", [before("a", "b"), before("b", "c")])
    assert solved(case.source, case.drill).others == ""
    case = posed("abc", [before_all("a", "bc")])
    rights = [judged(case.source, case.drill, case.answer(o)).right for o in permutations("abc")]
    assert sum(rights) == 4


def test_measuring_a_right_order_moves_nothing():
    source = source_of("elbow_cop")
    drill = MAKER.make(source, asked(ORDER, 2))
    learned = learned_of(source.derived, drill)
    assert measured(learned, next(learned.few.orders())).moves == 0
    assert len(topics(source.derived.assembly, source.derived.work, drill.asked)) >= 1
    assert len(drill.choices) >= FEWEST_STEPS


@pytest.mark.long
@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("kind", [ORDER, DrillKind.NEXT, DrillKind.MISTAKE])
def test_no_seed_is_trivial_or_left_without_an_answer(kind, name):
    source = source_of(name)
    for seed in range(40):
        drill = drill_for(source, asked(kind, seed))
        assert drill is not None
        right = solved(source, drill).answer
        assert judged(source, drill, right).right
        if kind is DrillKind.MISTAKE:
            assert sum(judged(source, drill, (one,)).right for one in ids(drill)) == 1
        else:
            assert not judged(source, drill, ids(drill)).right
            assert not judged(source, drill, ids(drill)[:1]).right
