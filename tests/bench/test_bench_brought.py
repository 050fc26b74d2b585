"""How long a drawing of 300 parts takes from its file to shapes, and one of 50,000 lines.

Goals on 2 cores: 300 parts with 3,000 holes within 3 s, from SVG and DXF alike, whether holes are
circles or lines; 50,000 loose lines within 20 s. The baseline, in the same run: the tree of the
XML alone, without a look at it. The table is printed with ``pytest -s``.
"""

from xml.etree.ElementTree import fromstring

import pytest
from bench.stopwatch import busy_s
from files.loose.messy import (
    as_dxf,
    as_polygon,
    as_svg,
    doubled,
    in_pieces,
    in_segments,
    lantern_plates,
    plain,
    seeded,
)

from armorplan.files.loose.reading import read_loose
from armorplan.geometry.brought.model import ShapeKind
from armorplan.geometry.brought.sorting import sorted_out, with_kinds

pytestmark = pytest.mark.bench

LARGE_S, LINES_S, AGAIN_S = 3.0, 20.0, 0.5
PLATES = lantern_plates(seeded(5), 300)
HEAD = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="4000mm" height="4000mm" '
    'viewBox="0 0 4000 4000">'
)


def took(folder, name, data):
    """Return the seconds of reading and of sorting, and what came of it."""
    path = folder / name
    path.write_bytes(data)
    made = []
    read_s = busy_s(lambda: made.append(read_loose(path)))
    sort_s = busy_s(lambda: made.append(sorted_out(made[0], mm_each=made[0].unit.mm_each)))
    return read_s, sort_s, made[1]


def say(capsys, name, seconds, base_s):
    with capsys.disabled():
        read_s, sort_s = seconds
        print(  # noqa: T201 - the table that is asked for
            f"\n  {name:32} read {read_s:5.2f} s  sorted {sort_s:5.2f} s  "
            f"{(read_s + sort_s) / base_s:6.1f} × the bare tree"
        )


def test_three_hundred_parts(tmp_path, capsys):
    circles, lines = plain(PLATES), plain(PLATES, as_polygon(24))
    svg = as_svg(circles, head=HEAD).encode()
    base_s = busy_s(lambda: fromstring(svg))  # noqa: S314 - written above
    cases = {
        "300.svg, holes as circles": ("a.svg", svg),
        "300.svg, holes as polygons": ("b.svg", as_svg(lines, head=HEAD).encode()),
        "300.dxf": ("c.dxf", as_dxf(circles)),
    }
    for name, (file, data) in cases.items():
        read_s, sort_s, found = took(tmp_path, file, data)
        say(capsys, name, (read_s, sort_s), base_s)
        assert sum(s.kind is ShapeKind.PART for s in found.shapes) == len(PLATES)
        assert read_s + sort_s <= LARGE_S
    again_s = busy_s(lambda: with_kinds(found, {found.shapes[0].key: ShapeKind.FRAME}))
    say(capsys, "one kind said otherwise", (0.0, again_s), base_s)
    assert again_s <= AGAIN_S


def test_fifty_thousand_lines(tmp_path, capsys):
    random = seeded(6)
    exploded = in_segments(plain(PLATES, as_polygon(16)))
    exploded.lines = exploded.lines[:50_000]
    messy = in_pieces(doubled(plain(PLATES, as_polygon(24)), random), random)
    cases = {
        f"{len(exploded.lines)} lines.svg": ("a.svg", as_svg(exploded, head=HEAD).encode()),
        f"{len(exploded.lines)} lines.dxf": ("b.dxf", as_dxf(exploded)),
        f"{len(messy.lines)} pieces, doubled.svg": ("c.svg", as_svg(messy, head=HEAD).encode()),
    }
    base_s = busy_s(lambda: fromstring(cases[next(iter(cases))][1]))  # noqa: S314
    for name, (file, data) in cases.items():
        read_s, sort_s, _ = took(tmp_path, file, data)
        say(capsys, name, (read_s, sort_s), base_s)
        assert read_s + sort_s <= LINES_S
