"""Why there is no plan, in words with numbers, and no demand named that is not needed."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from schedule.small_problems import by_hand, problem, waiting

from armorplan.schedule.activity import Demand
from armorplan.schedule.conflict import conflict_words, hopeless, smallest_conflict
from armorplan.schedule.problem import EndsBeforeLast, Lag, Resource


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
            "“late” does not fit into anyone's hours within 0 days.",
        ),
        (waiting("cure", 500), "“cure” does not end within 0 days."),
        (
            waiting("dry", demands=(Demand(resource="rack", amount=3),)),
            "“dry” takes 3 of rack, which holds 2.",
        ),
        (
            replace(by_hand("sew"), people=("nobody",)),
            "“sew” needs someone at the bench, and nobody has hours within 0 days.",
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


@given(st.sets(st.sampled_from(DEMANDS), min_size=1))
def test_exactly_the_clashing_demands_are_found(clash):
    """An oracle that says no whenever all of a hidden set are asked for."""
    bench = problem(*FREE, lags=DEMANDS)
    found = smallest_conflict(bench, lambda p: not clash <= set(p.lags))
    assert set(found) == clash
    assert len(found) == len(clash)


def test_of_two_clashes_one_is_told_whole():
    bench = problem(*FREE, lags=DEMANDS)
    one, two = set(DEMANDS[:2]), set(DEMANDS[3:6])
    found = set(smallest_conflict(bench, lambda p: not (one <= set(p.lags) or two <= set(p.lags))))
    assert found in (one, two)


def test_what_cannot_be_told_in_time_leaves_a_conflict_still():
    clash = set(DEMANDS[2:4])

    def slow(tried):
        if len(tried.lags) < 4:
            return None
        return not clash <= set(tried.lags)

    assert clash <= set(smallest_conflict(problem(*FREE, lags=DEMANDS), slow))


def test_hours_alone_may_be_too_tight():
    bench = problem(*FREE, lags=DEMANDS)
    assert smallest_conflict(bench, lambda _: False) == ()
    assert "do not hold the work" in conflict_words(bench, ())


def test_a_conflict_is_said_with_titles_and_reasons():
    rule = EndsBeforeLast(first="a0", of=frozenset({"a1", "a2"}), reason="The boss covers it.")
    named = (replace(FREE[0], title="Rivet the tab"), *FREE[1:])
    words = conflict_words(problem(*named), (DEMANDS[0], rule))
    assert words == (
        "These cannot all hold within the hours: “a1” starts after “Rivet the tab” ends (r0); "
        "“Rivet the tab” ends before the last of “a1”, “a2” starts (The boss covers it)."
    )


def test_a_long_conflict_is_cut_short():
    names = [waiting(f"a{n}") for n in range(12)]
    many = tuple(Lag(first=f"a{n}", then=f"a{n + 1}") for n in range(11))
    assert conflict_words(problem(*names), many).endswith("; and 3 more.")
