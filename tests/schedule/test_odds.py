import pytest

from armorplan.schedule.odds import ThreeTimes, finish_odds


def times(least, likely, most):
    return ThreeTimes(least_min=least, likely_min=likely, most_min=most)


def test_nothing_to_do_is_done_at_once():
    odds = finish_odds({}, {})
    assert (odds.expected_min, odds.path) == (0.0, ())
    assert odds.chance_by(0) == 1


def test_sure_times_leave_no_doubt():
    odds = finish_odds({"a": times(5, 5, 5), "b": times(2, 2, 2)}, {"b": ["a"]})
    assert odds.path == ("a", "b")
    assert (odds.chance_by(6.9), odds.chance_by(7)) == (0, 1)


def test_of_equally_long_paths_the_least_sure_counts():
    odds = finish_odds({"a": times(6, 6, 6), "b": times(3, 6, 9)}, {})
    assert odds.path == ("b",)
    assert odds.variance_min2 == 1


def test_times_have_to_rise():
    with pytest.raises(ValueError, match="Least 3, likely 2 and most 5 min"):
        times(3, 2, 5)
