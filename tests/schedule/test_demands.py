"""'After any of', 'together' and 'apart' in a plan; every plan judged by the checker."""

import random
from datetime import UTC, datetime
from itertools import pairwise

import pytest

from armorplan.assembly.model import Side
from armorplan.orders.sequence import one_order
from armorplan.relations.model import AfterAny, Apart, Before, BeforeAll, Force, Reason, Together
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.schedule.activity import Demand
from armorplan.schedule.bench_history import NOTHING_DONE, History
from armorplan.schedule.building import problem_from
from armorplan.schedule.checker import violations
from armorplan.schedule.cp import Layout
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Plan, Problem, Resource, Status
from armorplan.schedule.stages import FINISH
from armorplan.schedule.workplace import Workplace
from armorplan.solving.keeper import SolverKeeper
from armorplan.solving.model import Effort, Outcome
from armorplan.steps.model import Step, StepKind, Work
from armorplan.workshop.shop import Person, Shop, one_maker, usual_hours

MONDAY_9 = datetime(2026, 11, 30, 9, tzinfo=UTC)


def reason(force=Force.CANNOT, **more):
    return Reason(rule="r", text="Because.", force=force, source="s", **more)


def work_of(**minutes) -> Work:
    """Return steps by name with their minutes; a name in capitals is what time alone does."""
    steps = tuple(
        Step(
            id=name,
            kind=StepKind.DRY if name.isupper() else StepKind.CUT,
            title=name,
            piece="p",
            side=Side.SINGLE,
            tray="t",
            parts=(),
            minutes=taken,
            attended=not name.isupper(),
        )
        for name, taken in minutes.items()
    )
    return Work(steps=steps)


def problem_of(work, *relations, order=None, history=NOTHING_DONE, shop=None) -> Problem:
    return problem_from(
        work,
        relations,
        Workplace(shop=shop or one_maker("UTC"), shelf=sketch_shelf()),
        origin_at=MONDAY_9,
        order=tuple(order or (step.id for step in work.steps)),
        history=history,
    )


def spans(problem: Problem) -> dict[str, tuple[int, int]]:
    plan = first_plan(problem)
    assert plan.placed, plan.conflict
    assert violations(problem, plan) == ()
    return {p.id: (p.start_min, p.end_min) for p in plan.placed}


def test_after_any_waits_for_the_one_that_stands_first():
    work = work_of(a=30, b=30, c=30)
    relation = AfterAny(then="a", of=frozenset("bc"), reason=reason())
    found = spans(problem_of(work, relation, order="cab"))
    assert found["c"][1] <= found["a"][0]


def test_after_any_asks_for_nothing_where_one_is_done():
    work = work_of(a=30, b=30, c=30)
    relation = AfterAny(then="a", of=frozenset("bc"), reason=reason())
    history = History(done={"b": (MONDAY_9, MONDAY_9)}, running={}, worked_min={})
    (lag,) = problem_of(work, relation, order="cab", history=history).lags
    assert lag.first == "b"


def test_steps_in_one_go_follow_each_other_without_a_gap():
    work = work_of(a=30, x=30, b=30, c=30)
    relation = Together(of=frozenset("abc"), reason=reason())
    found = spans(problem_of(work, relation, order="abcx"))
    assert found["a"][1] == found["b"][0]
    assert found["b"][1] == found["c"][0]


def test_a_group_too_long_for_any_day_is_let_go_and_keeps_its_order():
    work = work_of(a=300, b=300, c=300)
    relation = Together(of=frozenset("abc"), reason=reason())
    found = spans(problem_of(work, relation, order="abc"))
    assert found["a"][1] <= found["b"][0]
    assert found["b"][1] <= found["c"][0]


def test_a_wait_inside_a_group_is_let_be():
    work = work_of(a=30, b=30, c=30)
    relations = (
        Together(of=frozenset("abc"), reason=reason()),
        Before(first="a", then="b", lag_min=40, reason=reason()),
    )
    found = spans(problem_of(work, *relations))
    assert found["b"][0] == found["a"][1] + 40
    assert found["c"][0] == found["b"][1]


def test_a_group_that_cannot_be_kept_beside_a_wait_leaves_a_plan():
    work = work_of(a=30, b=30, DRY=100)
    relations = (
        Together(of=frozenset("ab"), reason=reason()),
        Before(first="a", then="DRY", reason=reason()),
        Before(first="DRY", then="b", reason=reason()),
    )
    found = spans(problem_of(work, *relations))
    assert found["b"][0] >= found["DRY"][1]


def two_makers() -> Shop:
    people = tuple(Person(id=name, name=name, hours=usual_hours()) for name in ("ada", "ben"))
    return Shop(people=people)


def test_what_needs_one_press_never_goes_on_at_once():
    work = work_of(a=60, b=60, C=60)
    relation = Apart(of=frozenset(("a", "b", "C")), on="press", reason=reason())
    problem = problem_of(work, relation, shop=two_makers())
    assert problem.resources == (Resource(id="press", capacity=1),)
    assert all(a.demands == (Demand(resource="press", amount=1),) for a in problem.activities)
    ordered = sorted(spans(problem).values())
    assert all(one[1] <= other[0] for one, other in pairwise(ordered))
    together = spans(problem_of(work, shop=two_makers()))
    assert max(end for _, end in together.values()) < ordered[-1][1]


def test_the_solver_keeps_what_is_apart_and_what_is_in_one_go():
    work = work_of(a=60, b=60, c=30, d=30)
    relations = (
        Apart(of=frozenset("ab"), on="press", reason=reason()),
        Together(of=frozenset("cd"), reason=reason()),
    )
    problem = problem_of(work, *relations, shop=two_makers())
    layout = Layout(problem, problem.horizon_min)
    model = layout.model_for(FINISH, {}, effort=Effort(seconds=20), hint=())
    with SolverKeeper() as keeper:
        answer = keeper.solve(model)
    assert answer.status is Outcome.BEST
    plan = Plan(status=Status.GOOD, placed=layout.placed(answer.values))
    assert violations(problem, plan) == ()


@pytest.mark.parametrize("force", [Force.EASIER, Force.USUAL])
def test_what_steers_is_kept_where_the_order_keeps_it(force):
    work = work_of(a=30, b=30, c=30)
    relation = Together(of=frozenset("ab"), reason=reason(force))
    assert problem_of(work, relation, order="abc").lags
    assert not problem_of(work, relation, order="acb").lags


def test_what_was_overruled_asks_for_nothing():
    work = work_of(a=30, b=30)
    relations = (
        Before(first="b", then="a", reason=reason(overruled=True)),
        Together(of=frozenset("ab"), reason=reason(overruled=True)),
        Apart(of=frozenset("ab"), on="press", reason=reason(overruled=True)),
    )
    problem = problem_of(work, *relations)
    assert (problem.lags, problem.resources) == ((), ())


@pytest.mark.parametrize("seed", range(20))
def test_whatever_an_order_keeps_leaves_a_plan(seed):
    chance = random.Random(seed)  # noqa: S311 - the same case on every run
    names = "abcdefGH"
    work = work_of(**{name: chance.choice((20, 90, 200)) for name in names})
    kinds = (
        lambda one, *of: Before(first=one, then=of[0], reason=reason()),
        lambda one, *of: BeforeAll(first=one, of=frozenset(of), reason=reason()),
        lambda one, *of: AfterAny(then=one, of=frozenset(of), reason=reason()),
        lambda one, *of: Together(of=frozenset((one, *of)), reason=reason()),
        lambda one, *of: Apart(of=frozenset((one, *of)), on="mould", reason=reason()),
    )
    relations = [chance.choice(kinds)(*chance.sample(names, 3)) for _ in range(7)]
    found = one_order(names, relations, key=str)
    if found.conflict:
        relations = [r for r in relations if r not in found.conflict]
        found = one_order(names, relations, key=str)
    order = found.order or tuple(names)
    if found.conflict:
        relations = []
    lies = spans(problem_of(work, *relations, order=order, shop=two_makers()))
    for relation in relations:
        if isinstance(relation, AfterAny):
            ends = [lies[step][1] for step in relation.of]
            assert min(ends) <= lies[relation.then][0]
