"""How far a tool gets, in words: lengths that differ read so, and what is not known is said so."""

from dataclasses import dataclass, replace

import pytest
from geometry.reach_sketches import bench_with, net_of, rim_way, row, row_way, tool

from armorplan.files.catalogue import read_shelf
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Standing
from armorplan.geometry.reach.words import standing_words, unlike_mm


@dataclass(frozen=True)
class Told:
    """How a joint stands, and what is said of it."""

    standing: Standing
    words: str


def told(along_mm, least_mm, *reaches_mm, **how):
    way = rim_way("rim-1", along_mm, least_mm=least_mm)
    net = net_of([], {"j": [way]}, seats={"j": ["p"]}, formed=["p"])
    tools = [tool(f"bar{at}", mm) for at, mm in enumerate(reaches_mm)]
    found = margin(net, "j", frozenset(), bench_with(net, *tools))
    shelf = replace(read_shelf(), tools=tuple(tools))
    return Told(found.standing, standing_words(shelf, found, **how))


@pytest.mark.parametrize("least_mm", [100.4, 101.9, 50.9])
def test_by_a_hair_too_short_is_the_end_of_reach(least_mm):
    reach_mm = 100.0 if least_mm > 100 else 50.0
    found = told(190.0, least_mm, reach_mm)
    assert found.standing is Standing.END
    least, reach = unlike_mm(least_mm, reach_mm)
    assert f"at least {least} mm" in found.words
    assert f"has {reach} mm, too near for the shapes to tell" in found.words
    assert float(least) > float(reach)


def test_short_by_more_than_the_model_may_be_off_is_out_of_reach():
    found = told(190.0, 126.0, 100.0)
    assert found.standing is Standing.CANNOT
    assert "at least 126 mm" in found.words
    assert "of 100 mm" in found.words


@pytest.mark.parametrize(
    ("mm", "words"),
    [
        ((100.4, 100.0), ("100.4", "100")),
        ((126.2, 50.0), ("126", "50")),
        ((2.04, 2.0), ("2.04", "2")),
    ],
)
def test_lengths_that_differ_read_as_different(mm, words):
    assert unlike_mm(*mm) == words


def test_where_no_reach_is_known_that_is_what_is_said():
    found = told(150.0, 50.0)
    assert "how far in a tool for it gets is not known" in found.words
    assert "at hand" not in found.words


def test_what_is_closed_from_outside_needs_no_reach():
    assert told(150.0, 50.0, outside=True).words.endswith("from outside")


def test_by_a_hair_through_an_open_row_is_the_end_of_reach_too():
    ways = {
        "seat": (rim_way("rim-1", 400.0), row_way("a1", "a", 100.4)),
        "a0": (rim_way("rim-1", 10.0),),
        "a1": (rim_way("rim-1", 30.0),),
    }
    rows = [row("a", ["p"], joints=2, spacing_mm=300.0)]
    net = net_of(rows, ways, seats={"seat": ("p",)}, formed=["p"])
    bench = bench_with(net, tool("bar", 100.0))
    assert margin(net, "seat", frozenset({"a0"}), bench).standing is Standing.END
