"""Findings of later layers get the line of the key they name."""

import pytest
from files.small_cuff import CUFF_TOML

from armorplan.files.finding_lines import with_lines
from armorplan.files.source import from_texts
from armorplan.kernel.findings import Finding, Place, Severity

SOURCE = from_texts("cuff", {"pattern.toml": CUFF_TOML})


def finding(place):
    return Finding(code="c", severity=Severity.ERROR, text="T.", remedy="R.", place=place)


@pytest.mark.parametrize("key", ["joints.end_top", "joints.end_top.not_written"])
def test_a_key_or_the_table_above_it_gives_the_line(key):
    (found,) = with_lines([finding(Place(file="pattern.toml", key=key))], SOURCE)
    line = CUFF_TOML.splitlines().index("[joints.end_top]") + 1
    assert found.place == Place(file="pattern.toml", key=key, line=line)


@pytest.mark.parametrize(
    "place",
    [
        None,
        Place(file="cuff.svg", key="joints.end_top"),
        Place(file="pattern.toml", line=3, key="joints.end_top"),
        Place(file="pattern.toml", key="nothing"),
        Place(file="pattern.toml"),
    ],
)
def test_what_names_no_key_of_the_text_stays_as_it_is(place):
    assert with_lines([finding(place)], SOURCE) == (finding(place),)
