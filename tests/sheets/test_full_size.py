"""Parts at full size, measured in the pages' own content: the bar, a known part, tiles that join.

The user space of a PDF has 72 units to the inch (ISO 32000-1, 8.3.2.3), and an inch is 25.4 mm
exactly; so a length in the content tells what a printer at 100 % lays on paper.
"""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box
from shapely.ops import unary_union
from sheets.sheet_scene import (
    PLATE,
    STRAP,
    drawn_paths,
    full_part,
    has_ring,
    lines_of,
    pages_of,
    sheet,
)

from armorplan.sheets.bench_sheet import FULL, bench_sheet_pdf
from armorplan.sheets.bench_sheet_ink import A4, LETTER
from armorplan.sheets.bench_sheet_model import FullLine
from armorplan.sheets.full_size_joins import crosses
from armorplan.sheets.full_size_marks import window_of
from armorplan.sheets.full_size_pages import label_mm
from armorplan.sheets.full_size_parts import clear_spot, crossing, roomiest
from armorplan.sheets.full_size_tiles import (
    LABEL_MM,
    MOST_TILES,
    OVERLAP_MM,
    Placed,
    packed,
    tile_name,
    tiled,
)


def full_pages(parts, paper):
    bare = sheet(chapters=(), needs=(), days=(), full=tuple(parts))
    _, *pages = pages_of(bench_sheet_pdf(bare, paper).data)
    texts = [page.extract_text() for page in pages]
    assert FULL in texts[0]
    return pages, texts


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_each_page_has_a_bar_of_100_mm_along_and_one_up(paper):
    pages, texts = full_pages((full_part(), full_part(STRAP, name="strap")), paper)
    assert len(pages) == 5
    for page, text in zip(pages, texts, strict=True):
        assert "100 mm: measure it before you cut" in text
        spans = [(abs(b[0] - a[0]), abs(b[1] - a[1])) for a, b in lines_of(page)]
        assert any(x == pytest.approx(100, abs=0.01) and y < 0.01 for x, y in spans)
        assert any(y == pytest.approx(100, abs=0.01) and x < 0.01 for x, y in spans)


def test_a_known_part_and_its_hole_measure_what_they_are():
    (_, page), _ = full_pages((full_part(),), A4)
    assert has_ring(page, PLATE)
    rounds = [path for path in drawn_paths(page) if len(path) > 8]
    across = [max(x for x, _ in path) - min(x for x, _ in path) for path in rounds]
    assert any(wide == pytest.approx(4.0, abs=0.02) for wide in across)


def test_left_and_right_are_told_apart_and_each_on_its_own_page():
    right = tuple((-x, y) for x, y in PLATE)
    parts = (full_part(side="left"), full_part(right, side="right", hole=(-10.0, 10.0)))
    (_, left_page, right_page), (_, left_text, right_text) = full_pages(parts, A4)
    assert has_ring(left_page, PLATE)
    assert not has_ring(left_page, right)
    assert has_ring(right_page, right)
    assert not has_ring(right_page, PLATE)
    assert "plate, left" in left_text
    assert "plate, right" in right_text


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
@pytest.mark.parametrize("size", [(640, 30), (500, 520), (30, 900), (1200, 700)])
def test_tiles_hold_the_whole_part_and_share_strips(paper, size):
    wide, high = size
    ring = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    window = window_of(paper)
    tiling = tiled(full_part(ring), window)
    (left, top), (across, down) = window.corner, window.size
    seen = [
        box(
            left - t.placed.at[0],
            top - t.placed.at[1],
            left - t.placed.at[0] + across,
            top - t.placed.at[1] + down,
        )
        for t in tiling.tiles
    ]
    lies = tiling.tiles[0].placed.size
    assert unary_union(seen).covers(box(0, 0, *lies))
    named = {tile.name: number for number, tile in enumerate(tiling.tiles)}
    for tile, mine in zip(tiling.tiles, seen, strict=True):
        for other in filter(None, tile.neighbours):
            shared = mine.intersection(seen[named[other]])
            x1, y1, x2, y2 = shared.bounds
            assert min(x2 - x1, y2 - y1) == pytest.approx(OVERLAP_MM)


def test_crosses_of_neighbours_are_the_same_spots_of_the_part():
    window = window_of(A4)
    tiling = tiled(full_part(((0.0, 0.0), (500.0, 0.0), (500.0, 500.0), (0.0, 500.0))), window)
    spots = {
        tile.name: {
            (round(x - tile.placed.at[0], 6), round(y - tile.placed.at[1], 6))
            for x, y in crosses(tile, window)
        }
        for tile in tiling.tiles
    }
    for tile in tiling.tiles:
        for other in filter(None, tile.neighbours):
            assert len(spots[tile.name] & spots[other]) == 2


def test_each_tile_of_a_part_shows_it_at_full_size_and_says_what_it_joins():
    pages, texts = full_pages((full_part(STRAP, name="strap"),), A4)
    assert len(pages) == 1 + 3
    turned = tuple((y, -x) for x, y in STRAP)
    for page, text in zip(pages[1:], texts[1:], strict=True):
        assert has_ring(page, STRAP) or has_ring(page, turned)
        assert "joins" in text
    for text, name in zip(texts[1:], ("A1", "B1", "C1"), strict=True):
        assert f"strap: tile {name} of 3" in text
    assert "640 × 30 mm, 3 tiles" in texts[0]


def test_a_tile_that_would_be_empty_is_left_out():
    corner = ((0.0, 0.0), (700.0, 0.0), (700.0, 20.0), (20.0, 20.0), (20.0, 700.0), (0.0, 700.0))
    tiling = tiled(full_part(corner), window_of(A4))
    assert len(tiling.tiles) < tiling.rows * tiling.columns


def test_what_nobody_would_glue_together_is_told_and_not_tiled():
    huge = ((0.0, 0.0), (4200.0, 0.0), (4200.0, 3100.0), (0.0, 3100.0))
    assert tiled(full_part(huge), window_of(A4)) is None
    pages, texts = full_pages((full_part(huge, name="tent"),), A4)
    assert len(pages) == 1
    assert "4,200 × 3,100 mm: too large to be tiled" in texts[0].replace("\n", " ")
    assert MOST_TILES < 4200 * 3100 / (186 * 256)


sizes = st.tuples(st.floats(3, 180), st.floats(3, 240))


@given(st.lists(sizes, min_size=1, max_size=25))
def test_parts_on_a_page_lie_apart_within_it_each_once(drawn):
    window = window_of(A4)
    parts = [
        full_part(((0.0, 0.0), (w, 0.0), (w, h), (0.0, h)), name=str(at))
        for at, (w, h) in enumerate(drawn)
    ]
    found = packed(parts, window)
    assert not found.too_large
    assert sorted(one.part.name for page in found.pages for one in page) == sorted(
        part.name for part in parts
    )
    (left, top), (wide, high) = window.corner, window.size
    page_box = box(left, top, left + wide, top + high).buffer(1e-6)
    for page in found.pages:
        lying = [box(*one.at, one.at[0] + one.size[0], one.at[1] + one.size[1]) for one in page]
        assert all(page_box.covers(one) for one in lying)
        whole = unary_union(lying).area
        assert whole == pytest.approx(sum(one.area for one in lying))


LEATHER = "Vegetable-tanned strap leather, cut along the backbone (7–10 oz)"


def test_what_is_written_above_a_part_is_never_cut():
    narrow = ((0.0, 0.0), (20.0, 0.0), (20.0, 90.0), (0.0, 90.0))
    parts = [
        replace(full_part(narrow, name=f"narrow strap {at}"), words=("2.8 mm", LEATHER))
        for at in range(12)
    ]
    _, texts = full_pages(parts, A4)
    for text in texts[1:]:
        told = " ".join(text.split())
        assert told.count(LEATHER) == told.count("narrow strap") > 0


def test_what_is_written_above_a_part_has_room_of_its_own():
    narrow = ((0.0, 0.0), (20.0, 0.0), (20.0, 60.0), (0.0, 60.0))
    parts = [replace(full_part(narrow, name=str(at)), words=(LEATHER,)) for at in range(12)]
    for page in packed(parts, window_of(A4), label_mm).pages:
        lying = [
            box(one.at[0], one.at[1] - label_mm(one), one.at[0] + 20, one.at[1] + 60)
            for one in page
        ]
        assert label_mm(page[0]) > LABEL_MM
        assert min(one.bounds[1] for one in lying) >= window_of(A4).corner[1] - 1e-6
        assert unary_union(lying).area == pytest.approx(sum(one.area for one in lying))


def test_the_word_of_an_axis_lies_beside_the_holes():
    line = (0.0, 20.0), (120.0, 20.0)
    assert clear_spot(*line, ()) == (14.0, 20.0)
    x, _ = clear_spot(*line, (((16.0, 20.0), 2.0),))
    assert x - 13.0 >= 16.0 + 2.0
    everywhere = tuple(((at, 20.0), 2.0) for at in range(0, 120, 6))
    assert clear_spot(*line, everywhere) == (14.0, 20.0)


def test_a_long_part_is_turned_and_not_mirrored():
    part = full_part(tuple((x * 3.6, y) for x, y in PLATE))
    (page,) = packed((part,), window_of(A4)).pages
    one = page[0]
    assert one.turned
    lies = Polygon([one.place(point) for point in part.outline])
    assert lies.exterior.is_ccw == Polygon(part.outline).exterior.is_ccw
    # Up the page before, a quarter to the left after: as the corners were turned.
    a, b = one.place((0.0, 10.0)), one.place((0.0, 0.0))
    assert (b[0] - a[0], b[1] - a[1]) == pytest.approx((-10.0, 0.0))
    assert one.direction(90.0) == 180.0


def test_the_arrow_lies_where_no_hole_is():
    ring = ((0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (0.0, 40.0))
    part = full_part(ring, hole=(30.0, 20.0))
    spot = roomiest(part)
    assert Polygon(ring).contains(box(spot[0] - 5, spot[1] - 5, spot[0] + 5, spot[1] + 5))
    assert (spot[0] - 30) ** 2 + (spot[1] - 20) ** 2 > 8**2


def test_tiles_are_named_by_row_and_column():
    assert [tile_name(*spot) for spot in ((0, 0), (1, 0), (1, 2), (25, 0), (26, 1))] == [
        "A1",
        "B1",
        "B3",
        "Z1",
        "AA2",
    ]


def test_a_part_keeps_its_place_when_it_is_laid():
    part = full_part()
    laid = Placed(part=part, at=(20.0, 30.0))
    assert laid.place((10.0, 10.0)) == (30.0, 40.0)
    assert replace(laid, turned=True).size == (40.0, 60.0)


def test_an_axis_is_drawn_as_far_as_it_crosses_the_part():
    line = FullLine(ends=((-100.0, 20.0), (300.0, 20.0)), label="fold here")
    begin, end = crossing(full_part(), line)
    assert begin == pytest.approx((-2.7, 20.0))
    assert end == pytest.approx((62.7, 20.0))
    away = FullLine(ends=((-100.0, 90.0), (300.0, 90.0)), label="fold here")
    assert crossing(full_part(), away) is None
    assert crossing(full_part(), FullLine(ends=((5.0, 5.0), (5.0, 5.0)), label="")) is None
