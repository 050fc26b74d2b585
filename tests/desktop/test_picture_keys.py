"""Where an arrow key goes."""

import pytest

from armorplan.desktop.picture_keys import Way, next_in_order, next_that_way

GRID = {f"{x}{y}": (x * 40.0, y * 40.0) for x in range(4) for y in range(3)}


@pytest.mark.parametrize(
    ("way", "there"), [(Way.LEFT, "01"), (Way.RIGHT, "21"), (Way.UP, "10"), (Way.DOWN, "12")]
)
def test_an_arrow_goes_to_the_neighbour(way, there):
    assert next_that_way(GRID, "11", way) == there


def test_nothing_lies_beyond_the_edge():
    assert next_that_way(GRID, "00", Way.LEFT) is None
    assert next_that_way(GRID, "00", Way.UP) is None


def test_a_row_is_walked_along_before_it_is_left():
    places = {"here": (0.0, 0.0), "along": (50.0, 0.0), "aside": (30.0, 25.0)}
    assert next_that_way(places, "here", Way.RIGHT) == "along"


def test_a_thing_far_off_to_the_side_is_reached_where_nothing_lies_ahead():
    places = {"here": (0.0, 0.0), "aside": (10.0, 300.0)}
    assert next_that_way(places, "here", Way.RIGHT) == "aside"


def test_things_in_one_place_are_gone_through_before_it_is_left():
    places = {"left": (0.0, 0.0), "boss": (9.0, 0.0), "rivet": (9.0, 0.0), "right": (20.0, 0.0)}
    walked = [next_that_way(places, here, Way.RIGHT) for here in ("left", "boss", "rivet")]
    assert walked == ["boss", "rivet", "right"]
    back = [next_that_way(places, here, Way.LEFT) for here in ("right", "rivet", "boss")]
    assert back == ["rivet", "boss", "left"]


def test_pages_stop_at_either_end():
    keys = ("a", "b", "c")
    assert next_in_order(keys, "a", 1) == "b"
    assert next_in_order(keys, "c", 1) == "c"
    assert next_in_order(keys, "b", -5) == "a"
    assert next_in_order(keys, None, 1) == "a"
    assert next_in_order(keys, None, -1) == "c"
    assert next_in_order((), None, 1) is None
