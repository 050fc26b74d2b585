"""Small shops in which somebody learns: every plan of them holds, is no worse, and teaches all it can."""

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from schedule.pair_shops import lesson_shops
from schedule.random_shops import all_plans

from armorplan.schedule.checker import violations
from armorplan.schedule.company import as_alone
from armorplan.schedule.keeping_to import kept_plan, stood_in
from armorplan.schedule.measures import goals, job_end
from armorplan.schedule.problem import Plan, Status
from armorplan.schedule.stages import CHANGES, MOVED
from armorplan.schedule.teaching import learned_in, taught

# Not made smaller: every try goes through all plans, which takes minutes for a failure.
_QUICKLY = settings(
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
)


def _without_times(bench, placed):
    return [value for name, value in goals(bench, placed).items() if name != CHANGES]


def _is_as_good(bench, *, most):
    for number, placed in enumerate(all_plans(bench)):
        if number >= most:
            return
        found = taught(bench, placed)
        assert violations(bench, Plan(status=Status.GOOD, placed=found)) == ()
        assert _without_times(bench, found) <= _without_times(bench, placed)
        before, after = ({p.id: p for p in each} for each in (placed, found))
        assert all(job_end(j, after) <= job_end(j, before) for j in bench.jobs)
        turned = learned_in(bench, found)
        for name, lay in before.items():
            if after[name] != lay and name not in turned:
                assert after[name].who == lay.who == "maker"
                assert after[name].start_min > lay.start_min
        assert taught(bench, found, found) == found
        plain = replace(bench, stood=())
        kept = kept_plan(stood_in(plain, Plan(status=Status.GOOD, placed=found)))
        assert set(kept.placed) == set(found)
        _no_more_fits(replace(bench, stood=()), placed)


def _no_more_fits(bench, placed):
    """With every start where it is, no plan has all that is learned and more."""
    bench = stood_in(bench, Plan(status=Status.GOOD, placed=placed))
    found = taught(bench, placed)
    turned = learned_in(bench, found)
    assert {p.id: p.start_min for p in found} == {p.id: p.start_min for p in placed}
    by_id = {a.id: a for a in bench.activities}
    assert tuple(as_alone(by_id[p.id], p) for p in found) == placed
    assert goals(bench, found)[MOVED] == 0
    ends = {j.id: job_end(j, {p.id: p for p in placed}) for j in bench.jobs}
    others = [
        replace(p, who=w.who, mode=w.name, end_min=p.start_min + w.minutes)
        for a in bench.activities
        for w in a.taught
        for p in placed
        if p.id == a.id not in turned and w.also == (p.who,)
    ]
    for many in range(1, len(others) + 1):
        for more in combinations(others, many):
            news = {p.id: p for p in more}
            tried = tuple(news.get(p.id, p) for p in found)
            lies = {p.id: p for p in tried}
            is_lawful = (
                violations(bench, Plan(status=Status.GOOD, placed=tried)) == ()
                and all(job_end(j, lies) <= ends[j.id] for j in bench.jobs)
                and _without_times(bench, tried) <= _without_times(bench, placed)
            )
            assert not is_lawful, more


@given(problem=lesson_shops())
@settings(_QUICKLY, max_examples=20)
def test_plans_that_teach_hold_and_are_no_worse(problem):
    _is_as_good(problem, most=4)


@pytest.mark.long
@given(problem=lesson_shops(most=4))
@settings(_QUICKLY, max_examples=100)
def test_plans_that_teach_hold_and_are_no_worse_in_many_drawings(problem):
    _is_as_good(problem, most=12)
