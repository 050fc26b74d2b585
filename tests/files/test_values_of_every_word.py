"""Whatever value stands at a key of the format, the reader answers with findings or a pattern."""

import copy
import tomllib
from datetime import date

import pytest
import tomlkit
from files.every_word import TOML, read_leg
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.kernel.findings import has_errors

WRITTEN = tomllib.loads(TOML)
LONGEST_FINDING = 1200


def _paths(table, above):
    for key, value in table.items():
        yield (*above, key)
        if isinstance(value, dict):
            yield from _paths(value, (*above, key))


PATHS = list(_paths(WRITTEN, ()))
VALUES = [
    "", 0, -1, 1, 1 << 40, 1.5, float("nan"), float("inf"), True, [], {}, [1], ["a"], ["plate_hang"],
    "lame_slide", ["lame_slide"], [["a"]], [[1, 2], [3, 4]], "left", "sliding", "glue",
    date(2026, 1, 1), [{"a": 1}], {"a": 1}, {"x": {"y": 1}}, "x" * 3000, "ü/ñ", "rivet/*",
    ["thigh_plate", "thigh_plate"], ["tongue_1", "cop_slide"], "cop", ["cop_row"], "9-8 oz",
]  # fmt: skip
TAKEN_OUT = object()
CHANGES = st.lists(
    st.tuples(st.sampled_from(PATHS), st.sampled_from([TAKEN_OUT, *VALUES])),
    min_size=1,
    max_size=3,
)


def changed(changes):
    whole = copy.deepcopy(WRITTEN)
    for path, value in changes:
        table = whole
        for key in path[:-1]:
            table = table.get(key) if isinstance(table, dict) else None
        if not isinstance(table, dict):
            continue
        if value is TAKEN_OUT:
            table.pop(path[-1], None)
        else:
            table[path[-1]] = copy.deepcopy(value)
    return tomlkit.dumps(whole)


def check(changes):
    found = read_leg(changed(changes))
    assert (found.pattern is None) is has_errors(found.findings)
    for finding in found.findings:
        assert finding.text
        assert finding.remedy
        assert finding.place is not None
        assert len(str(finding)) < LONGEST_FINDING


def test_unchanged_it_is_the_pattern_itself():
    assert read_leg(changed([])).pattern is not None


@given(CHANGES)
@settings(max_examples=18, deadline=None)
def test_odd_values(changes):
    check(changes)


@given(CHANGES)
@settings(max_examples=3000, deadline=None)
@pytest.mark.long
def test_odd_values_at_length(changes):
    check(changes)
