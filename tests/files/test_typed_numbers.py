"""Numbers as people type them."""

import pytest

from armorplan.files.typed_numbers import typed_number


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("12.5", 12.5),
        ("12,5", 12.5),
        (" 80 ", 80.0),
        ("\N{MINUS SIGN}4,5", -4.5),
        ("-4.5", -4.5),
        ("", None),
        ("damp", None),
        ("1,2,3", None),
        ("nan", None),
        ("inf", None),
        ("1e999", None),
    ],
)
def test_point_comma_and_minus_are_read_and_what_is_no_number_is_none(text, number):
    assert typed_number(text) == number
