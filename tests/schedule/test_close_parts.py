"""A clash among a few that windows hold together is found among them, and told as of the whole."""

from itertools import pairwise

from schedule.small_problems import by_hand, problem, waiting

from armorplan.schedule.claims import Claim, Kind
from armorplan.schedule.close_parts import stuck_parts
from armorplan.schedule.conflict import hopeless, smallest_conflict
from armorplan.schedule.planning import first_plan
from armorplan.schedule.possible import Possible
from armorplan.schedule.problem import EndsBeforeLast, Hold, Lag, Resource, Status


def two_in_five_minutes(*, others=20):
    """Two pieces of work of ten minutes have to begin within five after a third; others are apart."""
    names = [f"o{n}" for n in range(others)]
    return problem(
        *(by_hand(name, 1) for name in names),
        *(by_hand(name) for name in ("first", "one", "two")),
        lags=(
            *(Lag(first=a, then=b) for a, b in pairwise(names)),
            Lag(first="first", then="one", max_lag=5),
            Lag(first="first", then="two", max_lag=5),
            Lag(first="o0", then="first"),
        ),
    )


def test_only_the_part_that_clashes_is_asked_about(solver):
    asked = []
    tell = Possible(solver)

    def is_possible(each):
        asked.append(len(each.activities))
        return tell(each)

    whole = two_in_five_minutes()
    found = smallest_conflict(whole, is_possible)
    at = len(whole.lags) - 3
    assert set(found) == {
        Claim(kind=kind, of=name, at=number)
        for kind in (Kind.WINDOW, Kind.WAIT)
        for name, number in (("one", at), ("two", at + 1))
    }
    # The whole is asked once: whether what clashes in the part clashes in it as well.
    assert sorted(asked)[-2] == 3


def test_contradictory_pins_are_told(solver):
    """One maker cannot begin two things at minute 20."""
    pinned = [by_hand(name, earliest_min=20, latest_start_min=20) for name in ("a", "b")]
    whole = problem(*(by_hand(f"o{n}", 1) for n in range(9)), *pinned)
    found = smallest_conflict(whole, Possible(solver))
    assert {(c.kind, c.of) for c in found} == {
        (kind, name) for kind in (Kind.EARLIEST, Kind.LATEST) for name in ("a", "b")
    }


def test_a_claim_of_a_part_is_one_of_the_whole():
    whole = problem(
        by_hand("x"),
        *(by_hand(name) for name in ("first", "one", "two")),
        waiting("dry", 5),
        lags=(
            Lag(first="x", then="dry"),
            Lag(first="first", then="one", max_lag=5),
            Lag(first="first", then="two", max_lag=5),
        ),
        before_last=(
            EndsBeforeLast(first="x", of=frozenset({"one"})),
            EndsBeforeLast(first="first", of=frozenset({"one", "two"})),
        ),
        holds=(
            Hold(resource="r", amount=1, first="x", until=("dry",)),
            Hold(resource="r", amount=1, first="first", until=("one",)),
        ),
        resources=(Resource(id="r", capacity=1),),
    )
    (part,) = stuck_parts(whole)
    assert [a.id for a in part.problem.activities] == ["first", "one", "two"]
    for kind, here, there in (
        (Kind.WINDOW, 1, 2),
        (Kind.WAIT, 0, 1),
        (Kind.LAST, 0, 1),
        (Kind.HANGS, 0, 1),
        (Kind.HOURS, -1, -1),
    ):
        claim = Claim(kind=kind, of="m", at=here)
        assert part.in_whole(claim) == Claim(kind=kind, of="m", at=there)


def test_windows_that_are_met_make_no_part():
    whole = problem(
        *(by_hand(name) for name in ("a", "b", "c")), lags=(Lag(first="a", then="b", max_lag=5),)
    )
    assert list(stuck_parts(whole)) == []


def test_a_wait_longer_than_its_window_is_told_at_once():
    wait = Lag(first="a", then="b", min_lag=50, max_lag=5)
    asked = problem(by_hand("a"), by_hand("b"), lags=(wait,))
    said = "“b” starts at least 50 min after “a” ends, and at most 5 min after it: both cannot be."
    assert hopeless(asked) == said
    plan = first_plan(asked)
    assert (plan.status, plan.conflict) == (Status.NONE, said)


def test_of_what_was_done_no_wait_is_asked():
    over = {"fixed_start_min": -30, "fixed_end_min": -10}
    wait = Lag(first="a", then="b", min_lag=50, max_lag=5)
    assert hopeless(problem(by_hand("a", **over), by_hand("b", **over), lags=(wait,))) == ""
