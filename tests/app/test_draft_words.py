"""What is typed for a thickness or a number is read by the words of the pattern's reader."""

import pytest

from armorplan.app.draft_keys import Key, Kind
from armorplan.app.draft_words import TypedWronglyError, changes, other_unit
from armorplan.files.thickness_words import sold_mm
from armorplan.kernel.units import ounces_to_mm

THICK = Key(name="thickness", kind=Kind.THICKNESS, label="Thickness")
LONG = Key(name="length_mm", kind=Kind.NUMBER, label="Length", unit="mm")


@pytest.mark.parametrize(
    "words", ["8 oz - 9 oz", "8\u20119 oz", "8\u22129 oz", "8—9oz.", "8 to 9 oz", "8 oz"]
)
def test_a_thickness_is_typed_as_it_is_sold(words):
    ((name, value),) = changes(THICK, words, {})
    ends = value if isinstance(value, list) else [value]
    assert name == "weight_oz"
    assert tuple(map(ounces_to_mm, (ends[0], ends[-1]))) == pytest.approx(sold_mm(words))
    assert other_unit({"sold": words}).endswith(" mm")


@pytest.mark.parametrize(("key", "text"), [(THICK, "1,000 mm"), (LONG, "1,000"), (LONG, "-3,175")])
def test_a_comma_before_three_digits_is_asked_about(key, text):
    with pytest.raises(TypedWronglyError, match="may be either"):
        changes(key, text, {})


@pytest.mark.parametrize(
    ("text", "value"), [("3,2", 3.2), ("0,125", 0.125), ("1234,567", 1234.567)]
)
def test_other_commas_are_decimal(text, value):
    assert changes(LONG, text, {}) == (("length_mm", value),)


SHARES = Key(name="shares_deg", kind=Kind.SHARES, label="Each pair", unit="°")


@pytest.mark.parametrize(
    ("text", "value"), [("100", [100]), ("20; 80", [20, 80]), ("20,5; 30; 50", [20.5, 30, 50])]
)
def test_shares_are_as_many_as_there_are_pairs(text, value):
    assert changes(SHARES, text, {}) == (("shares_deg", value),)


def test_shares_that_are_no_numbers_are_told():
    with pytest.raises(TypedWronglyError, match="is not a number"):
        changes(SHARES, "half; half", {})
    with pytest.raises(TypedWronglyError, match="write them like 20; 80"):
        changes(SHARES, ";", {})
