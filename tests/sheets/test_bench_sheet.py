"""The bench sheet: all of it can be found as text, fonts lie in the file, pages hold together."""

from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sheets.sheet_scene import pages_of, run, scene, sheet

from armorplan.sheets.bench_sheet import bench_sheet_pdf
from armorplan.sheets.bench_sheet_flow import FOOT_MM, TOP_MM, Bit, Flow, high_of
from armorplan.sheets.bench_sheet_ink import A4, LETTER
from armorplan.sheets.bench_sheet_letters import (
    BODY,
    NO_LETTER,
    fitted,
    not_printable,
    printable,
    wide_mm,
    wrapped,
)
from armorplan.sheets.bench_sheet_model import Chapter
from armorplan.sheets.bench_sheet_runs import run_bits, with_reasons


def text_of(data):
    return "\n".join(page.extract_text() for page in pages_of(data))


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_what_is_said_can_be_found_as_text_on_paper_of_its_size(paper):
    printed = bench_sheet_pdf(sheet(), paper)
    pages = pages_of(printed.data)
    assert len(pages) == printed.pages
    box = pages[0].mediabox
    assert float(box.width) * 25.4 / 72 == pytest.approx(paper.wide_mm, abs=0.1)
    assert float(box.height) * 25.4 / 72 == pytest.approx(paper.high_mm, abs=0.1)
    text = text_of(printed.data)
    for words in (
        "Cop of the lantern watch",
        "Version 3",
        "costume, not protective equipment",
        "Rivet 2",
        "steps 1 to 3",
        "Mon 30 Nov 09:00 – 09:12",
        "With: setter and anvil",
        "Wear eye protection.",
        "Tubular rivet, post 9.5 mm",
        "3.3 mm lame",
        "The dry fit is the last point",
        "Lay it out first, without pins",
        "No gap.",
        "An offcut.",
        f"Page {printed.pages} of {printed.pages}",
    ):
        assert words in text


def test_every_font_lies_in_the_file():
    for page in pages_of(bench_sheet_pdf(sheet(), A4).data):
        fonts = {
            font.get_object()["/BaseFont"]: font.get_object()
            for font in page["/Resources"]["/Font"].values()
        }
        used = {name: font for name, font in fonts.items() if "DejaVu" in name}
        assert used
        assert all("/FontFile2" in font["/FontDescriptor"] for font in used.values())


def test_the_contents_lead_to_the_pages_they_name():
    printed = bench_sheet_pdf(sheet(), A4)
    cover, *_ = pages = pages_of(printed.data)
    text = cover.extract_text()
    links = [a for a in cover["/Annots"] if a.get_object()["/Subtype"] == "/Link"]
    assert len(links) == 3
    for title in ("What it takes", "Joined for good", "Day by day"):
        number = next(int(text[at:].split()[0]) for at in [text.index(title) + len(title)])
        assert title in pages[number - 1].extract_text()


def test_long_runs_go_on_over_pages_and_lose_no_line():
    runs = tuple(run(at * 40 + 1, title=f"Row {at}", lines=40) for at in range(5))
    made = sheet(chapters=(Chapter(title="Joined", intro="", runs=runs),))
    text = text_of(bench_sheet_pdf(made, A4).data)
    assert [f"Rivet {number}\n" in text for number in range(1, 201)] == [True] * 200


def chapter(*runs, title="Joined"):
    return Chapter(title=title, intro="", runs=runs)


def test_what_goes_on_on_another_page_says_what_it_is():
    made = sheet(chapters=(chapter(run(1, title="Left row", lines=90)),), needs=(), days=())
    first, *others = [page.extract_text() for page in pages_of(bench_sheet_pdf(made, A4).data)[1:]]
    assert "Left row, goes on" not in first
    assert len(others) == 1
    assert "Left row, goes on" in others[0]


@given(st.floats(5, 240))
def test_no_line_or_two_of_a_row_stray_to_another_page(above):
    row = run_bits(run(1, lines=7, scene=scene()), 120.0)
    flow = Flow(A4)
    flow.new_page()
    flow.put(bits(above))
    flow.put(row)
    counts = Counter(flow.page_of(line) for line in row[-8:-1])
    assert min(counts.values()) >= 3


def test_a_picture_is_smaller_where_its_run_stays_whole_then():
    made = [run_bits(run(1, scene=scene()), 120.0, low=low) for low in (False, True)]
    high, low = map(high_of, made)
    flow = Flow(A4)
    flow.new_page()
    flow.put(bits(flow.room_mm - (high + low) / 2))
    assert not flow.takes(made[0])
    assert flow.takes(made[1])


def test_the_head_of_a_page_names_what_goes_on_and_what_begins():
    chapters = chapter(run(1, lines=60)), chapter(run(61), title="Packed")
    made = sheet(chapters=chapters, needs=(), days=())
    _, first, second = (page.extract_text() for page in pages_of(bench_sheet_pdf(made, A4).data))
    assert "Joined · Packed" not in first
    assert "Joined · Packed" in second


def test_each_box_of_a_run_tells_when_it_begins():
    dated = run(1, when="Mon 30 Nov 09:00")
    lines = tuple(replace(line, begins=f"09:0{at}") for at, line in enumerate(dated.lines))
    made = sheet(chapters=(chapter(replace(dated, lines=lines)),))
    text = text_of(bench_sheet_pdf(made, A4).data)
    assert all(f"09:0{at}" in text for at in range(3))


def test_more_reasons_than_work_lose_none():
    reasons = tuple(f"Reason {at} " + "is told at length " * 14 for at in range(40))
    made = sheet(chapters=(Chapter(title="Joined", intro="", runs=(run(1, reasons=reasons),)),))
    text = text_of(bench_sheet_pdf(made, A4).data)
    assert all(f"Reason {at}" in text for at in range(40))


@given(st.integers(1, 12), st.lists(st.integers(1, 40), max_size=8))
def test_reasons_leave_no_hole_under_short_work(lines, lengths):
    reasons = tuple("is told " * words for words in lengths)
    made = run(1, lines=lines, reasons=reasons)
    work = run_bits(made, 120.0)
    bits, margin = with_reasons(made, work, 120.0)
    assert high_of(margin) <= high_of(work) + 6.0
    assert high_of(bits) >= high_of(work)
    shown = len(margin) // 2 + (len(bits) - len(work)) // 2
    assert shown == len(reasons)


def test_strange_letters_are_printed_or_told():
    title = "Πλάκα, плашка, ośmiornica \N{SNOWMAN}\N{CJK UNIFIED IDEOGRAPH-4E00}\u202e\x07"
    printed = bench_sheet_pdf(sheet(title=title), A4)
    assert printed.missing == "\N{CJK UNIFIED IDEOGRAPH-4E00}"
    text = text_of(printed.data)
    assert "Πλάκα, плашка, ośmiornica" in text
    assert f"\N{SNOWMAN}{NO_LETTER}" in text
    assert printable("a\nb\tc") == "a b c"
    assert printable("e\N{COMBINING ACUTE ACCENT}") == "é"
    assert not_printable("plain") == frozenset()


@given(st.text(max_size=200), st.floats(8, 120))
def test_no_line_is_wider_than_its_room_and_no_letter_is_lost(text, room):
    lines = wrapped(text, BODY, room)
    one_letter = max((wide_mm(x, BODY) for x in printable(text)), default=0)
    assert all(wide_mm(line, BODY) <= max(room, one_letter) + 1e-6 for line in lines)
    assert "".join(lines).replace(" ", "") == printable(text).replace(" ", "")
    assert wide_mm(fitted(text, BODY, room), BODY) <= room + 1e-6


def bits(*heights, keep=False):
    return [Bit(high_mm=h, draw=lambda _ink, _at: None, keep=keep) for h in heights]


heights = st.lists(st.tuples(st.floats(1, 90), st.booleans()), min_size=1, max_size=40)


@given(st.lists(heights, min_size=1, max_size=4), st.lists(st.floats(2, 60), max_size=12))
def test_all_bits_are_laid_within_the_pages_in_their_order(blocks, margin):
    flow = Flow(A4)
    flow.new_page()
    every = []
    for block in blocks:
        made = [
            Bit(high_mm=h, draw=lambda _ink, _at: None, keep=keep and at % 3 == 0)
            for at, (h, keep) in enumerate(block)
        ]
        beside = bits(*margin)
        flow.put(made, beside)
        every += [*made, *beside]
    laid = [(bit, at) for page in flow.pages for bit, at in page.placed]
    assert sorted(map(id, every)) == sorted(id(bit) for bit, _ in laid)
    for bit, (_, y) in laid:
        assert TOP_MM - 1e-6 <= y <= A4.high_mm - FOOT_MM - bit.high_mm + 1e-6
    for page in flow.pages:
        for x in {at[0] for _, at in page.placed}:
            column = [(at[1], bit.high_mm) for bit, at in page.placed if at[0] == x]
            assert all(y + high <= below + 1e-6 for (y, high), (below, _) in pairwise(column))


def test_a_heading_stays_with_what_it_heads():
    flow = Flow(A4)
    flow.new_page()
    flow.put(bits(200.0))
    head, first = bits(20.0, keep=True), bits(50.0)
    flow.put([*head, *first])
    assert flow.page_of(head[0]) == flow.page_of(first[0]) == 2


def test_a_sheet_without_parts_and_steps_is_still_a_sheet():
    bare = sheet(chapters=(), needs=(), days=(), cover=replace(sheet().cover, parts=()))
    assert bench_sheet_pdf(bare, A4).pages == 1
