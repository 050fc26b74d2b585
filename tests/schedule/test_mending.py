"""What would free a plan: each mend is tried, needs no more than it says, and has its price."""

from dataclasses import replace

import pytest
from schedule.hand_shops import DAY, HOUR, lames, racks

from armorplan.schedule.checker import violations
from armorplan.schedule.claims import Claim, Kind, without
from armorplan.schedule.conflict import smallest_conflict
from armorplan.schedule.daytime import daytime_in
from armorplan.schedule.hands import NOBODY
from armorplan.schedule.mending import freed_by, mends_of, ways_out
from armorplan.schedule.mends import Deed, Mend, mended
from armorplan.schedule.planning import best_plan, first_plan
from armorplan.schedule.possible import Possible
from armorplan.schedule.problem import Hold, Worker


@pytest.fixture(scope="module")
def seek(solver):
    return lambda bench: best_plan(bench, solver, seconds=0.3)


@pytest.fixture(scope="module")
def freed(solver, seek):
    bench = lames()
    claims = smallest_conflict(bench, Possible(solver))
    return {
        (f.mends[0].claim.kind, f.mends[0].who): f
        for f in ways_out(bench, claims, Possible(solver), seek, first_plan)
    }


def test_every_way_out_has_a_plan_that_holds(freed):
    assert len(freed) >= 4
    for found in freed.values():
        assert found.is_freed
        assert violations(found.problem, found.plan) == ()
        assert [job for job, _ in found.late] == ["gorget"]


def test_a_window_is_opened_no_longer_than_it_has_to_be(freed):
    """The dip ends Tuesday 13:20, the maker is there again Wednesday 08:00: 18 h 40 min later."""
    (mend,) = freed[Kind.WINDOW, ""].mends
    assert (mend.deed, mend.amount) == (Deed.SOFTEN, 18 * HOUR + 40)
    assert freed[Kind.WINDOW, ""].late == (("gorget", 30),)


def test_somebody_away_would_have_to_come_for_the_bending_only(freed):
    (mend,) = freed[Kind.ABSENCE, ""].mends
    ((start, end),) = mend.hours
    assert mend.deed is Deed.ADD
    assert DAY + 5 * HOUR <= start < end <= DAY + 7 * HOUR
    assert end - start <= 45
    assert freed[Kind.ABSENCE, ""].late == (("gorget", 0),)


def test_somebody_else_could_do_it(freed):
    assert freed[Kind.HANDS, "apprentice"].late == (("gorget", 0),)


def test_what_is_set_can_be_moved_to_the_next_time_that_works(freed):
    """At 13:20 on Tuesday it is too late; Wednesday 07:00 at the soonest, and the day begins at 8."""
    (mend,) = freed[Kind.LATEST, ""].mends
    assert mend.deed is Deed.MOVE
    assert mend.amount > DAY + 5 * HOUR


def test_a_rack_too_small_needs_just_the_places_that_are_missing(solver, seek):
    bench = racks(pieces=2, capacity=0)
    claims = smallest_conflict(bench, Possible(solver))
    assert [c.kind for c in claims] == [Kind.PLACES]
    (found,) = ways_out(bench, claims, Possible(solver), seek, first_plan)
    assert found.mends[0].amount == 1


def test_two_conflicts_beside_each_other_are_undone_together(solver, seek):
    bench = lames()
    bench = replace(bench, resources=racks(capacity=0).resources)
    wet = replace(bench.activities[0], demands=racks().activities[6].demands)
    bench = replace(bench, activities=(wet, *bench.activities[1:]))
    oracle = Possible(solver)
    found = list(ways_out(bench, smallest_conflict(bench, oracle), oracle, seek, first_plan))
    assert found
    assert all(len(f.mends) == 2 for f in found)
    assert all(violations(f.problem, f.plan) == () for f in found)


def test_what_has_to_dry_is_no_mend():
    bench = lames()
    assert mends_of(bench, (Claim(kind=Kind.WAIT, of="sew", at=1),)) == ()


def test_a_mend_in_full_is_the_problem_freed_of_its_claim():
    bench = replace(
        racks(), holds=(Hold(resource="rack", amount=1, first="dry0", until=("buff0",)),)
    )
    claim = Claim(kind=Kind.HANGS, of="dry0", at=0)
    assert mended(bench, (Mend(claim=claim, deed=Deed.MOVE),)) == without(bench, [claim])


def test_a_mend_that_does_not_help_says_so(seek):
    claim = Claim(kind=Kind.WAIT, of="sew", at=1)
    found = freed_by(lames(), (Mend(claim=claim, deed=Deed.SOFTEN),), seek)
    assert not found.is_freed


def test_what_nobody_can_do_is_freed_by_teaching_all_of_it(solver, seek):
    """Bending alone taught leaves the sewing that nobody can do: both are taught."""
    nobody = [replace(a, people=(NOBODY,)) for a in lames().activities[2:]]
    bench = replace(
        lames(),
        activities=(*lames().activities[:2], *nobody),
        workers=(*lames().workers, Worker(id=NOBODY, windows=())),
    )
    oracle = Possible(solver)
    found = list(ways_out(bench, smallest_conflict(bench, oracle), oracle, seek, first_plan))
    assert [(f.mends[0].who, f.mends[0].wide) for f in found] == [("apprentice", True)]
    assert violations(found[0].problem, found[0].plan) == ()


def test_nobody_is_asked_to_come_by_night():
    """The shop works from 08:00 to 17:00 at the latest; an evening may go on to 20:00."""
    bench = lames()
    assert daytime_in(bench, (DAY + 4 * HOUR, 2 * DAY)) == ((DAY + 4 * HOUR, DAY + 12 * HOUR),)
    assert daytime_in(bench, (DAY + 13 * HOUR, DAY + 20 * HOUR)) == ()
    assert daytime_in(replace(bench, workers=()), (5, 9)) == ((5, 9),)
