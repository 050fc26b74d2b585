"""Boxes of the assembly graph lie as their parts do, and never on each other."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from armorplan.desktop.layout_parts import apart

SIZE = (220.0, 80.0)
coordinates = st.floats(-2000, 2000, allow_nan=False).map(lambda x: round(x, 1))
lies = st.dictionaries(
    st.text("abcdefgh", min_size=1, max_size=3), st.tuples(coordinates, coordinates), max_size=40
)


@given(lies)
def test_no_box_lies_on_another(lie):
    found = apart(lie, SIZE)
    assert list(found) == list(lie)
    for one, other in combinations(found.values(), 2):
        wide, deep = abs(one[0] - other[0]), abs(one[1] - other[1])
        assert wide >= SIZE[0] - 1e-6 or deep >= SIZE[1] - 1e-6
    assert apart(lie, SIZE) == found


def test_parts_keep_their_lie():
    lie = {"top": (0.0, 0.0), "middle": (10.0, 100.0), "low": (0.0, 200.0), "strap": (300.0, 95.0)}
    found = apart(lie, SIZE)
    assert found["top"][1] < found["middle"][1] < found["low"][1]
    assert found["middle"][0] < found["strap"][0]
    assert found["middle"][1] == found["strap"][1]


def test_parts_in_one_place_are_told_apart():
    found = apart(dict.fromkeys(("a", "b", "c"), (5.0, 5.0)), SIZE)
    assert sorted(x for x, _ in found.values()) == [
        found["a"][0],
        found["a"][0] + SIZE[0],
        found["a"][0] + 2 * SIZE[0],
    ]
