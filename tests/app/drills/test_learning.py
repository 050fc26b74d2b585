"""Orders that no relation forbids, refused by reach: judged as the model of reach says."""

import random
from itertools import permutations

import pytest
from app.test_learned_order import built, half_made, out_of_reach, setting

from armorplan.app.drills.learning import Learned, told_by_reach
from armorplan.app.drills.order_drill import measured
from armorplan.app.drills.setting import judged, solved
from armorplan.app.drills.source import DrillSource
from armorplan.app.drills.step_words import choices_of
from armorplan.practice.distance import distance
from armorplan.practice.drill import AnswerForm, Asked, Drill, DrillKind
from armorplan.rules.reaching import BY_REACH

ROW = (0, 2, 4)


@pytest.fixture(scope="module")
def half():
    """A strap and three rivets that shut it off with others of a row half made, which are set."""
    derived = built(*half_made())
    on = derived.work.setting("on").id
    kept = {derived.work.setting(f"r1_{n}").id for n in ROW}
    joints = [step for step in setting(derived) if step != on and step not in kept]
    said = told_by_reach(derived, (*joints, on))
    bars = sorted(next(one for one in said if one.first == on).of - {on})
    ahead = [step for step in derived.order if step not in setting(derived)]
    pinned = max(at for at, step in enumerate(ahead) if "dry-fit" in step or "punch" in step)
    done = (*ahead[: pinned + 1], *bars[3:])
    return DrillSource(derived=derived), done, (on, *bars[:3])


def test_right_is_exactly_what_leaves_nothing_out_of_reach(half):
    source, done, steps = half
    derived = source.derived
    told = 0
    for order in permutations(steps):
        learned = Learned(derived, done, steps)
        is_right = measured(learned, order).moves == 0
        out = out_of_reach(derived, (*done, *order)) - out_of_reach(derived, done)
        assert is_right == (not out), (order, out)
        told += not is_right
    assert 0 < told < 24


def broken_by(derived, done, order):
    """Return the step with which the strap goes out of reach."""
    for at, step in enumerate(order):
        if out_of_reach(derived, (*done, *order[: at + 1], order[-1])) & {"on"}:
            return step
    raise AssertionError


def test_it_is_learned_from_the_answer_and_what_mends_it_is_tried(half):
    source, done, steps = half
    place = source.derived.place
    drill = Drill(
        asked=Asked(kind=DrillKind.ORDER, seed=1),
        title="half made",
        question="In what order?",
        choices=choices_of(source.derived, steps),
        form=AnswerForm.ORDER,
        done=done,
        rules=(min(BY_REACH),),
    )
    late = (*sorted(steps[1:], key=place.__getitem__), steps[0])
    told = judged(source, drill, late)
    assert not told.right
    assert told.because[0].rule in BY_REACH
    assert told.because[0].exact
    assert told.play[-1].ghosts == ("on",)
    assert told.play[-2].at == broken_by(source.derived, done, late)
    assert judged(source, drill, told.nearest).right
    assert not out_of_reach(source.derived, (*done, *told.nearest)) & {"on"}
    assert judged(source, drill, solved(source, drill).answer).right


def test_what_was_learned_is_true_of_every_order_that_is_left(half):
    source, done, steps = half
    learned = Learned(source.derived, done, steps)
    assert learned.settle()
    assert learned.learns
    for order in learned.few.orders():
        assert not any(
            one.first in steps for one in told_by_reach(source.derived, (*done, *order))
        )


def test_a_lesson_is_learned_once(half):
    source, done, steps = half
    learned = Learned(source.derived, done, steps)
    order = (*steps[1:], steps[0])
    assert learned.learn(order)
    assert not learned.learn(order)
    chance = random.Random(1)  # noqa: S311 - orders, not secrets
    assert distance(order, learned.few).moves > 0
    assert learned.few.drawn(chance)
