import pytest
from files.small_cuff import (
    CUFF_SVG,
    CUFF_TOML,
    SHELF,
    line_of,
    only,
    read_texts,
    swapped,
    with_svg,
    with_toml,
)

from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PATTERN_FILE, from_texts
from armorplan.kernel.findings import Severity


@pytest.mark.parametrize(
    ("old", "new", "code", "says"),
    [
        ('name = "Cuff of', 'nam = "Cuff of', "missing-key", '[pattern] lacks "name"'),
        ('uuid = "0b9', 'uuid = "xyz', "wrong-value", "a UUID"),
        ("version = 2", "version = 0", "wrong-value", "a whole number of at least 1"),
        ("version = 2", "version = true", "wrong-value", "pattern.version is true"),
        ("version = 2", 'version = "2"', "wrong-value", 'the text "2"'),
        ("version = 2", "version = 1" + "0" * 60, "wrong-value", "too long to show"),
        ('notes = "Tied', 'notes = 3 # "', "wrong-value", "a text in quotes"),
        ('name = "Cuff"', 'name = " "', "wrong-value", "a text that is not empty"),
        ("mirrored = true", 'mirrored = "yes"', "wrong-value", "true or false"),
        ("thickness_mm = 3.2", "thickness_mm = 0", "wrong-value", "a number above 0"),
        ("thickness_mm = 3.2", "thickness_mm = -3.2", "wrong-value", "the number -3.2"),
        ("thickness_mm = 3.2", "thickness_mm = nan", "wrong-value", "the number nan"),
        ("thickness_mm = 3.2", "thickness_mm = inf", "wrong-value", "a number above 0"),
        ("thickness_mm = 3.2", 'thickness_mm = "3.2"', "wrong-value", "a number above 0"),
        ("thickness_mm = 3.2", "", "missing-key", "weight_oz = 8"),
        ("weight_oz = 8", "weight_oz = 8\nthickness_mm = 3", "two-thicknesses", "Keep one"),
        ('leather = "strap"', 'leather = "strapp"', "unknown-id", 'Perhaps "strap"'),
        ('kind = "keeper"', 'kind = "loop"', "wrong-value", '"keeper"'),
        ('piece = "cuff"\nkind = "keeper"', 'piece = "cufs"\nkind = "keeper"', "unknown-id", "cuff"),
        ('grain = "in"', 'grain = "inside"', "wrong-value", '"out", "in"'),
        ("up_deg = 0", "up_deg = 1979-05-27", "wrong-value", "a date or time"),
        ('hides = ["end_bottom"]', 'hides = ["end_botom"]', "unknown-id", '"end_bottom"'),
        ('hides = ["end_bottom"]', "hides = [1]", "wrong-value", "a list of texts"),
        ('kind = "stitch"', 'kind = "sewn"', "wrong-value", '"stitch"'),
        ('"double_cap_9"', '"double_cap_99"', "unknown-id", '"double_cap_9"'),
        ('"double_cap_9"', '"screw_post_turning"', "wrong-fastener", "the joint is a rivet"),
        ('["loop_1", "loop_2"]', '["loop_1"]', "one-layer", "two or more"),
        ('["loop_1", "loop_2"]', '["loop_1", "loop_1"]', "named-twice", "loop_1"),
        ('["loop_1", "loop_2"]', '["loop_1", "strap_2"]', "hole-in-two-joints", "end_bottom"),
        ('["loop_1", "loop_2"]', "[]", "empty-list", "joints.loop_shut.stack"),
        ('["loop_1", "loop_2"]', '["loop_1", "lop_2"]', "no-such-circle", '"loop_2"'),
        ('["loop_1", "loop_2"]', '["loop_1", "slit"]', "no-such-circle", "a closed outline"),
        ('["end_top", "end_bottom"]', '["end_top", "end_botom"]', "unknown-id", "end_bottom"),
        ('["end_top", "end_bottom"]', "[]", "empty-list", "seams.end.joints"),
        ('part = "strap"', 'part = "strip"', "unknown-id", '"strap"'),
        ('closed_by = ["end_top"]', 'closed_by = ["top"]', "unknown-id", "end_top"),
        ('["slit", "loop"]', '["slit", "plate"]', "not-a-keeper", "plate"),
        ('["slit", "loop"]', '["slit", "strap_shape"]', "not-a-keeper", '"strap"'),
        ('["slit", "loop"]', '["slot"]', "no-such-outline", '"slit"'),
        ('["slit", "loop"]', '["plate_1"]', "no-such-outline", "it is a circle"),
        ('kind = "bend"', 'kind = "bent"', "wrong-value", '"bend"'),
        ('route = "damp"', 'route = "wet"', "wrong-value", '"damp"'),
        ("radius_mm = 45", "radius_mm = 0", "wrong-value", "a number above 0"),
        ('seams = ["end"]', 'seams = ["ends"]', "unknown-id", '"end"'),
        ('seams = ["end"]', "", "missing-key", "seams"),
        ('"alcohol_dye"', '"alcohol_die"', "unknown-id", '"alcohol_dye"'),
        ('pieces = ["cuff"]', 'pieces = ["cufs"]', "unknown-id", '"cuff"'),
        ('pieces = ["cuff"]', 'pieces = ["cuff"]\nparts = ["loop"]', "parts-and-pieces", "one"),
        ('pieces = ["cuff"]', "", "missing-key", "pieces"),
        ("coats = 2", "coats = 0", "wrong-value", "at least 1"),
        ("coats = 2", "coats = 2.0", "wrong-value", "a whole number"),
        ("[holes.spare]", "[holes.spar]", "no-such-circle", '"spare"'),
        ('part = "plate"', 'part = "strap"', "hole-outside-part", "(100.0, 60.0)"),
        ('part = "plate"', 'part = "plat"', "unknown-id", '"plate"'),
        ('["cuff.svg"]', '["cuff.svg", "cuff.svg"]', "named-twice", "cuff.svg"),
        ("[forms.round]", '[forms."round.two"]', "bad-id", "round.two"),
        ("[forms.round]", '[forms."a/b"]', "bad-id", "a/b"),
        ("[seams.end]", "[forms]\nlone = 3\n[seams.end]", "wrong-value", "[forms.lone]"),
    ],
)  # fmt: skip
def test_one_fault_is_told_once_at_its_line(old, new, code, says):
    found = with_toml(old, new)
    errors = [f for f in found.findings if f.severity is Severity.ERROR]
    assert [f.code for f in errors] == [code], found.findings
    assert says in str(errors[0])
    assert found.pattern is None
    # The line told is that of the key, or of the table that lacks it.
    place = errors[0].place
    written = swapped(CUFF_TOML, old, new).splitlines()[place.line - 1]
    assert written.startswith("[") or place.key.rsplit(".", 1)[-1] in written


def test_place_is_the_key_and_its_line():
    fault = only(with_toml("coats = 2", "coats = -1"), "wrong-value")
    assert fault.place.file == PATTERN_FILE
    assert fault.place.key == "treatments.brown.coats"
    assert fault.place.line == line_of(CUFF_TOML, "coats = 2")


def test_every_fault_is_told_at_once():
    toml = CUFF_TOML
    for old, new in (
        ("thickness_mm = 3.2", "thickness_mm = 0"),
        ('"double_cap_9"', '"nothing_like_it"'),
        ('kind = "keeper"', "kind = 7"),
        ('through = ["slit", "loop"]', 'through = ["slits"]'),
    ):
        toml = swapped(toml, old, new)
    svg = swapped(CUFF_SVG, 'id="plate_1"', 'id="plate_9"')
    found = read_texts(toml, svg)
    assert sorted(f.code for f in found.findings) == [
        "no-such-circle",
        "no-such-outline",
        "unknown-id",
        "wrong-value",
        "wrong-value",
    ]
    lines = [f.place.line for f in found.findings if f.place.file == PATTERN_FILE]
    assert lines == sorted(lines)


def test_syntax_error_has_its_line():
    fault = only(with_toml('name = "Cuff"', 'name = "Cuff'), "toml-syntax")
    assert fault.place.line == line_of(CUFF_TOML, 'name = "Cuff"')


def test_text_that_ends_too_early_has_the_last_line():
    fault = only(read_texts("format = 1\n\nname = ["), "toml-syntax")
    assert fault.place.line == 3


@pytest.mark.parametrize(
    "toml",
    [
        "a = " + "[" * 5000,
        "a" + ".a" * 300_000 + " = 1",
        "[" + '"a b".' * 300_000 + "a]",
        "a = 1" + "0" * 5000,
        "format = 1\nformat = 1",
        "a = \x01",
    ],
    ids=["deep", "dotted", "quoted", "digits", "twice", "control"],
)
def test_hostile_toml_is_a_syntax_error(toml):
    only(read_texts(toml), "toml-syntax")


def test_a_table_written_twice_has_its_line():
    fault = only(read_texts(CUFF_TOML + "[pieces.cuff]\n"), "toml-syntax")
    assert fault.place.line == CUFF_TOML.count("\n") + 1


def test_newer_format_is_one_clear_message():
    found = read_texts(swapped(CUFF_TOML, "format = 1", "format = 2").replace("name", "title"))
    assert "written for a newer Armorplan" in only(found, "newer-format").text


@pytest.mark.parametrize("written", ["0", "-1", '"1"', "true", "1.5"])
def test_other_formats(written):
    only(with_toml("format = 1", f"format = {written}"), "wrong-value")


def test_huge_format():
    assert (
        "newer" in only(with_toml("format = 1", f"format = 0x{'f' * 9000}"), "newer-format").text
    )


def test_lacking_format():
    assert "format" in only(with_toml("format = 1", ""), "missing-key").text


def test_an_empty_pattern_tells_what_it_lacks():
    found = read_texts("format = 1\n")
    assert {"missing-key", "nothing-there"} == {f.code for f in found.findings}
    assert {"pieces", "parts"} <= {f.place.key for f in found.findings}


@pytest.mark.parametrize(
    ("old", "new", "near"),
    [
        ("turning = true", "turnin = true", '"turning"'),
        ("[treatments.seal]", "[treatment.seal]", '"treatments"'),
        ('notes = "', 'note = "', '"notes"'),
    ],
)
def test_unknown_keys_are_warnings_with_the_nearest_name(old, new, near):
    found = with_toml(old, new)
    fault = only(found, "unknown-key")
    assert fault.severity is Severity.WARNING
    assert near in fault.remedy
    assert fault.place.line == line_of(CUFF_TOML, old)
    assert found.pattern is not None


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
        assert only(found, "drawn-twice").severity is Severity.WARNING
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


def test_an_outline_for_two_parts():
    found = with_toml('outline = "strap_shape"', 'outline = "loop"')
    (fault,) = [f for f in found.findings if f.code == "outline-shared"]
    assert fault.place.line == line_of(CUFF_TOML, "[parts.loop]")
    assert fault.about == ("loop", "strap")


def test_joint_in_two_seams():
    found = read_texts(CUFF_TOML + '[seams.again]\nname = "again"\njoints = ["end_top"]\n')
    assert '"end"' in only(found, "joint-in-two-seams").text


def test_too_many_parts():
    part = '[parts.p{}]\nname = "p"\npiece = "cuff"\nkind = "plate"\nmaterial = "plate_leather"\n'
    found = read_texts(CUFF_TOML + "".join(part.format(n) for n in range(1000)))
    assert "too-many-parts" in {f.code for f in found.findings}


def test_long_and_odd_names_are_shown_short():
    found = with_toml('"alcohol_dye"', '"' + "x" * 5000 + '\\u0007"')
    assert all(len(str(f)) < 400 and f.text.isprintable() for f in found.findings)
