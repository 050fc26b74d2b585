"""Pages drawn for a printer that is off, measured in the pages' own content.

What such a printer lays on paper is the content times how long its bars came out, so a length in
the content times that has to be what it is meant to be (72 units to the inch: ISO 32000-1, 8.3.2.3).
"""

import pytest
from sheets.sheet_scene import PLATE, drawn_paths, full_part, lines_of, pages_of, sheet

from armorplan.sheets.bench_sheet import bench_sheet_pdf
from armorplan.sheets.bench_sheet_ink import A4, LETTER
from armorplan.sheets.printer_scale import PrinterScale, bar_question

OFF = PrinterScale(along_mm=98.7, up_mm=99.1, printer="Harbour office")
WIDE = PrinterScale(along_mm=103.0, up_mm=101.5)


def mock_up(scale, paper=A4, parts=None):
    made = sheet(
        chapters=(), needs=(), days=(), full=parts or (full_part(),), parts_only=True, scale=scale
    )
    printed = bench_sheet_pdf(made, paper)
    pages = pages_of(printed.data)
    assert len(pages) == printed.pages
    return pages


def on_paper(point, scale):
    return point[0] * scale.along_mm / 100, point[1] * scale.up_mm / 100


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
@pytest.mark.parametrize("scale", [OFF, WIDE], ids=["small", "large"])
def test_the_bars_come_out_at_100_mm_on_that_printer(scale, paper):
    for page in mock_up(scale, paper):
        spans = [on_paper((abs(b[0] - a[0]), abs(b[1] - a[1])), scale) for a, b in lines_of(page)]
        assert any(x == pytest.approx(100, abs=0.01) and y < 0.01 for x, y in spans)
        assert any(y == pytest.approx(100, abs=0.01) and x < 0.01 for x, y in spans)


def test_a_part_comes_out_as_it_is_both_ways():
    _, page = mock_up(OFF)
    rings = [[on_paper(point, OFF) for point in path] for path in drawn_paths(page)]
    meant = (max(x for x, _ in PLATE), max(y for _, y in PLATE))

    def size(ring):
        xs, ys = zip(*ring, strict=True)
        return max(xs) - min(xs), max(ys) - min(ys)

    assert any(size(ring) == pytest.approx(meant, abs=0.01) for ring in rings if len(ring) >= 5)


def test_nothing_leaves_the_paper_where_it_is_drawn_larger():
    for page in mock_up(OFF):
        points = [point for line in lines_of(page) for point in line]
        assert min(x for x, _ in points) >= 0
        assert max(x for x, _ in points) <= A4.wide_mm
        assert max(y for _, y in points) <= A4.high_mm


def test_the_pages_say_for_which_printer_they_are():
    first, page = (page.extract_text() for page in mock_up(OFF))
    assert "Harbour office" in first
    assert "98.7 mm along, 99.1 mm up" in first
    assert "98.7 mm along, 99.1 mm up" in page
    assert "mm along" not in mock_up(PrinterScale())[1].extract_text()


def test_the_mock_up_is_the_parts_alone():
    pages = mock_up(PrinterScale())
    assert len(pages) == 2
    assert "Parts at full size" in pages[0].extract_text()
    assert "Page 1 of 2" in pages[0].extract_text()
    whole = pages_of(bench_sheet_pdf(sheet(full=(full_part(),)), A4).data)
    assert len(whole) > len(pages)


@pytest.mark.parametrize(
    ("mm", "said"),
    [
        (98.7, ""),
        (90.0, ""),
        (110.0, ""),
        (3.9, "99.1"),
        (9.87, "98.7"),
        (89.9, "90 to 110 mm"),
        (120.0, "100 %"),
    ],
)
def test_a_length_that_no_printer_makes_of_100_mm_is_asked_about(mm, said):
    asked = bar_question(mm)
    assert (said in asked) if said else not asked
