from itertools import combinations, permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from orders.effort_cases import problem

from armorplan.orders.effort_bits import EffortBits
from armorplan.orders.effort_table import State, rises_of
from armorplan.orders.row_minutes import row_minutes, run_minutes

OTHERS = "abcde"


def subsets(of):
    return [frozenset(s) for size in range(len(of) + 1) for s in combinations(of, size)]


@given(
    st.lists(
        st.tuples(st.frozensets(st.sampled_from(OTHERS), min_size=1), st.integers(1, 9)),
        max_size=6,
    )
)
def test_the_table_says_of_every_state_what_it_costs(raised):
    def state(done):
        return State(10 + max((m for after, m in raised if after <= done), default=0))

    table = rises_of("j", OTHERS, state)
    assert table.complete
    bits = EffortBits(problem(f"{OTHERS}j", rises=table.rises))
    for done in subsets(OTHERS):
        more = bits.dearer(bits.number["j"], bits.mask(done))
        assert 10 + more / 100 == pytest.approx(state(done).minutes)


def test_a_table_that_would_grow_too_large_is_on_the_low_side_and_says_so():
    names = [f"row {at}" for at in range(12)]
    table = rises_of("j", names, lambda done: State(1.0 + len(done)))
    assert not table.complete
    bits = EffortBits(problem([*names, "j"], rises=table.rises))
    for size in range(13):
        assert bits.dearer(12, bits.mask(names[:size])) <= 100 * size


def test_a_rise_tells_the_tool_and_the_way():
    def state(done):
        return State(3.0, "stake", "mouth") if "a" in done else State(1.0)

    (rise,) = rises_of("j", "ab", state).rises
    assert (rise.after, rise.minutes, rise.tool, rise.way) == ({"a"}, 2.0, "stake", "mouth")


def test_equal_minutes_leave_the_row_as_it_runs():
    row = row_minutes(4, lambda _at, _made: 2.0, saving_pct=10)
    assert row.run == (0, 1, 2, 3)
    assert (row.one_by_one_min, row.loaded_min, row.is_loaded) == (8.0, 7.2, True)


def deep(at, made):
    """Return what a rivet costs, so many places from the mouth at the end, by whether the way is shut."""
    return 2.0 + at * any(other > at for other in made)


def test_the_deep_end_comes_first():
    row = row_minutes(4, deep, saving_pct=10)
    assert row.one_by_one_min == 8.0
    assert row.run == (0, 1, 2, 3)
    turned = row_minutes(4, lambda at, made: deep(3 - at, {3 - m for m in made}), saving_pct=10)
    assert turned.run == (3, 2, 1, 0)


def test_loading_a_row_shuts_it():
    row = row_minutes(4, deep, saving_pct=10)
    # The three that are not at the mouth cost 0, 1 and 2 minutes more: 8 + 3, less a tenth.
    assert row.loaded_min == pytest.approx(9.9)
    assert not row.is_loaded
    assert row.minutes == 8.0


def is_one_run(order):
    """Tell whether what is made always fills the row from its ends."""
    size = len(order)
    for n in range(size + 1):
        gap = sorted(set(range(size)) - set(order[:n]))
        if gap and gap != list(range(gap[0], gap[-1] + 1)):
            return False
    return True


@given(st.lists(st.tuples(st.integers(0, 4), st.integers(0, 4), st.integers(1, 9)), max_size=8))
def test_no_run_from_the_ends_takes_less(raised):
    def minutes(at, made):
        return 1 + sum(more for one, other, more in raised if one == at and other in made)

    runs = [run for run in permutations(range(5)) if is_one_run(run)]
    assert len(runs) == 2**4
    least = min(sum(minutes(at, frozenset(run[:n])) for n, at in enumerate(run)) for run in runs)
    found = row_minutes(5, minutes, saving_pct=10)
    assert found.one_by_one_min == least
    assert is_one_run(found.run)


def test_a_long_row_is_tried_from_either_end():
    row = row_minutes(20, lambda at, made: deep(19 - at, {19 - m for m in made}), saving_pct=10)
    assert row.run == tuple(reversed(range(20)))
    assert row.one_by_one_min == 40.0


def test_a_row_that_cannot_be_loaded_is_set_one_by_one():
    assert row_minutes(4, lambda _at, _made: 2.0, saving_pct=10).is_loaded
    never = row_minutes(4, lambda _at, _made: 2.0, saving_pct=10, loads=False)
    assert not never.is_loaded
    assert never.minutes == never.loaded_min == 8.0


def test_a_run_takes_what_its_joints_take_in_it():
    easy = run_minutes(range(4), lambda _at, _made: 2.0, saving_pct=10)
    assert easy.loaded
    assert easy.each == (1.8,) * 4
    singly = run_minutes(range(4), lambda _at, _made: 2.0, saving_pct=10, loads=False)
    assert not singly.loaded
    assert singly.each == (2.0,) * 4
    best = row_minutes(4, deep, saving_pct=10)
    run = run_minutes(best.run, deep, saving_pct=10, loads=False)
    assert sum(run.each) == pytest.approx(best.one_by_one_min)
    assert run.each == tuple(deep(at, frozenset(best.run[:n])) for n, at in enumerate(best.run))
