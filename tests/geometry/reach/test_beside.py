"""Joints that no seam names: lines side by side are a row each, whatever leads to and fro between them."""

from math import cos, pi, sin

import pytest
from geometry.leather_sketches import part, pattern, rivet
from geometry.reach.net_sketches import box_at
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.reach.beside import rows_of
from armorplan.geometry.reach.net import reach_net


def grid(lines, count, across_mm, step_mm):
    return [(across_mm * line, step_mm * at) for line in range(lines) for at in range(count)]


def told(spots):
    return {frozenset(row) for row in rows_of(spots)}


@given(st.integers(3, 20), st.floats(8, 60), st.floats(12, 150), st.floats(0, 6.3), st.randoms())
@settings(max_examples=150, deadline=None)
def test_two_lines_side_by_side_are_two_rows_in_order(count, across_mm, step_mm, turn, chance):
    drawn = [
        (x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn))
        for x, y in grid(2, count, across_mm, step_mm)
    ]
    mixed = chance.sample(range(2 * count), 2 * count)
    found = rows_of([drawn[at] for at in mixed])
    rows = [[mixed[at] for at in row] for row in found]
    asked = [list(range(count)), list(range(count, 2 * count))]
    assert sorted(sorted(row) for row in rows) == asked
    assert all(row in (sorted(row), sorted(row, reverse=True)) for row in rows)


@pytest.mark.parametrize(
    "spots",
    [
        grid(1, 12, 0.0, 25.0),
        [(0.0, 10.0 * at + 30.0 * (at // 2)) for at in range(12)],
        [(100 * cos(pi * at / 6), 100 * sin(pi * at / 6)) for at in range(12)],
        [(100 * cos(pi * at / 3), 100 * sin(pi * at / 3)) for at in range(6)],
        [(0, 0), (50, 0), (100, 0), (100, 50), (100, 100), (50, 100), (0, 100), (0, 50)],
        [(14.0 * (at % 2), 27.0 * at) for at in range(14)],
    ],
    ids=["one line", "pairs along it", "ring", "ring of six", "all round a patch", "zigzag"],
)
def test_a_single_row_stays_one(spots):
    assert told(spots) == {frozenset(range(len(spots)))}


def twice_riveted(step_mm, count):
    holes, joints = {"on": (150.0, 40.0)}, [rivet("on", "on")]
    for line, x in enumerate((8.0, 22.0)):
        for at in range(count):
            name = f"{line}_{at}"
            holes[f"l{name}"] = (x, 20.0 + step_mm * at)
            holes[f"r{name}"] = (270.0 + x, 20.0 + step_mm * at)
            joints.append(rivet(f"j{name}", f"l{name}", f"r{name}"))
    outline = box_at(0.0, 0.0, 300.0, 40.0 + step_mm * (count - 1))
    return pattern(part("sheet", outline, holes), joints=tuple(joints))


@pytest.mark.parametrize(("step_mm", "count"), [(108.0, 8), (40.0, 9), (30.0, 9), (12.0, 20)])
def test_a_lap_riveted_twice_over_has_two_rows_of_its_own_names_and_no_false_mouth(step_mm, count):
    (shell,) = reach_net(twice_riveted(step_mm, count)).shells.values()
    assert [len(row.joints) for row in shell.rows] == [count, count]
    assert [row.name for row in shell.rows] == ["row 1 of sheet", "row 2 of sheet"]
    assert [round(rim.length_mm) for rim in shell.rims] == [270, 270]


def test_two_plates_joined_left_and_right_have_two_rows_however_wide_the_holes_are_set():
    spots = {f"{x}_{at}": (x, 10.0 + 120.0 * at) for x in (10, 290) for at in range(4)}
    plates = [
        part(
            name, box_at(0.0, 0.0, 300.0, 380.0), {f"{name}{id_}": at for id_, at in spots.items()}
        )
        for name in ("front", "back")
    ]
    joints = tuple(rivet(id_, f"front{id_}", f"back{id_}") for id_ in spots)
    (shell,) = reach_net(pattern(*plates, joints=joints)).shells.values()
    assert sorted(len(row.joints) for row in shell.rows) == [4, 4]
