"""A strip in the row that closes a cuff changes nothing: it is shut all the same, and gets an order."""

import subprocess
import sys

import pytest
from ending import ends_within
from geometry.reach.net_sketches import lapped_cuff

from armorplan.app.derived import derive_build
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.model import Standing
from armorplan.relations.model import BeforeAll
from armorplan.workshop.shop import one_maker

SHELF, SHOP = read_shelf(), one_maker("UTC")
STRIPS = ("inside", "between", "outside")
DERIVES = """
from geometry.reach.net_sketches import lapped_cuff
from armorplan.app.derived import derive_build
from armorplan.files.catalogue import read_shelf
from armorplan.workshop.shop import one_maker
for strip in ("inside", "between", "outside"):
    for count in (2, 4):
        sketch = lapped_cuff(strip, count=count)
        print(len(derive_build(sketch, read_shelf(), one_maker("UTC"), build="b").order))
"""


def test_a_cuff_with_a_strip_in_its_row_gets_an_order_and_ends():
    found = subprocess.run(
        [sys.executable, "-c", DERIVES],
        env={"PYTHONPATH": "tests", "PATH": ""},
        capture_output=True,
        text=True,
        timeout=120,
        check=True,
    )
    assert [int(line) > 0 for line in found.stdout.split()] == [True] * 6


@pytest.mark.parametrize("strip", STRIPS)
def test_a_strip_changes_nothing_of_what_shuts_a_strap_in(strip):
    told = {}
    for each in ("", strip):
        with ends_within(30, each):
            build = derive_build(lapped_cuff(each, 800.0, 18), SHELF, SHOP, build="b")
        every = (each for each in build.relations if isinstance(each, BeforeAll))
        rules = {each.reason.rule for each in every if each.first.endswith("/on")}
        bars = [bar for bar in reach_of(build.pattern, SHELF).bars if bar.joint == "on"]
        told[each] = rules, {(bar.rows, bar.after.standing) for bar in bars}
    assert told[strip] == told[""]
    assert "reach-before-closed" in told[strip][0]
    assert (frozenset({"row"}), Standing.CANNOT) in told[strip][1]
