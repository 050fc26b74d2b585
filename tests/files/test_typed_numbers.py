"""Numbers as people type them."""

import pytest

from armorplan.files.typed_numbers import typed_number, typed_sides


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


@pytest.mark.parametrize(
    ("text", "sides"),
    [
        ("600x400", (600.0, 400.0)),
        (" 600 × 400,5 ", (600.0, 400.5)),
        ("98.7", (98.7,)),
        ("1X2x3", (1.0, 2.0, 3.0)),
        ("600x", ()),
        ("x", ()),
        ("", ()),
        ("600xnan", ()),
        ("wide x 400", ()),
    ],
)
def test_sides_are_read_or_none_of_them(text, sides):
    assert typed_sides(text) == sides
