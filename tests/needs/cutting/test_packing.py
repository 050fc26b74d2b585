"""Blanks on beds: none overlaps, none leaves the bed, none is lost, and the backbone is kept."""

from itertools import combinations
from time import perf_counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.needs.cutting.blanks import Blank
from armorplan.needs.cutting.model import Bed
from armorplan.needs.cutting.packing import packed

BED = Bed(wide_mm=600.0, high_mm=400.0, margin_mm=5.0)


def blank(number: int, wide: float, high: float, *, fixed: bool = False) -> Blank:
    return Blank(part=f"p{number}", copy=1, size_mm=(wide, high), turned_deg=0.0, fixed=fixed)


def ends(spot) -> tuple[float, float, float, float]:
    wide, high = spot.blank.size_mm[::-1] if spot.quarter else spot.blank.size_mm
    x, y = spot.at_mm
    return x, y, x + wide, y + high


SIDES = st.floats(min_value=3.0, max_value=650.0)
BLANKS = st.lists(st.tuples(SIDES, SIDES, st.booleans()), max_size=14)


@settings(max_examples=25)
@given(sizes=BLANKS, margin=st.sampled_from([0.0, 5.0, 12.3]))
def test_blanks_keep_their_margin_and_none_is_lost(sizes, margin):
    bed = Bed(wide_mm=600.0, high_mm=400.0, margin_mm=margin)
    blanks = [blank(n, wide, high, fixed=fixed) for n, (wide, high, fixed) in enumerate(sizes)]
    found = packed(blanks, bed)
    laid = [spot.blank for spots in found.beds for spot in spots]
    assert sorted(b.part for b in (*laid, *found.too_large)) == sorted(b.part for b in blanks)
    for spots in found.beds:
        assert spots
        for spot in spots:
            left, top, right, foot = ends(spot)
            assert min(left, top) >= margin - 1e-6
            assert right <= bed.wide_mm - margin + 1e-6
            assert foot <= bed.high_mm - margin + 1e-6
            assert not (spot.quarter and spot.blank.fixed)
        for one, other in combinations(map(ends, spots), 2):
            apart_x = max(one[0], other[0]) - min(one[2], other[2])
            apart_y = max(one[1], other[1]) - min(one[3], other[3])
            assert max(apart_x, apart_y) >= margin - 1e-6


@pytest.mark.parametrize(
    ("wide", "high", "fixed", "holds"),
    [
        (590.0, 390.0, True, True),
        (590.2, 390.0, True, False),
        (390.0, 590.0, False, True),
        (390.0, 590.0, True, False),
    ],
)
def test_what_a_bed_holds_goes_to_its_margin_and_no_further(wide, high, fixed, holds):
    found = packed([blank(0, wide, high, fixed=fixed)], BED)
    assert (len(found.beds), len(found.too_large)) == ((1, 0) if holds else (0, 1))


def test_what_fills_a_bed_exactly_takes_one():
    # 5 × 3 squares of 113 mm with 5 mm between them: 5 × 118 + 5 = 595 mm along, 359 mm across.
    assert len(packed([blank(n, 113.0, 113.0) for n in range(15)], BED).beds) == 1


def test_more_than_a_bed_holds_goes_on_the_next():
    # Two of 300 mm do not fit beside each other in 600 mm less three margins.
    assert len(packed([blank(n, 300.0, 390.0, fixed=True) for n in range(3)], BED).beds) == 3


def test_three_hundred_blanks_are_laid_in_a_moment():
    blanks = [blank(n, 20.0 + n % 37, 15.0 + n % 23) for n in range(300)]
    began = perf_counter()
    found = packed(blanks, BED)
    assert perf_counter() - began < 10.0
    assert sum(map(len, found.beds)) == 300
