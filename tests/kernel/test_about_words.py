"""Minutes that are an estimate are said no finer than they are good for, in one way everywhere."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.app.reason_rows import number_words
from armorplan.kernel.units import about_words
from armorplan.relations.model import Quantity


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (0.02, "10 seconds"),
        (0.38, "20 seconds"),
        (0.95, "1 minute"),
        (1.0, "1 minute"),
        (1.4, "1.5 minutes"),
        (6.2, "6 minutes"),
        (9.9, "10 minutes"),
        (23.4, "23 minutes"),
        (59.6, "1 h"),
        (75.2, "1 h 15 min"),
        (1440, "24 h"),
    ],
)
def test_minutes_are_said_as_a_maker_says_them(minutes, said):
    assert about_words(minutes) == said


@given(st.floats(min_value=1.0, max_value=179.0))
def test_what_is_said_is_within_half_a_minute(minutes):
    number, unit, *rest = about_words(minutes).split()
    told = float(number) * (60 if unit == "h" else 1) + (float(rest[0]) if rest else 0)
    assert abs(told - minutes) <= 0.5


@pytest.mark.parametrize(
    ("value", "unit", "said"),
    [
        (320.024, "mm", "so far 320 mm"),
        (2.46, "mm", "so far 2.5 mm"),
        (0.0, "mm", "so far 0 mm"),
        (1440, "min", "so far 24 h"),
        (100, "%", "so far 100 %"),
    ],
)
def test_numbers_of_reasons_are_whole_where_that_is_fine_enough(value, unit, said):
    assert number_words(Quantity(name="so far", value=value, unit=unit)) == said
