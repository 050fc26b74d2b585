"""How the measures of the shapes grow: 50 to 300 parts with five joints each, and what an edit costs.

Goal on 2 cores: 300 parts and 1,500 joints within 8 s for everything, look-alikes among it. The
baseline of every row is shapely's own buffer, 1 mm round each outline, in the same run; the growth
is the time for each part against that at 50 parts, which stays near 1 where it grows with the
number of parts. ``pytest -m bench --benchmark-enable -s`` prints the table.
"""

from collections.abc import Callable
from dataclasses import replace
from sys import stdout

import pytest
import shapely
from bench.cold import forget
from bench.growing_patterns import all_different, near_twins, ring_of
from bench.stopwatch import busy_s

from armorplan.files.catalogue import read_shelf
from armorplan.geometry.alike.likeness import look_alikes
from armorplan.geometry.checking import shape_findings
from armorplan.geometry.gathering import TOPICS, measures
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

pytestmark = pytest.mark.bench

SIZES = (50, 100, 200, 300)


def _works(pattern: Pattern, shelf: Shelf) -> dict[str, Callable[[], object]]:
    works: dict[str, Callable[[], object]] = {
        topic.__name__.removesuffix("_measures"): lambda topic=topic: list(topic(pattern, shelf))
        for topic in TOPICS
    }
    works["other findings"] = lambda: shape_findings(pattern, shelf, ())
    works["look-alikes"] = lambda: look_alikes(pattern.parts)
    return works


def _plain(pattern: Pattern) -> float:
    outlines = [shapely.Polygon(part.outline) for part in pattern.parts]
    return min(busy_s(lambda: [outline.buffer(1.0) for outline in outlines]) for _ in range(3))


def _table(rows: list[tuple[int, float, dict[str, float]]]) -> str:
    names = list(rows[0][2])
    lines = [f"{'':>16}" + "".join(f"{count:>24}" for count, _, _ in rows)]
    count_0, _, took_0 = rows[0]
    for name in names:
        cells = []
        for count, plain, took in rows:
            growth = took[name] / count / max(took_0[name] / count_0, 1e-9)
            cells.append(f"{took[name]:8.2f} s{took[name] / plain:7.0f}×{growth:6.1f}")
        lines.append(f"{name:>16}" + "".join(f"{cell:>24}" for cell in cells))
    return "\n".join(lines)


@pytest.mark.parametrize("shapes", [near_twins, all_different], ids=lambda each: each.__name__)
def test_growth(benchmark, shapes):
    shelf, rows = read_shelf(), []
    for count in SIZES:
        pattern = ring_of(shapes(count))
        forget()
        took = {name: busy_s(work) for name, work in _works(pattern, shelf).items()}
        took["all"] = sum(took.values())
        rows.append((count, _plain(pattern), took))
    title = f"{shapes.__name__}: CPU time, times the baseline, growth for each part"
    stdout.write(f"\n{title}\n{_table(rows)}\n")
    benchmark.extra_info["all_s"] = {count: round(took["all"], 2) for count, _, took in rows}
    benchmark.extra_info["ratio"] = {
        count: round(took["all"] / plain) for count, plain, took in rows
    }
    largest = ring_of(shapes(SIZES[-1]))
    forget()
    found = benchmark.pedantic(measures, args=(largest, shelf), rounds=1)
    assert len(found) >= 2 * SIZES[-1]


def test_after_one_edit(benchmark):
    """One hole of 3,000 is moved: what of the rest is kept tells in the ratio to the first time."""
    shelf, pattern = read_shelf(), ring_of(near_twins(300))
    forget()
    cold = busy_s(lambda: measures(pattern, shelf))
    first, *others = pattern.parts
    hole, *kept = first.holes
    moved = replace(hole, centre=(hole.centre[0] + 1.0, hole.centre[1]))
    edited = replace(pattern, parts=(replace(first, holes=(moved, *kept)), *others))
    found = benchmark.pedantic(measures, args=(edited, shelf), rounds=1)
    assert found
    benchmark.extra_info["cold_s"] = round(cold, 2)
