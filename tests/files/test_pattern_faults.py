import pytest
from files.small_cuff import (
    CUFF_SVG,
    CUFF_TOML,
    line_of,
    only,
    read_texts,
    swapped,
    with_toml,
)

from armorplan.files.source import PATTERN_FILE
from armorplan.kernel.findings import Severity


@pytest.mark.parametrize(
    ("old", "new", "code", "says"),
    [
        ('name = "Cuff of', 'nam = "Cuff of', "missing-key", '[pattern] lacks "name"'),
        ('uuid = "0b9', 'uuid = "xyz', "wrong-value", "a UUID"),
        ("version = 2", "version = 0", "wrong-value", "a whole number from 1"),
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
        ("coats = 2", "coats = 0", "wrong-value", "from 1 to 20"),
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
    assert "the table [pieces.cuff] is written twice" in fault.text
    assert "another id" in fault.remedy


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


def test_an_outline_for_two_parts():
    found = with_toml('outline = "strap_shape"', 'outline = "loop"')
    (fault,) = [f for f in found.findings if f.code == "outline-shared"]
    assert fault.place.line == line_of(CUFF_TOML, "[parts.loop]")
    assert fault.about == ("loop", "strap")


def test_a_joint_that_a_part_hides_may_be_named_twice():
    assert with_toml('["end_bottom"]\n\n[parts', '["end_bottom", "end_bottom"]\n\n[parts').pattern


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
