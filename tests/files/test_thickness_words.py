import pytest
from files.small_cuff import with_toml
from hypothesis import given
from hypothesis import strategies as st

from armorplan.files.thickness_words import sold_mm

MM_PER_OZ = 25.4 / 64


@pytest.mark.parametrize(
    ("words", "least_mm", "most_mm"),
    [
        ("8-9 oz", 8 * MM_PER_OZ, 9 * MM_PER_OZ),
        ("8–9 oz", 8 * MM_PER_OZ, 9 * MM_PER_OZ),
        ("8/9 oz.", 8 * MM_PER_OZ, 9 * MM_PER_OZ),
        ("8 to 9oz", 8 * MM_PER_OZ, 9 * MM_PER_OZ),
        ("8 OZ", 8 * MM_PER_OZ, 8 * MM_PER_OZ),
        ("3.2-3.6 mm", 3.2, 3.6),
        (" 3,2 – 3,6mm ", 3.2, 3.6),
        ("3.2 mm", 3.2, 3.2),
        ("8\u201110 oz", 8 * MM_PER_OZ, 10 * MM_PER_OZ),
        ("8\u201010 oz", 8 * MM_PER_OZ, 10 * MM_PER_OZ),
        ("8 \u2012 9 oz", 8 * MM_PER_OZ, 9 * MM_PER_OZ),
        ("8\u22129 oz", 8 * MM_PER_OZ, 9 * MM_PER_OZ),
        ("8 oz - 9 oz", 8 * MM_PER_OZ, 9 * MM_PER_OZ),
        ("3.2mm to 3.6 MM", 3.2, 3.6),
        ("8 oz. – 9 oz.", 8 * MM_PER_OZ, 9 * MM_PER_OZ),
        ("0,125 mm", 0.125, 0.125),
        ("10-10 oz", 10 * MM_PER_OZ, 10 * MM_PER_OZ),
    ],
)
def test_words_of_the_trade(words, least_mm, most_mm):
    assert sold_mm(words) == pytest.approx((least_mm, most_mm))


@pytest.mark.parametrize(
    "words",
    ["", "8-9", "oz", "9-8 oz", "0-1 oz", "0 mm", "8-9-10 oz", "8 9 oz", "-8 oz", "8-9 cm", "1e3 mm",
     "٣ mm", "8-9 oz oz", "1/8 in", "8.-9 oz", "9" * 400 + " oz", "8 oz - 3.6 mm",
     "1,000 mm", "3,175 mm", "8-1,000 oz", "999999 oz", "75.1 oz", "30.1 mm", "3-31 mm", "\u22128 oz"],
)  # fmt: skip
def test_other_words_say_nothing(words):
    assert sold_mm(words) is None


@given(st.text(max_size=40))
def test_any_words_give_an_ascending_pair_or_nothing(words):
    found = sold_mm(words)
    assert found is None or 0 < found[0] <= found[1]


def material(text):
    found = with_toml("thickness_mm = 3.2", text)
    assert found.findings == ()
    return found.pattern


@pytest.mark.parametrize(
    ("text", "most_mm", "least_mm"),
    [
        ("thickness_mm = [3.1, 3.4]", 3.4, 3.1),
        ("thickness_mm = [3.2]", 3.2, None),
        ("thickness_mm = [3.2, 3.2]", 3.2, None),
        ("weight_oz = [8, 9]", 9 * MM_PER_OZ, 8 * MM_PER_OZ),
        ('sold = "8-9 oz"', 9 * MM_PER_OZ, 8 * MM_PER_OZ),
        ('sold = "8 oz"', 8 * MM_PER_OZ, None),
    ],
)
def test_the_upper_end_is_the_thickness_of_material_and_parts(text, most_mm, least_mm):
    pattern = material(text)
    for thing in (pattern.materials[0], pattern.part("plate")):
        assert thing.thickness_mm == pytest.approx(most_mm)
        assert thing.least_mm == (None if least_mm is None else pytest.approx(least_mm))


@pytest.mark.parametrize(
    ("text", "code", "says"),
    [
        ("thickness_mm = [3.4, 3.1]", "wrong-value", "3.4 stands before 3.1"),
        ("thickness_mm = [3.1, 3.2, 3.3]", "wrong-value", "[least, most]"),
        ("thickness_mm = []", "wrong-value", "a list"),
        ("thickness_mm = [0, 3]", "wrong-value", "above 0"),
        ('thickness_mm = [3, "4"]', "wrong-value", "above 0"),
        ('sold = "heavy"', "wrong-value", "8-9 oz"),
        ('sold = "3,175 mm"', "wrong-value", "3175 or 3.175: 3,175 may be either"),
        ('sold = "999999 oz"', "wrong-value", "at most 30 mm or 75 oz"),
        ("weight_oz = 76", "wrong-value", "at most 75 oz"),
        ("thickness_mm = [3, 31]", "wrong-value", "at most 30 mm"),
        ("sold = 8", "wrong-value", "a text"),
        ('sold = "8 oz"\nweight_oz = 8', "two-thicknesses", "weight_oz and sold"),
        ("", "missing-key", "sold"),
    ],
)
def test_faults(text, code, says):
    (fault,) = with_toml("thickness_mm = 3.2", text).findings
    assert fault.code == code
    assert says in str(fault)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ('sold = "8 oz"\nsold = "9 oz"', "toml-syntax"),
        ('sold.words = "8 oz"', "wrong-value"),
        ('sold.words = "8 oz"\nthickness_mm = 3.2', "two-thicknesses"),
        ('sold = "8 oz"\nthickness_mm = 3.2', "two-thicknesses"),
    ],
)
def test_a_thickness_told_twice_or_in_a_table_is_told_once(text, code):
    codes = [f.code for f in with_toml("thickness_mm = 3.2", text).findings]
    assert codes.count(code) == 1
    assert len(codes) == len(set(codes))
