"""Builds alike are printed, measured and mocked up once."""

from dataclasses import replace

import pytest
from schedule.in_hand import MONDAY_8, after, cuff, made, sound
from schedule.test_joining import build

from armorplan.schedule.bench_history import History
from armorplan.schedule.joining import joined_problem
from armorplan.schedule.shared_paper import is_served
from armorplan.steps.model import StepKind

BLUE, RED = made(cuff()), made(cuff(colour="red"))
PAPER = [s for s in BLUE["work"].steps if s.kind in (StepKind.MEASURE, StepKind.MOCK_UP)]


def served(*builds):
    """The steps that are nobody's work, without their pieces, and the problem."""
    problem = joined_problem(builds, origin_at=MONDAY_8)
    return {a.id for a in problem.activities if is_served(a)}, problem


def named(name, *steps):
    return {step.id.replace("b/", f"{name}/", 1) for step in steps or PAPER}


@pytest.mark.parametrize("other", [BLUE, RED])
def test_of_builds_drawn_alike_the_first_does_it_for_all(other):
    """Colour does not show on paper."""
    mine, problem = served(build("one", due_at=after(days=9)), build("two", other))
    assert len(PAPER) == 2
    assert mine == named("two")
    lies = sound(problem)
    for step in PAPER:
        (first,), (then,) = named("one", step), named("two", step)
        assert lies[then].start_min >= lies[first].end_min
        assert lies[then].start_min == lies[then].end_min
        assert lies[then].who is None


def test_what_is_drawn_otherwise_is_tried_by_itself():
    pattern = cuff()
    part = pattern.parts[0]
    wider = replace(pattern, parts=(replace(part, name=f"{part.name} wide"), *pattern.parts[1:]))
    assert not served(build("one"), build("two", made(wider)))[0]


def test_a_mock_up_is_tried_on_each_wearer():
    measured = [s for s in PAPER if s.kind is StepKind.MEASURE]
    mine, _ = served(build("one", wearer="captain"), build("two", wearer="mate"))
    assert mine == named("two", *measured)


def test_what_is_done_in_one_build_serves_the_one_due_first():
    done = {s.id: (after(hours=-3), after(hours=-2)) for s in PAPER}
    history = History(done=done, running={}, worked_min={})
    mine, problem = served(build("soon", due_at=after(days=3)), build("late", history=history))
    assert mine == named("soon")
    sound(problem)


def test_builds_that_wait_for_each_other_do_not_wait_for_paper_too():
    mine, problem = served(build("one", due_at=after(days=2), after=("two",)), build("two"))
    assert mine == named("one")
    sound(problem)
