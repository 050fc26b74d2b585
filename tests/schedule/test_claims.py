"""Freed of a claim a problem loses no plan; a conflict told is one, and every claim in it counts."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from schedule.hand_shops import lames, racks
from schedule.random_shops import ORIGIN_AT, all_plans, shops

from armorplan.schedule.activity import Activity
from armorplan.schedule.checker import violations
from armorplan.schedule.claims import Kind, absences_of, claims_of, without
from armorplan.schedule.clash_words import claim_words
from armorplan.schedule.conflict import conflict_words, smallest_conflict
from armorplan.schedule.naming import Naming
from armorplan.schedule.possible import Possible
from armorplan.schedule.problem import Job, Plan, Problem, Status, Worker

FEW = settings(
    max_examples=8,
    deadline=None,
    suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow],
)


def has_plan(bench):
    """Tell by going through all of them."""
    return next(all_plans(bench), None) is not None


@given(shops(most=3, pauses=False), st.data())
@FEW
def test_freed_of_a_claim_a_problem_keeps_its_plans(bench, data):
    placed = next(all_plans(bench), None)
    assume(placed is not None)
    gone = data.draw(st.sets(st.sampled_from(claims_of(bench)), min_size=1, max_size=4))
    assert violations(without(bench, gone), Plan(status=Status.GOOD, placed=placed)) == ()


@given(shops(most=2, pauses=False))
@FEW
def test_a_conflict_is_one_and_every_claim_in_it_counts(bench):
    """Within so few minutes that most of these shops have no plan."""
    bench = replace(bench, horizon_min=5)
    assume(not has_plan(bench))
    judge_conflict(bench)


def test_a_conflict_found_in_one_build_is_one_of_the_whole_shop():
    """What only the maker may do is no conflict of hers alone where the apprentice could do it."""
    bench = Problem(
        origin_at=ORIGIN_AT,
        horizon_min=5,
        activities=(
            Activity(id="a0", minutes=3, people=("maker",)),
            Activity(id="a1", minutes=1, people=("maker", "apprentice")),
        ),
        workers=(
            Worker(id="maker", windows=((3, 12),)),
            Worker(id="apprentice", windows=((0, 5),)),
        ),
        jobs=(Job(id="one", activities=("a0",)), Job(id="two", activities=("a1",))),
    )
    judge_conflict(bench)
    assert (Kind.HANDS, "a0") in kinds(smallest_conflict(bench, has_plan))


@pytest.mark.long
@given(shops(most=3, pauses=False))
@FEW
def test_a_conflict_of_three_is_one_and_every_claim_in_it_counts(bench):
    assume(not has_plan(bench))
    judge_conflict(bench)


def judge_conflict(bench):
    """Hold a conflict against all plans there are."""
    found = smallest_conflict(bench, has_plan)
    universe = {c for c in claims_of(bench) if (Kind.ABSENCE, c.of) not in kinds(found)}
    for who in {c.of for c in found if c.kind is Kind.ABSENCE}:
        universe = {c for c in universe if (c.kind, c.of) != (Kind.HOURS, who)}
        universe |= set(absences_of(bench, who))
    assert not has_plan(without(bench, universe - set(found)))
    # Where nothing fits even with all claims given up, there is more in the way than is told.
    for claim in found if has_plan(without(bench, universe)) else ():
        assert has_plan(without(bench, universe - set(found) | {claim}))
    assert conflict_words(bench, found).endswith(".")


def kinds(claims):
    return {(c.kind, c.of) for c in claims}


@given(bench=shops(most=2))
@FEW
def test_the_oracle_agrees_with_going_through_all_plans(solver, bench):
    told = Possible(solver)(bench)
    assert told in (has_plan(bench), None)


def test_a_night_is_one_stretch_and_the_last_one_ends_with_the_horizon():
    bench = lames()
    gaps = [c.window for c in absences_of(bench, "apprentice")]
    assert gaps[0] == (9 * 60, 24 * 60)
    assert gaps[-1][1] == bench.horizon_min
    opened = without(bench, absences_of(bench, "apprentice"))
    assert opened.workers[0].windows == ((0, bench.horizon_min),)


def test_every_claim_can_be_said():
    bench = replace(lames(), resources=racks().resources)
    for claim in claims_of(bench):
        words = claim_words(bench, claim, Naming())
        assert words
        assert not words.endswith(".")


def test_a_due_date_is_no_claim():
    assert not any(job.id in {c.of for c in claims_of(lames())} for job in lames().jobs)
