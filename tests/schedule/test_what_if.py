"""A shop with one thing otherwise: what it comes to, and that no help ever makes it worse."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from schedule.hand_shops import DAY, HOUR, lames, racks
from schedule.random_shops import all_plans, shops

from armorplan.schedule.comparing import moved_steps, plan_sum
from armorplan.schedule.planning import first_plan
from armorplan.schedule.what_if import (
    AnotherBath,
    AnotherPair,
    Away,
    ExtraHours,
    MorePlaces,
    changed,
    cut_out,
)


def test_one_more_rack_ends_the_week_sooner():
    bench = racks()
    wider = changed(bench, MorePlaces(resource="rack", amount=1))
    before, after = first_plan(bench), first_plan(wider)
    one, two = plan_sum(bench, before), plan_sum(wider, after)
    assert wider.resources[0].capacity == 2
    assert two.finish_min < one.finish_min
    assert two.lateness < one.lateness
    assert sum(j.late_min for j in two.jobs) == two.lateness
    assert moved_steps(before, after)


def test_an_extra_evening_and_an_absence_change_the_hours():
    bench = racks()
    evening = (9 * HOUR, 12 * HOUR)
    longer = changed(bench, ExtraHours(who="m", window=evening))
    assert (5 * HOUR, 12 * HOUR) in longer.workers[0].windows
    ill = changed(longer, Away(who="m", window=(0, DAY)))
    assert all(start >= DAY for start, _ in ill.workers[0].windows)
    assert first_plan(ill).finish_min > first_plan(bench).finish_min


def test_what_is_cut_out_of_hours_leaves_both_ends():
    assert cut_out(((0, 60), (100, 160)), (30, 110)) == ((0, 30), (110, 160))
    assert cut_out(((0, 60),), (60, 90)) == ((0, 60),)


def test_another_pair_of_hands_keeps_the_hours_and_skills_of_the_first():
    more = changed(lames(), AnotherPair(who="maker"))
    bend = next(a for a in more.activities if a.id == "bend")
    assert bend.people == ("maker", "maker 2")
    assert more.workers[-1].windows == next(w for w in lames().workers if w.id == "maker").windows


@pytest.mark.parametrize(
    "what",
    [
        MorePlaces(resource="shelf", amount=1),
        ExtraHours(who="nobody", window=(0, 60)),
        AnotherBath(bath="vat"),
        AnotherPair(who="nobody"),
    ],
)
def test_what_is_not_there_cannot_change(what):
    with pytest.raises(KeyError):
        changed(racks(), what)


HELP = st.sampled_from(
    [
        MorePlaces(resource="rack", amount=1),
        ExtraHours(who="maker", window=(4, 8)),
        AnotherBath(bath="vat"),
        AnotherPair(who="maker"),
    ]
)


@given(shops(most=3, pauses=False), HELP)
@settings(max_examples=8, deadline=None)
def test_a_help_leaves_every_plan_there_was(bench, what):
    """Each plan of the shop as it is passes the checker in the shop with the help as well."""
    from armorplan.schedule.checker import violations
    from armorplan.schedule.problem import Plan, Status

    helped = changed(bench, what)
    for at, placed in enumerate(all_plans(bench)):
        if at >= 5:
            break
        assert violations(helped, Plan(status=Status.GOOD, placed=placed)) == ()


def test_history_is_never_given_another_way():
    bench = racks()
    begun = replace(bench.activities[0], fixed_start_min=-20, fixed_end_min=0, fixed_who="m")
    bench = replace(bench, activities=(begun, *bench.activities[1:]))
    assert changed(bench, AnotherPair(who="m")).activities[0] == begun
