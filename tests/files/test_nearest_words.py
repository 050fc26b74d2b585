"""What a message offers in place of a name that is none: the nearest first, and how many more."""

import pytest
from files.small_cuff import CUFF_SVG, CUFF_TOML, line_of, read_texts, swapped, with_svg, with_toml

from armorplan.files.faults import Faults, listed
from armorplan.kernel.findings import Severity


def fault_of(found, code):
    (fault,) = [f for f in found.findings if f.code == code]
    return fault


def test_a_list_says_how_many_more_there_are():
    assert listed([]) == "none yet"
    assert listed("abcdef") == "a, b, c, d, e, f"
    assert listed("abcdefgh") == "a, b, c, d, e, f and 2 more"


@pytest.mark.parametrize(
    ("word", "known", "near"),
    [
        ("suede", ["strap", "suede_lining", "under_the_suede"], "suede_lining"),
        ("strapp", ["strap", "load_strap"], "strap"),
        ("thick_strap_leather_9oz", ["strap_leather", "cop"], "strap_leather"),
        ("zz", ["buzz_zz_top"], None),
    ],
)
def test_the_nearest_may_hold_the_word(word, known, near):
    assert Faults().nearest(word, known) == near


def test_the_most_like_stand_first_and_the_others_by_the_alphabet():
    faults = Faults()
    names = ["anchor", "bolt", "copper_burr", "screw_post", "screw_post_fixed"]
    assert faults.nearest_first("chicken_screw_post", names)[:2] == [
        "screw_post",
        "screw_post_fixed",
    ]
    assert faults.nearest_first("anvil", names)[0] == "anchor"
    assert sorted(faults.nearest_first("anvil", names)) == names


def test_guesses_come_to_an_end():
    faults = Faults()
    assert all(faults.nearest("strapp", ["strap"]) for _ in range(30))
    assert faults.nearest("strapp", ["strap"]) is None
    assert faults.nearest_first("strapp", ["zoo", "strap"]) == ["strap", "zoo"]


def test_part_of_a_leather_s_name_is_enough():
    found = with_toml('leather = "strap"', 'leather = "lining"')
    fault = fault_of(found, "unknown-id")
    assert fault.text == 'There is no leather "lining" on the shelf.'
    assert "lining" in fault.remedy.replace('"lining"', "")


JOINT = """
[joints.post]
kind = "screw"
stack = ["plate_9", "strap_9"]
fastener = "{}"
"""
CIRCLES = (
    '<circle id="plate_9" cx="60" cy="40" r="2"/><circle id="strap_9" cx="150" cy="20" r="2"/>'
)


def with_fastener(fastener):
    svg = swapped(CUFF_SVG, "</svg>", f"{CIRCLES}</svg>")
    return fault_of(
        read_texts(toml=CUFF_TOML + JOINT.format(fastener), svg=svg),
        "wrong-fastener" if fastener == "double_cap_9" else "unknown-id",
    )


@pytest.mark.parametrize("fastener", ["double_cap_9", "q" * 9])
def test_a_screw_is_offered_screws_alone(fastener):
    fault = with_fastener(fastener)
    remedy = fault.remedy
    assert "screw" in fault.text
    assert "screw_post_turning" in remedy
    assert "screw_post_fixed" in remedy
    assert not any(name in remedy for name in ("double_cap", "burr", "cement", "thread"))


def test_a_slot_in_a_stack_asks_whether_the_joint_slides():
    found = with_toml('["strap_1", "plate_1"]', '["strap_1", "slit"]')
    assert fault_of(found, "no-such-circle").remedy.startswith('Write motion = "sliding"')


def test_the_outline_of_a_part_in_a_stack_is_no_slot():
    found = with_toml('["strap_1", "plate_1"]', '["strap_1", "plate"]')
    assert "sliding" not in fault_of(found, "no-such-circle").remedy


def test_numbers_that_fall_are_told_by_name():
    place = (
        '\n[strap_places.waist]\nname = "w"\nstrap = "strap"\nmeets = "plate"\n'
        "girth_mm = [410, 360]\nholes = []\n"
    )
    fault = fault_of(read_texts(toml=CUFF_TOML + place), "wrong-value")
    assert "410 stands before 360" in fault.text
    assert fault.remedy == "Write the least first."


class TestMisnamedTables:
    """A table under a name that nothing reads is told first, and without what follows from it."""

    def test_its_followers_are_not_told(self):
        found = with_toml("[parts.loop]", "[part.loop]")
        (fault,) = found.findings
        assert fault.code == "unknown-table"
        assert fault.text == "There is no table [part]; perhaps [parts] is meant."
        assert fault.severity is Severity.ERROR
        assert fault.place.line == line_of(CUFF_TOML, "[parts.loop]")
        assert found.pattern is None

    def test_all_tables_of_a_kind_may_be_misnamed(self):
        found = read_texts(toml=CUFF_TOML.replace("[materials.", "[material."))
        (fault,) = found.findings
        assert "perhaps [materials] is meant" in fault.text

    def test_other_faults_stay(self):
        toml = swapped(CUFF_TOML, "[parts.loop]", "[part.loop]")
        found = read_texts(toml=swapped(toml, 'leather = "strap"', 'leather = "strapp"'))
        assert [f.code for f in found.findings] == ["unknown-table", "unknown-id"]

    def test_one_that_nothing_misses_is_a_warning(self):
        found = with_toml("[treatments.seal]", "[treatment.seal]")
        (fault,) = found.findings
        assert fault.severity is Severity.WARNING
        assert "perhaps [treatments] is meant" in fault.text
        assert fault.place.line == line_of(CUFF_TOML, "[treatments.seal]")
        assert found.pattern is not None

    def test_one_like_nothing_is_an_unknown_key(self):
        found = read_texts(toml=CUFF_TOML + "\n[zzyzx.qqq]\na = 1\n")
        assert [f.code for f in found.findings] == ["unknown-key"]


class TestUnnamedHoles:
    """A circle in a part that nothing names may be a hole forgotten in a stack."""

    CIRCLE = '<circle id="lonely" cx="60" cy="40" r="2"/></svg>'

    def test_it_is_noted_by_name(self):
        found = with_svg("</svg>", self.CIRCLE)
        (note,) = found.findings
        assert (note.code, note.severity) == ("hole-unnamed", Severity.NOTE)
        assert "lonely" in note.text
        assert note.about == ("plate", "lonely")
        assert found.pattern is not None

    def test_a_table_says_that_it_is_meant(self):
        svg = swapped(CUFF_SVG, "</svg>", self.CIRCLE)
        assert read_texts(toml=CUFF_TOML + "\n[holes.lonely]\n", svg=svg).findings == ()

    def test_straps_have_holes_for_the_tongue(self):
        circle = self.CIRCLE.replace('cx="60" cy="40"', 'cx="150" cy="20"')
        assert with_svg("</svg>", circle).findings == ()
