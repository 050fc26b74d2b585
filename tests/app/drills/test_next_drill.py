"""'What may come next': every step offered can be gone on from, every other has its reason."""

import pytest
from app.drills.drill_sources import NAMES, asked, drills_of, source_of, tube

from armorplan.app.drills.next_drill import MAKER
from armorplan.app.drills.reasons import title_of
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.next_steps import standing
from armorplan.orders.sequence import one_order
from armorplan.orders.stretch import relations_within
from armorplan.practice.drill import AnswerForm, DrillKind, Level
from armorplan.practice.levels import SIZES
from armorplan.relations.checking import breaks_of_prefix
from armorplan.relations.weighing import binding

NEXT = DrillKind.NEXT


@pytest.fixture(scope="module", params=NAMES)
def made(request):
    return source_of(request.param), drills_of(NEXT, request.param, seeds=4)


def ids(drill):
    return tuple(choice.id for choice in drill.choices)


def goes_on(derived, done):
    """Tell whether the rest can be done in some order after what is done, as relations say."""
    bound = binding(derived.relations)
    if breaks_of_prefix(done, bound):
        return False
    left = [step for step in derived.order if step not in set(done)]
    asks = relations_within(left, bound, before=done, after=())
    return bool(one_order(left, asks, key=derived.place.__getitem__).order)


def test_two_at_least_may_and_two_may_not(made):
    source, drills = made
    assert {drill.asked.level for drill in drills} == set(Level)
    for drill in drills:
        right = set(solved(source, drill).answer)
        assert len(right) >= 2
        assert len(drill.choices) - len(right) >= 2
        assert drill.form is AnswerForm.SOME
        assert len(drill.choices) <= max(4, SIZES[drill.asked.level][1])
        for easy in (ids(drill), ids(drill)[:1]):
            assert not judged(source, drill, easy).right


def test_right_is_what_can_be_gone_on_from(made):
    source, drills = made
    for drill in drills[::3]:
        assert goes_on(source.derived, drill.done)
        right = set(solved(source, drill).answer)
        for step in ids(drill):
            assert goes_on(source.derived, (*drill.done, step)) == (step in right)


def test_what_stops_a_step_is_not_done_and_is_told(made):
    source, drills = made
    for drill in drills:
        stopped = standing(drill.done, source.derived.index).waits_for
        right = solved(source, drill).answer
        assert judged(source, drill, right).right
        for step in set(ids(drill)) - set(right):
            told = judged(source, drill, (*right, step))
            assert not told.right
            assert told.distance == 1
            assert told.moved == (step,)
            because = told.because[0]
            assert because.text in {relation.reason.text for relation in stopped[step]}
            assert f"'{drill.choice(step).title}' comes " in told.sentence
            assert any(
                f"'{title_of(source.derived, one)}'" in told.sentence for one in because.steps
            )
            assert [met.rule for met in told.met if not met.kept] == [because.rule]


def test_what_is_left_out_is_told_with_what_it_waited_for(made):
    """Missed is the reason that is seen to: not one of those that stop another step."""
    source, drills = made
    for drill in drills:
        first, *rest = solved(source, drill).answer
        told = judged(source, drill, rest)
        assert (told.right, told.distance, told.moved) == (False, 1, (first,))
        assert told.sentence.startswith(
            f"Not yet: '{drill.choice(first).title}' may come next too."
        )
        assert told.credit == pytest.approx(1 - 1 / len(drill.choices))
        assert len(told.because) <= 1
        for one in told.because:
            assert first in one.steps
            assert any(f"'{title_of(source.derived, s)}'" in told.sentence for s in drill.done)
        assert [met.rule for met in told.met if not met.kept] == [one.rule for one in told.because]


def test_the_same_asked_makes_the_same(made):
    source, drills = made
    assert drill_for(source, drills[0].asked) == drills[0]


def test_the_rule_that_is_asked_for_stops_a_step():
    source = source_of("elbow_cop")
    for focus in ("dry-fit-before-permanent", "strap-prepared-before-use", "last-fit-last"):
        drill = drill_for(source, asked(NEXT, 2, Level.PIECE, focus=focus))
        assert drill.rules[0] == focus
        chosen = judged(source, drill, ids(drill))
        assert focus in {met.rule for met in chosen.met if not met.kept}


def test_a_short_horn_stops_the_last_rivet_of_a_row():
    source = tube(120.0)
    drill = drill_for(source, asked(NEXT, 0, Level.PIECE, focus="reach-before-closed"))
    assert drill.rules[0] == "reach-before-closed"
    told = judged(source, drill, ids(drill))
    assert any(one.rule == "reach-before-closed" and one.exact for one in told.because)


def test_what_is_no_answer_is_refused():
    source = source_of("elbow_cop")
    drill = MAKER.make(source, asked(NEXT, 1))
    with pytest.raises(ArmorplanError, match="Nothing was answered"):
        judged(source, drill, ())
    with pytest.raises(ArmorplanError, match="none of the choices"):
        judged(source, drill, ("odd",))


@pytest.mark.parametrize("name", ["elbow_cop", "collar"])
@pytest.mark.parametrize("level", [Level.STRAP, Level.ROW], ids=lambda level: level.words)
def test_it_is_not_always_the_same_that_is_asked(name, level):
    source = source_of(name)
    drills = [drill_for(source, asked(NEXT, seed, level)) for seed in range(10)]
    assert len({frozenset(ids(drill)) for drill in drills}) >= 5


def test_half_at_least_is_of_the_part_that_is_asked_for():
    source = source_of("elbow_cop")
    for seed in range(3):
        drill = drill_for(source, asked(NEXT, seed, Level.STRAP, part="closing_strap"))
        touched = ["closing_strap" in source.derived.work.step(step).parts for step in ids(drill)]
        assert 2 * sum(touched) >= len(touched)
