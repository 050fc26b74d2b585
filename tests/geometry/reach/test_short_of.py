"""What the shapes leave in doubt is told once for each piece, and a tool without reach gets nowhere."""

from dataclasses import replace

import pytest
from geometry.reach_sketches import bench_with, net_of, rim_way, tool

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.reach.margins import SLACK_MM, margin, needed_mm, standing_of
from armorplan.geometry.reach.measuring import reach_measures
from armorplan.geometry.reach.model import Row, Standing
from armorplan.geometry.reach.short_of import ranged
from armorplan.kernel.findings import Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.choosing import settled

SHELF = read_shelf()
DOUBT = "reach-not-sure"


def sample(name):
    return settled(read_pattern(read_folder(samples_folder() / name), SHELF).pattern)


def shelf_of(reach_mm):
    """Return the shelf with all tools that get in cut to one length."""
    tools = tuple(
        tool if tool.reach_mm is None else replace(tool, reach_mm=reach_mm) for tool in SHELF.tools
    )
    return replace(SHELF, tools=tools)


def findings(name, shelf=SHELF):
    return [each for m in reach_measures(sample(name), shelf) for each in m.findings]


def test_tools_far_shorter_than_a_cop_is_deep_are_told_once():
    found = findings("elbow_cop", shelf_of(30.0))
    (told,) = [each for each in found if each.code == DOUBT]
    assert told.severity is Severity.WARNING
    assert "'left_row_2' to 'left_row_6'" in told.text
    assert "between 0 and 64 mm in" in told.text
    assert "30 mm: the shapes do not tell" in told.text
    assert "Try it at the dry fit" in told.remedy
    assert "gets in 65 mm" in told.remedy
    assert {"left_row_4", "right_row_4"} <= set(told.about)


def test_of_several_tools_each_is_named_with_its_length():
    tools = tuple(
        replace(tool, reach_mm=60.0 if tool.id == "burr_setter" else 30.0)
        if tool.reach_mm is not None
        else tool
        for tool in SHELF.tools
    )
    (told,) = [f for f in findings("collar", replace(SHELF, tools=tools)) if f.code == DOUBT]
    assert "60 mm" in told.text
    assert ", 30 mm" in told.text


@pytest.mark.parametrize("name", ["arm_harness", "collar", "elbow_cop", "three_lames"])
def test_the_shelf_as_shipped_leaves_nothing_in_doubt(name):
    assert not [each.code for each in findings(name) if each.code == DOUBT]


def test_tools_without_reach_get_nowhere_and_it_is_told_row_by_row():
    found = findings("elbow_cop", shelf_of(0.0))
    out = [each for each in found if each.code == "reach-nothing-gets-there"]
    rows = [each for each in out if "row" in each.text]
    assert len(rows) == 2
    assert rows[0].text.startswith(
        "In no order a tool of the shelf gets to 'left_row_1' to 'left_"
    )
    assert "none gets in at all" in rows[0].text
    assert "Hardest to get at is 'left_row_4': it lies up to 64 mm in" in rows[0].text
    assert "a horn that gets in 65 mm" in rows[0].remedy
    assert not [each for each in found if each.code == DOUBT]


@pytest.mark.parametrize(
    ("reach_mm", "expected"),
    [(0.0, Standing.CANNOT), (0.5, Standing.CANNOT), (2.0, Standing.END), (80.0, Standing.INSIDE)],
)
def test_a_tool_has_to_get_in_though_next_to_nothing_may_be_needed(reach_mm, expected):
    way = rim_way("rim-1", 80.0, least_mm=0.0)
    net = net_of([], {"j": [way]}, seats={"j": ["p"]}, formed=["p"])
    bench = bench_with(net, tool("bar", reach_mm))
    assert margin(net, "j", frozenset(), bench).standing is expected
    assert standing_of([(way, 100.0)], "j", bench, hollow=False) is expected


def test_what_lies_at_the_very_edge_needs_no_more_than_that():
    assert needed_mm(rim_way("rim-1", 0.2, least_mm=0.0)) == 0.2
    assert needed_mm(rim_way("rim-1", 40.0, least_mm=25.0)) == 25.0 - SLACK_MM


def test_joints_side_by_side_are_named_by_the_first_and_the_last():
    joints = tuple(f"r{at}" for at in range(9))
    row = Row(id="r", name="r", joints=joints, at_mm=tuple(map(float, range(9))), parts=("p",))
    assert ranged(("r2", "r0", "r1", "r5", "strap", "r6"), (row,)) == [
        "'strap'",
        "'r0' to 'r2'",
        "'r5' and 'r6'",
    ]
