"""The samples' own rows, told from their holes alone: no joint, seam or name is asked."""

from functools import cache

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.matching.suggesting import suggested
from armorplan.kernel.shipped import samples_folder

SHELF = read_shelf()


def rows(pattern):
    """The rows of holes that seams join, two layers at a time, as sets of holes."""
    for seam in pattern.seams:
        stacks = [pattern.joint(joint).stack for joint in seam.joints]
        if len(stacks) > 1 and stacks[0]:
            for two in range(len(stacks[0]) - 1):
                yield seam.id, frozenset(h for stack in stacks for h in stack[two : two + 2])


@cache
def matched(name):
    pattern = read_pattern(read_folder(samples_folder() / name), SHELF).pattern
    found = suggested(pattern.parts)
    holes = [frozenset(h for pair in match.pairs for h in pair) for match in found]
    used, first = set(), set()
    for held in holes:
        if used.isdisjoint(held):
            first.add(held)
            used |= held
    return list(rows(pattern)), set(holes), first


@pytest.mark.parametrize("name", ["elbow_cop", "collar", "three_lames", "arm_harness"])
def test_every_row_of_a_sample_is_among_the_suggestions(name):
    true, holes, _ = matched(name)
    assert [seam for seam, held in true if held not in holes] == []


@pytest.mark.parametrize("name", ["elbow_cop", "collar"])
def test_rows_that_nothing_else_fits_come_first(name):
    true, _, first = matched(name)
    assert [seam for seam, held in true if held not in first] == []


def test_where_many_straps_are_alike_more_than_half_come_first_still():
    """Straps and tabs of one spacing fit each other's places: the holes cannot tell."""
    true, _, first = matched("arm_harness")
    assert sum(held in first for _, held in true) >= len(true) / 2
