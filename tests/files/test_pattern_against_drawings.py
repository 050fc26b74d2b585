import pytest
from files.small_cuff import (
    CUFF_SVG,
    CUFF_TOML,
    SHELF,
    only,
    read_texts,
    swapped,
    with_svg,
)

from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PATTERN_FILE, from_texts
from armorplan.kernel.findings import Severity


class TestDrawings:
    @pytest.mark.parametrize(
        ("old", "new", "code", "says"),
        [
            ('V 30 H 120 Z"', 'V 30 H 120 V 11.3"', "open-path", "open by 1.3 mm"),
            ('H 190 V 30 H 120 Z"', 'L 190 30 V 10 L 120 30 Z"', "crosses-itself", "crosses"),
            ('H 190 V 30 H 120 Z"', 'H 190 V NaN Z"', "bad-path", "strap_shape"),
            ('<circle id="loop_2" cx="175"', '<circle id="loop_2" cx="1e999"', "not-a-number", "cx"),
            ('<circle id="loop_2"', '<circle id="loop_3"', "no-such-circle", "loop_3"),
            ('<circle id="loop_2"', '<circle id="loop_2" display="none"', "no-such-circle", "hidden"),
            ('id="loop_2" cx="175"', 'id="loop_2" cx="195"', "hole-outside-part", "in no part"),
            ('<circle id="loop_2"', '<circle id="loop_1" r="1"/><circle id="loop_2"', "drawn-twice",
             "cuff.svg:"),
            ('<polygon id="loop"', '<polygon id="lop"', "no-such-outline", '"lop"'),
            ('<polygon id="loop" points=', '<text id="loop" x=', "no-such-outline", "<text>"),
            ('id="slit" x="90"', 'id="slit" x="107"', "stray-outline", 'only partly in "plate"'),
            ('id="slit" x="90"', 'id="slit" x="150"', "stray-outline", "lies in none"),
            ('width="200mm" height="100mm"', 'width="200px"', "no-unit", 'width="200mm"'),
        ],
    )  # fmt: skip
    def test_faults_of_what_the_pattern_names(self, old, new, code, says):
        found = with_svg(old, new)
        codes = {f.code for f in found.findings if f.severity is not Severity.NOTE}
        assert codes == {code}, found.findings
        assert any(says in str(f) for f in found.findings)
        assert found.pattern is None

    def test_a_drawing_that_cannot_be_read_is_the_one_message(self):
        found = read_texts(svg=CUFF_SVG[:600])
        assert only(found, "cut-off").place.file == "cuff.svg"

    def test_a_drawing_missing_from_a_snapshot(self):
        found = read_pattern(from_texts("cuff", {PATTERN_FILE: CUFF_TOML}), SHELF)
        assert "cuff.svg" in only(found, "no-such-file").text

    def test_a_snapshot_without_a_pattern_file(self):
        found = read_pattern(from_texts("cuff", {"cuff.svg": CUFF_SVG}), SHELF)
        assert found.pattern is None
        assert found.findings

    def test_one_id_on_two_drawings(self):
        toml = CUFF_TOML.replace('["cuff.svg"]', '["cuff.svg", "more.svg"]')
        found = read_texts(toml, **{"more.svg": CUFF_SVG})
        doubles = [f for f in found.findings if f.code == "drawn-twice"]
        # All that the pattern names is an error; nothing else is drawn.
        assert {f.severity for f in doubles} == {Severity.ERROR}
        assert {f.about[0] for f in doubles} >= {"plate", "plate_1", "slit", "spare"}
        assert all(f.place.file == "more.svg" for f in doubles)

    def test_one_id_twice_that_nothing_names_is_a_warning(self):
        mark = '<circle id="mark" cx="60" cy="40" r="1"/>'
        found = with_svg("</svg>", f"{mark}{mark}</svg>")
        (fault,) = [f for f in found.findings if f.code == "drawn-twice"]
        assert fault.severity is Severity.WARNING
        assert [h.id for h in found.pattern.part("plate").holes].count("mark") == 1


class TestNotes:
    def test_circles_without_an_id_inside_a_part(self):
        circles = "".join(f'<circle cx="{30 + n}" cy="40" r=".4"/>' for n in range(7))
        found = with_svg("</svg>", circles + '<circle cx="1" cy="1" r=".4"/></svg>')
        note = only(found, "nameless-hole")
        assert note.severity is Severity.NOTE
        assert note.text.startswith('7 circles have no id in "plate", at (30.0, 40.0), ')
        assert "and 2 more" in note.text
        assert found.pattern is not None

    def test_outlines_outside_every_part(self):
        found = with_svg("</svg>", '<rect id="frame" x="1" y="1" width="198" height="98"/></svg>')
        assert only(found, "stray-outline").severity is Severity.NOTE

    def test_an_outline_inside_a_part_is_a_slot_without_a_word(self):
        found = with_svg("</svg>", '<rect id="cut" x="40" y="40" width="9" height="2"/></svg>')
        assert [s.id for s in found.pattern.part("plate").slots] == ["slit", "cut"]

    def test_unnamed_holes_outside_every_part_are_a_note(self):
        found = with_svg("</svg>", '<circle id="far" cx="5" cy="5" r="1"/></svg>')
        assert only(found, "hole-outside-part").severity is Severity.NOTE

    def test_a_hole_that_breaks_the_edge(self):
        found = with_svg('cx="20" cy="60"', 'cx="11.5" cy="60"')
        fault = only(found, "hole-breaks-edge")
        assert fault.severity is Severity.WARNING
        assert found.pattern is not None


class TestOverlappingParts:
    SVG = swapped(CUFF_SVG, 'points="120,50 180,50 180,62 120,62"',
                  'points="105,50 180,50 180,62 105,62"')  # fmt: skip

    def test_a_hole_in_two_parts(self):
        svg = swapped(self.SVG, 'id="loop_1" cx="125"', 'id="loop_1" cx="107"')
        found = read_texts(svg=svg)
        fault = only(found, "hole-in-two-parts")
        assert fault.severity is Severity.ERROR
        assert "[holes.loop_1]" in fault.remedy

    def test_is_settled_by_declaring_it(self):
        svg = swapped(self.SVG, 'id="loop_1" cx="125"', 'id="loop_1" cx="107"')
        found = read_texts(CUFF_TOML + '[holes.loop_1]\npart = "loop"\n', svg)
        assert found.findings == ()
        assert found.pattern.hole("loop_1").part == "loop"

    def test_a_hole_that_nothing_names_is_a_warning(self):
        svg = swapped(self.SVG, "</svg>", '<circle id="odd" cx="107" cy="56" r="1"/></svg>')
        assert only(read_texts(svg=svg), "hole-in-two-parts").severity is Severity.WARNING
