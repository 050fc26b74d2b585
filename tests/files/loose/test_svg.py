"""What of an SVG is read, and how it is told what is not."""

import gzip
from math import dist

import pytest
from files.loose.reading_kit import HEAD, fault, loose

from armorplan.files.loose import stoppable
from armorplan.files.loose.looks import is_numbered
from armorplan.kernel.errors import UnreadableError

LINE = 'stroke="#f00" fill="none"'


def one(folder, body, **more):
    (stroke,) = loose(folder, body, **more).strokes
    return stroke


def test_a_path_of_several_lines_is_several_strokes(tmp_path):
    found = loose(tmp_path, '<path id="wing" d="M0 0h10v10zM20 0h5M40 0l5 5 5-5z"/>').strokes
    assert [s.key for s in found] == ["wing", "wing.2", "wing.3"]
    assert [s.closed for s in found] == [True, False, True]
    assert found[1].points == ((20.0, 0.0), (25.0, 0.0))


@pytest.mark.parametrize(
    ("body", "closed", "corners"),
    [
        ('<line x1="1" y1="2" x2="3" y2="4"/>', False, 2),
        ('<polyline points="0,0 10,0 10,10"/>', False, 3),
        ('<polyline points="0,0 10,0 10,10 0,0"/>', True, 3),
        ('<polygon points="0,0 10,0 10,10"/>', True, 3),
        ('<rect width="10" height="5"/>', True, 4),
    ],
)
def test_every_kind_of_shape(tmp_path, body, closed, corners):
    stroke = one(tmp_path, body)
    assert stroke.closed is closed
    assert len(stroke.points) == corners


def test_circles_and_ellipses(tmp_path):
    found = loose(
        tmp_path,
        '<circle cx="5" cy="6" r="2"/><ellipse cx="5" cy="6" rx="4" ry="4"/>'
        '<ellipse cx="50" cy="50" rx="20" ry="10"/>'
        '<circle r="2" transform="translate(9 9) scale(1 2)"/>',
    ).strokes
    assert found[0].circle == ((5.0, 6.0), 4.0)
    assert found[1].circle == ((5.0, 6.0), 8.0)
    assert found[2].circle is found[3].circle is None
    assert all(dist(p, (5, 6)) == pytest.approx(2) for p in found[0].points)


def test_groups_uses_and_transforms(tmp_path):
    found = loose(
        tmp_path,
        '<defs><g id="pair"><circle cx="1" r="1"/><circle id="b" cx="4" r="1"/></g></defs>'
        '<g transform="translate(10 0)"><g transform="scale(2)"><use id="u" href="#pair" y="3"/>'
        '</g></g><use xlink:href="#b" x="90"/>',
    ).strokes
    assert [s.circle[0] for s in found] == [(12.0, 6.0), (18.0, 6.0), (94.0, 0.0)]
    assert len({s.key for s in found}) == 3


def test_layers_labels_and_groups(tmp_path):
    found = loose(
        tmp_path,
        '<g ink:groupmode="layer" ink:label="Größen" id="layer1"><g ink:label="elbow">'
        '<path id="path12" ink:label="top lame" d="M0 0h9v9z"/><path id="cop" d="M0 0h9v9z"/>'
        '</g></g><g id="Engrave"><path id="path7-3" d="M0 0h9v9z"><title>a rope</title></path></g>',
    ).strokes
    assert [s.layer for s in found] == ["Größen", "Größen", "Engrave"]
    assert [s.label for s in found] == ["top lame", "cop", "a rope"]
    assert [s.group for s in found] == ["elbow", "elbow", ""]


@pytest.mark.parametrize(
    ("word", "counted"),
    [
        ("path1234", True),
        ("g12-3", True),
        ("rect_7", True),
        ("Layer 1", True),
        ("path7-3-path2", True),
        ("left wing", False),
        ("lame 3", False),
        ("grip", False),
        ("hole_left_2", False),
    ],
)
def test_a_name_that_a_program_counted_is_none(word, counted):
    assert is_numbered(word) is counted


def test_one_group_round_everything_is_no_layer(tmp_path):
    found = loose(
        tmp_path,
        '<g id="all"><g id="cut"><rect width="9" height="9"/></g>'
        '<g id="mark"><rect width="9" height="9"/></g></g>',
    ).strokes
    assert [s.layer for s in found] == ["cut", "mark"]


def test_colours_by_attribute_style_class_and_group(tmp_path):
    found = loose(
        tmp_path,
        "<style>.cut, .x{stroke:#F00} .x.y{stroke:rgb(0, 0,255)} #z{stroke:green}</style>"
        '<path class="cut" d="M0 0h9"/><path class="x y" d="M0 0h9"/>'
        '<path class="cut" id="z" d="M0 0h9"/><path class="cut" style="stroke: Black" d="M0 0h9"/>'
        '<g stroke="#0a0"><path d="M0 0h9"/></g><path fill="#123456" d="M0 0h9"/>'
        '<g color="red"><path stroke="currentColor" d="M0 0h9"/></g>',
    ).strokes
    assert [s.colour for s in found] == [
        "#ff0000", "#0000ff", "#008000", "#000000", "#00aa00", "#123456", "#ff0000",
    ]  # fmt: skip


def test_style_sheets_of_any_length_and_with_what_is_not_closed(tmp_path):
    colours = [f"#{n:06x}" for n in range(600)]
    rules = "".join(f".c{n}{{stroke:{colour}}}" for n, colour in enumerate(colours))
    noise = "/* ,{ */ @media all { rect.c1.c2{stroke:#00beef} } " + "a " * 50_000 + "/*" * 50_000
    body = "".join(f'<rect class="c{n}" width="9" height="9"/>' for n in range(600))
    body += '<rect class="c2 c1" width="9" height="9"/><path class="c1 c2" d="M0 0h9"/>'
    found = loose(tmp_path, f"<style>{rules}{noise}</style>{body}").strokes
    assert [s.colour for s in found] == [*colours, "#00beef", "#000002"]


@pytest.mark.parametrize(
    "origin", ['transform-origin="10 10"', 'style="transform-origin: 10px 10px"']
)
def test_a_transform_turns_about_its_origin(tmp_path, origin):
    body = f'<rect x="10" y="10" width="10" height="5" transform="rotate(90)" {origin}/>'
    (stroke,) = loose(tmp_path, body).strokes
    xs, ys = zip(*stroke.points, strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == pytest.approx((5, 10, 10, 20))


def test_corners_of_circles_count_as_others_do(tmp_path, monkeypatch):
    body = '<circle r="900"/>' * 20
    assert len(loose(tmp_path, body).strokes) == 20
    monkeypatch.setattr(stoppable, "MAX_CORNERS", 500)
    with pytest.raises(UnreadableError) as error:
        loose(tmp_path, body)
    assert fault(error).code == "drawing-limit"


def test_what_is_hidden_or_unseen_is_told_and_left_out(tmp_path):
    found = loose(
        tmp_path,
        "<style>.no{display:none}</style>"
        '<rect width="9" height="9"/><g style="display:none"><rect width="9" height="9"/></g>'
        '<rect class="no" width="9" height="9"/><rect visibility="hidden" width="9" height="9"/>'
        '<rect fill="none" width="9" height="9"/><image href="a.png" width="9" height="9"/>'
        "<clipPath><rect width='9' height='9'/></clipPath>",
    )
    assert len(found.strokes) == 1
    told = {f.code: f.text for f in found.findings}
    assert told["hidden"].endswith(": 2. Not read.")
    assert told["unseen"].endswith(": 2. Not read.")
    assert told["picture-inside"].endswith(": 1. Not read.")


def test_what_cannot_be_read_is_told_with_its_line(tmp_path):
    found = loose(
        tmp_path,
        '<rect width="9" height="9"/>\n<path id="bad" d="M0 0 L nan 4"/>\n'
        '<circle id="inf" r="1e999"/><use id="out" href="other.svg#wing"/>'
        '<use id="loop" href="#loop"/><rect transform="scale(x)" width="9" height="9"/>',
    )
    assert len(found.strokes) == 1
    told = {f.place.key: f for f in found.findings if f.place}
    assert told["bad"].place.line == 2
    assert {told[key].code for key in ("bad", "inf", "out", "loop")} == {
        "bad-path", "not-a-number", "use-of-nothing", "use-of-itself",
    }  # fmt: skip
    assert all(f.text.endswith("It is left out.") for f in found.findings)


def test_what_a_scale_of_zero_leaves_is_told(tmp_path):
    found = loose(
        tmp_path,
        '<rect width="9" height="9"/><g transform="scale(0)"><circle r="2"/><path d="M0 0h9v9z"/>'
        '</g><path d="M4 4"/><rect width="0" height="4"/>',
    )
    assert len(found.strokes) == 1
    (told,) = found.findings
    assert told.text == "Shapes without any length: 4. Not read."


def test_many_faults_are_counted(tmp_path):
    bad = "".join(f'<circle id="c{n}" r="nan"/>' for n in range(40))
    found = loose(tmp_path, f'<rect width="9" height="9"/>{bad}')
    assert len(found.findings) == 6
    assert sum("35 more things" in f.text for f in found.findings) == 1


class TestLettering:
    def _texts(self, tmp_path, body):
        found = loose(tmp_path, f'<rect width="9" height="9"/>{body}')
        return [(t.text, t.at, t.height) for t in found.lettering]

    def test_a_text_with_its_place_and_height(self, tmp_path):
        assert self._texts(
            tmp_path,
            '<g transform="translate(10 5) scale(2)"><text x="3" y="4" font-size="5">top '
            "lame</text></g>",
        ) == [("top lame", (16.0, 13.0), 10.0)]

    def test_lines_and_pieces_of_a_text(self, tmp_path):
        (found,) = self._texts(
            tmp_path,
            '<text style="font-size:4px"><tspan x="1" y="2">upper<tspan>most</tspan> lame</tspan>'
            '<tspan x="1" dy="5">cut 2</tspan></text>',
        )
        assert found == ("uppermost lame cut 2", (1.0, 2.0), 4.0)

    def test_a_text_along_a_path_stands_where_the_path_begins(self, tmp_path):
        (found,) = self._texts(
            tmp_path,
            '<defs><path id="way" d="M 30,40 C 40 30 50 30 60 40"/></defs>'
            '<text font-size="4"><textPath xlink:href="#way">left rim</textPath></text>',
        )
        assert found == ("left rim", (30.0, 40.0), 4.0)

    def test_texts_of_other_letters_and_an_empty_one(self, tmp_path):
        found = self._texts(tmp_path, '<text x="1" y="1">肘 ellbøw Щ</text><text> </text>')
        assert [text for text, _, _ in found] == ["肘 ellbøw Щ"]


class TestEncodings:
    BODY = '<text>Größe</text><rect width="9" height="9"/></svg>'

    @pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "iso-8859-1", "cp1252"])
    def test_declared(self, tmp_path, encoding):
        named = "utf-8" if encoding == "utf-8-sig" else encoding
        text = f'<?xml version="1.0" encoding="{named}"?>{HEAD}{self.BODY}'
        found = loose(tmp_path, text.encode(encoding))
        assert found.lettering[0].text == "Größe"

    @pytest.mark.parametrize("encoding", ["utf-16-le", "utf-16-be"])
    def test_utf16_without_its_mark(self, tmp_path, encoding):
        assert loose(tmp_path, f"{HEAD}{self.BODY}".encode(encoding)).lettering[0].text == "Größe"

    def test_not_declared_and_not_utf8(self, tmp_path):
        found = loose(tmp_path, f"{HEAD}{self.BODY}".encode("cp1252"))
        assert found.lettering[0].text == "Größe"

    def test_packed(self, tmp_path):
        found = loose(tmp_path, gzip.compress(f"{HEAD}{self.BODY}".encode()), name="watch.svgz")
        assert len(found.strokes) == 1


def test_lengths_with_units_and_shares_of_the_page(tmp_path):
    head = '<svg xmlns="http://www.w3.org/2000/svg" width="20cm" height="10cm">'
    found = loose(
        tmp_path,
        '<rect width="100%" height="50%"/><circle cx="10mm" cy="1in" r="2mm"/>'
        '<rect x="5mm" width="30mm" height="20mm"/>',
        head=head,
    )
    page, circle, _ = found.strokes
    assert found.unit.mm_each == pytest.approx(25.4 / 96)
    wide = max(x for x, _ in page.points)
    assert wide * found.unit.mm_each == pytest.approx(200.0)
    (x, y), across = circle.circle
    assert [v * found.unit.mm_each for v in (x, y, across)] == pytest.approx([10.0, 25.4, 4.0])
