"""Why there is no plan, in words with numbers, and no demand named that is not needed."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from schedule.hand_shops import HOUR, NAMES, lames
from schedule.small_problems import by_hand, problem, waiting

from armorplan.schedule.activity import Activity, Demand, Dip, Mode
from armorplan.schedule.claims import Claim, Kind, claims_of, without
from armorplan.schedule.conflict import conflict_words, hopeless, smallest_conflict
from armorplan.schedule.hands import NOBODY
from armorplan.schedule.naming import Naming
from armorplan.schedule.planning import first_plan, sought_plan
from armorplan.schedule.possible import Possible
from armorplan.schedule.problem import (
    Bath,
    EndsBeforeLast,
    Lag,
    Plan,
    Resource,
    Status,
    Worker,
)


@pytest.mark.parametrize(
    ("activity", "text"),
    [
        (
            by_hand("carve", 90, title="Carve the shield"),
            (
                "“Carve the shield” takes 90 min in one go, and the longest stretch anyone works "
                "is 60 min."
            ),
        ),
        (
            by_hand("late", earliest_min=155),
            "“late” does not fit into anyone's hours within 3 h.",
        ),
        (waiting("cure", 500), "“cure” does not end within 3 h."),
        (
            waiting("dry", demands=(Demand(resource="rack", amount=3),)),
            "“dry” takes 3 of rack, which holds 2.",
        ),
        (
            replace(by_hand("sew"), people=("nobody",)),
            "“sew” is work that nobody in this shop does.",
        ),
        (
            by_hand("pin", earliest_min=9, latest_start_min=5, title="Fit"),
            "“Fit” has to start by Monday 08:05, and cannot start before Monday 08:09.",
        ),
        (
            by_hand("pin", earliest_min=65, latest_start_min=65, title="Fit"),
            "“Fit” is set for Monday 09:05, and m has no hours for it then.",
        ),
        (by_hand("fine"), ""),
        (by_hand("past", 90, fixed_start_min=-90, fixed_end_min=0), ""),
    ],
)
def test_what_fits_nowhere_is_named_with_its_numbers(activity, text):
    bench = problem(activity, resources=(Resource(id="rack", capacity=2),))
    assert hopeless(bench) == text


FREE = tuple(waiting(f"a{n}") for n in range(8))
DEMANDS = tuple(Lag(first=f"a{n}", then=f"a{n + 1}", reason=f"r{n}") for n in range(7))
WAITS = tuple(Claim(kind=Kind.WAIT, of=lag.then, at=at) for at, lag in enumerate(DEMANDS))
BENCH = problem(*FREE, lags=DEMANDS)


def kept_waits(tried):
    """Which of the demands a problem that was freed of some still has."""
    left = {(lag.first, lag.then) for lag in tried.lags}
    return {c for c, d in zip(WAITS, DEMANDS, strict=True) if (d.first, d.then) in left}


@given(st.sets(st.sampled_from(WAITS), min_size=1))
def test_exactly_the_clashing_claims_are_found(clash):
    """An oracle that says no whenever all of a hidden set are asked for."""
    found = smallest_conflict(BENCH, lambda p: not clash <= kept_waits(p))
    assert set(found) == clash
    assert len(found) == len(clash)


def test_of_two_clashes_one_is_told_whole():
    one, two = set(WAITS[:2]), set(WAITS[3:6])
    found = set(
        smallest_conflict(BENCH, lambda p: not (one <= kept_waits(p) or two <= kept_waits(p)))
    )
    assert found in (one, two)


def test_what_cannot_be_told_in_time_leaves_a_conflict_still():
    clash = set(WAITS[2:4])

    def slow(tried):
        if len(tried.lags) < 4:
            return None
        return not clash <= kept_waits(tried)

    assert clash <= set(smallest_conflict(BENCH, slow))


def test_what_fits_nowhere_at_all_clashes_with_nothing():
    assert smallest_conflict(BENCH, lambda _: False) == ()
    assert "do not hold the work" in conflict_words(BENCH, ())
    assert smallest_conflict(replace(BENCH, workers=(), lags=()), lambda _: False) == ()


def test_a_conflict_is_said_with_titles_and_reasons():
    rule = EndsBeforeLast(first="a0", of=frozenset({"a1", "a2"}), reason="The boss covers it.")
    named = (replace(FREE[0], title="Rivet the tab"), *FREE[1:])
    bench = problem(*named, lags=DEMANDS, before_last=(rule,))
    words = conflict_words(bench, (WAITS[0], Claim(kind=Kind.LAST, of="a0", at=0)))
    assert words == (
        "These cannot all hold: “a1” comes after “Rivet the tab” (r0); "
        "“Rivet the tab” has to end before the last of “a1”, “a2” starts (The boss covers it)."
    )


def test_a_long_conflict_is_cut_short():
    names = [waiting(f"a{n}") for n in range(12)]
    many = tuple(Lag(first=f"a{n}", then=f"a{n + 1}") for n in range(11))
    bench = problem(*names, lags=many)
    claims = [c for c in claims_of(bench) if c.kind is Kind.WAIT]
    assert conflict_words(bench, claims).endswith("; 3 more.")


def test_a_window_that_nobody_is_there_for_is_said_with_person_day_and_hours(solver):
    found = smallest_conflict(lames(), Possible(solver))
    assert {c.kind for c in found} == {
        Kind.WINDOW,
        Kind.WAIT,
        Kind.LATEST,
        Kind.EARLIEST,
        Kind.HANDS,
        Kind.ABSENCE,
    }
    words = conflict_words(lames(), found, NAMES)
    assert words == (
        "“Bend the lames” has to start within 1 h of the end of “Dip the lames” (Damp leather "
        "takes a bend); “Dip the lames” is set for Tuesday 13:00, but only the maker may do "
        "“Bend the lames” and is away Tuesday 13:00–17:00."
    )


def test_each_of_a_conflict_is_needed(solver):
    """Freed of any one of the claims found the work has a plan, with all of them it has none."""
    bench, oracle = lames(), Possible(solver)
    assert oracle(bench) is False
    for claim in smallest_conflict(bench, oracle):
        if claim.kind is not Kind.ABSENCE:
            assert oracle(without(bench, [claim])) is True


def test_a_usual_night_is_no_absence(solver):
    bench = lames(dipped_min=9 * HOUR - 20)
    words = conflict_words(bench, smallest_conflict(bench, Possible(solver)), NAMES)
    assert "is not there Monday 17:00 to Tuesday 08:00" in words


def test_what_nobody_here_can_do_is_said_so(solver):
    bend = replace(lames().activities[2], people=(NOBODY,))
    bench = replace(
        lames(),
        activities=(*lames().activities[:2], bend, *lames().activities[3:]),
        workers=(*lames().workers, Worker(id=NOBODY, windows=())),
    )
    found = smallest_conflict(bench, Possible(solver))
    assert conflict_words(bench, found, NAMES) == (
        "These cannot all hold: nobody here may do “Bend the lames”."
    )


def test_what_is_too_large_for_every_bath_is_named():
    dip = Activity(
        id="dye",
        minutes=5,
        modes=(Mode(who="m", minutes=5, name="vat", bath="vat"),),
        dip=Dip(family="blue", amount=4),
        title="Dye the gores",
    )
    bench = problem(dip, baths=(Bath(id="vat", capacity=0),))
    assert "“Dye the gores” takes 4 of vat, which holds 0" in hopeless(bench)
    vat = Naming(names={"vat": "the zinc tray"})
    assert "takes 4 of the zinc tray, which holds 0" in hopeless(bench, vat)
    assert "takes 4 of the zinc tray" in first_plan(bench, naming=vat).conflict
    (claim,) = smallest_conflict(bench, lambda p: p.baths[0].capacity >= 4)
    assert conflict_words(bench, (claim,)) == "These cannot all hold: vat takes 0 at a time."


def test_a_search_names_people_and_hours_as_the_shop_does(solver):
    start = Plan(status=Status.OUT_OF_TIME, conflict="Not found.")
    there = replace(NAMES, zone="Asia/Tokyo")
    found = sought_plan(lames(), solver, start, seconds=9, naming=there)
    assert found.status is Status.NONE
    assert "only the maker may do" in found.conflict
    assert "Tuesday 22:00" in found.conflict
