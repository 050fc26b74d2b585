import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.schedule.pauses import end_with_pauses
from armorplan.schedule.promise.hours import NEVER, STAY_MIN, Hours, common

WINDOWS = ((0, 240), (300, 540), (1440, 1680))


def test_work_starts_where_its_minutes_fit():
    hours = Hours(WINDOWS)
    since = np.array([0.0, 200.0, 239.0, 250.0, 500.0, 1700.0])
    assert hours.fit(since, 100).tolist() == [0, 300, 300, 300, 1440, NEVER]


def test_what_is_longer_than_any_window_begins_with_one():
    assert Hours(WINDOWS).fit(np.array([10.0]), 500).tolist() == [300]


def test_work_is_ended_past_closing_time_but_not_far():
    hours = Hours(WINDOWS)
    starts = np.array([500.0, 500.0])
    ends = hours.end(starts, np.array([40.0 + STAY_MIN, 41.0 + STAY_MIN]), pausable=False)
    assert ends.tolist() == [540 + STAY_MIN, 1440 + 1 + STAY_MIN]


@given(
    start=st.sampled_from([0, 100, 239, 300, 500, 1440]),
    minutes=st.integers(1, 400),
)
def test_pausable_work_ends_as_the_plan_reckons_it(start, minutes):
    wanted = end_with_pauses(minutes, start, WINDOWS, 1)
    got = Hours(WINDOWS).end(np.array([float(start)]), np.array([float(minutes)]), pausable=True)
    if wanted is not None:
        assert got[0] == pytest.approx(wanted)
    elif minutes > sum(min(e, 1680) - max(s, start) for s, e in WINDOWS if e > start):
        assert got[0] >= NEVER


_WINDOWS = st.lists(st.integers(0, 40), max_size=8, unique=True).map(
    lambda edges: tuple(zip(sorted(edges)[::2], sorted(edges)[1::2], strict=False))
)


@given(one=_WINDOWS, other=_WINDOWS)
def test_what_lies_in_both_is_in_each(one, other):
    def minutes(windows):
        return {m for a, b in windows for m in range(a, b)}

    both = common(one, other)
    assert minutes(both) == minutes(one) & minutes(other)
    assert all(a < b for a, b in both)
    assert (common(None, one), common(None, None)) == (one, None)
