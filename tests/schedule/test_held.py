"""Places held from one step to the start of others: by what is done already, and by what is not."""

from dataclasses import replace

from schedule.small_problems import by_hand, problem, waiting

from armorplan.schedule.activity import Activity, Demand, Dip, Mode
from armorplan.schedule.batching import Patience
from armorplan.schedule.checker import violations
from armorplan.schedule.problem import Bath, Hold, Lag, Plan, Resource, Status
from armorplan.schedule.serial import Stuck, serial_placing

WIDE = ((0, 200),)
RACK = Resource(id="rack", capacity=2)
ON_RACK = (Demand(resource="rack", amount=1),)


def laid(bench):
    """Lay by priority; a plan has to hold, and an empty one says that none was found."""
    placing = serial_placing(bench, {a.id: (a.priority,) for a in bench.activities})
    if isinstance(placing, Stuck):
        return {}
    assert violations(bench, Plan(status=Status.GOOD, placed=placing)) == ()
    return {p.id: (p.start_min, p.end_min) for p in placing}


def test_what_hangs_until_the_last_of_several_hangs_on_after_one_of_them_starts():
    """Dyed until 8, and both are looked at later: the first look is at 10, and on record already."""
    bench = problem(
        by_hand("dye", fixed_start_min=5, fixed_end_min=8, fixed_who="m"),
        waiting("look", 1, fixed_start_min=10, fixed_end_min=11),
        waiting("hang", 2, demands=ON_RACK),
        lags=(Lag(first="dye", then="hang", min_lag=1, max_lag=3),),
        resources=(RACK,),
        holds=(
            Hold(resource="rack", amount=1, first="dye", until=("look", "hang")),
            Hold(resource="rack", amount=1, first="dye", until=("look",)),
        ),
        windows=WIDE,
    )
    assert laid(bench)["hang"] == (10, 12)


def test_what_was_hung_long_ago_is_taken_down_before_the_rack_is_full_of_what_is_on_record():
    """Two places are taken from 20 on by what is pinned there; what hangs since 0 must go before."""
    bench = problem(
        waiting("dye", fixed_start_min=-10, fixed_end_min=0),
        waiting("pinned", fixed_start_min=20, fixed_end_min=60, demands=ON_RACK * 2),
        by_hand("rivet", 25, priority=0),
        by_hand("take down", 5, priority=1),
        resources=(RACK,),
        holds=(Hold(resource="rack", amount=1, first="dye", until=("take down",)),),
        windows=WIDE,
    )
    assert laid(bench)["take down"] == (0, 5)


def test_two_things_hung_long_ago_on_one_place_are_taken_down_before_both_hang():
    """What ends both of them starts by the end of the step they hang from, or has no room."""
    bench = problem(
        by_hand("dye", fixed_start_min=4, fixed_end_min=7, fixed_who="m"),
        waiting("take down", 3, earliest_min=2),
        resources=(Resource(id="rack", capacity=1),),
        holds=(Hold(resource="rack", amount=1, first="dye", until=("take down",)),) * 2,
        windows=WIDE,
    )
    assert laid(bench)["take down"] == (2, 5)
    late = waiting("take down", 3, earliest_min=9)
    assert laid(replace(bench, activities=(bench.activities[0], late))) == {}


def test_dips_go_in_together_only_where_what_one_of_them_takes_down_is_down_in_time():
    """One takes down what hangs since 0, at 20 at the latest; the other is ready at 25 only."""
    way = Mode(who="m", minutes=10, name="vat", bath="vat")
    first, second = (
        Activity(id=n, minutes=0, modes=(way,), dip=Dip(family="blue"), earliest_min=at)
        for n, at in (("a", 0), ("b", 25))
    )
    bench = problem(
        waiting("dye", fixed_start_min=-10, fixed_end_min=0),
        waiting("pinned", fixed_start_min=20, fixed_end_min=60, demands=ON_RACK * 2),
        first,
        second,
        resources=(RACK,),
        holds=(Hold(resource="rack", amount=1, first="dye", until=("a",)),),
        baths=(Bath(id="vat", capacity=2),),
        windows=WIDE,
    )
    placing = serial_placing(bench, {a.id: (0,) for a in bench.activities}, Patience(most_min=60))
    assert not isinstance(placing, Stuck)
    assert violations(bench, Plan(status=Status.GOOD, placed=placing)) == ()


def test_a_dip_joins_a_batch_on_record_only_where_the_rack_has_room_after_it():
    way = Mode(who="m", minutes=5, name="vat", bath="vat")
    dip = Activity(id="a", minutes=0, modes=(way,), dip=Dip(family="blue"), priority=0)
    past = Activity(
        id="past",
        minutes=0,
        modes=(way,),
        dip=Dip(family="blue"),
        fixed_start_min=0,
        fixed_end_min=10,
        fixed_who="m",
        fixed_mode="vat",
    )
    bench = problem(
        past,
        dip,
        waiting("pinned", fixed_start_min=8, fixed_end_min=30, demands=ON_RACK * 2),
        by_hand("take down", 5, priority=1),
        lags=(Lag(first="a", then="take down", min_lag=10),),
        resources=(RACK,),
        holds=(Hold(resource="rack", amount=1, first="a", until=("take down",)),),
        baths=(Bath(id="vat", capacity=2),),
        windows=WIDE,
    )
    assert laid(bench)["a"][1] >= 30
