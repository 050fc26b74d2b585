"""Slots that joints slide in, lines that forms bend about, holes that are moved as they are read."""

import pytest
from files.drawn import read_body
from files.every_word import SVG, TOML, errors, read_leg, with_words
from files.small_cuff import CUFF_SVG, CUFF_TOML, read_texts, swapped

from armorplan.files.corrections import move_words
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Motion

SLIDING = swapped(
    swapped(CUFF_TOML, '["slit", "loop"]', '["loop"]'),
    'stack = ["strap_2", "plate_2"]\nfastener = "screw_post_turning"\nturning = true',
    'stack = ["strap_2", "slit"]\nfastener = "screw_post_turning"\nmotion = "sliding"',
)


def slit(svg):
    found = read_texts(SLIDING, svg)
    assert errors(found) == []
    return found.pattern.hole("slit")


def test_a_slot_that_a_joint_slides_in_is_a_hole_with_travel():
    found = read_texts(SLIDING)
    hole = found.pattern.hole("slit")
    # Drawn 4 wide and 22 high from (90, 30): its middle at (92, 41), 18 mm to slide, upward.
    assert (hole.part, hole.centre, hole.diameter_mm) == ("plate", (92, 41), 4)
    assert (hole.travel_mm, hole.travel_deg) == (18, 90)
    assert found.pattern.part("plate").slots == ()
    assert found.pattern.joint("end_bottom").motion is Motion.SLIDING
    assert found.pattern.stack_parts("end_bottom") == ("strap", "plate")


@pytest.mark.parametrize("turn_deg", [0, 30, 45, 60, 89, 120, 150, 179])
def test_the_direction_counts_upward_from_the_right(turn_deg):
    # The drawing turns clockwise by its own count, y downward: an upright slot leans right.
    svg = swapped(CUFF_SVG, 'height="22"/>', f'height="22" transform="rotate({turn_deg} 92 41)"/>')
    hole = slit(svg)
    away_deg = abs(hole.travel_deg - (90 - turn_deg)) % 180
    assert min(away_deg, 180 - away_deg) == pytest.approx(0, abs=1e-6)
    assert 0 <= hole.travel_deg < 180
    assert (hole.diameter_mm, hole.travel_mm) == pytest.approx((4, 18))
    assert hole.centre == pytest.approx((92, 41))


def test_a_slot_with_round_ends():
    # 22 long and 4 wide over all, its ends half circles: the same length less width.
    svg = swapped(CUFF_SVG, 'width="4" height="22"/>', 'width="4" height="22" rx="2"/>')
    hole = slit(svg)
    assert (hole.diameter_mm, hole.travel_mm) == pytest.approx((4, 18), abs=0.02)


def test_what_no_joint_slides_in_stays_a_slot():
    assert [s.id for s in read_leg().pattern.part("buckle_tab").slots] == ["tab_tongue"]
    assert [s.id for s in read_leg().pattern.part("thigh_plate").slots] == ["strap_slot"]


def test_an_axis_by_the_id_of_a_line_a_path_or_two_points():
    forms = {form.id: form.axis for form in read_leg().pattern.forms}
    assert forms["tab_turn"] == ((320, 20), (320, 45))
    assert forms["rim_fold"] == ((20, 365), (180, 365))
    assert forms["thigh_round"] == ((130, 20), (130, 180))
    assert forms["cop_dish"] is None


def test_lines_are_no_parts_and_no_findings():
    found = read_leg(
        svg=swapped(SVG, "</svg>", '<line id="mark" x1="9" y1="9" x2="1" y2="1"/></svg>')
    )
    assert {f.code for f in found.findings} == {"correction-applied"}


@pytest.mark.parametrize(
    "body",
    [
        '<line id="a" x1="10" y1="20" x2="30" y2="40"/>',
        '<path id="a" d="M 10 20 L 30 40"/>',
        '<path id="a" d="M 10 20 l 20 20 l 0 0"/>',
        '<polyline id="a" points="10,20 30,40"/>',
        '<g transform="translate(10 20)"><line id="a" x2="20" y2="20"/></g>',
    ],
)
def test_straight_lines_are_kept_with_their_ends(body):
    (line,) = read_body(body).lines
    assert (line.id, line.ends) == ("a", ((10, 20), (30, 40)))


@pytest.mark.parametrize(
    "body",
    [
        '<line x1="10" y1="20" x2="30" y2="40"/>',
        '<path id="a" d="M 10 20 L 30 40 L 50 40"/>',
        '<path id="a" d="M 10 20 L 30 40 Z"/>',
        '<path id="a" d="M 10 20 L 10 20"/>',
        '<path id="a" d="M 10 20 L 30 40 M 5 5 L 9 9"/>',
        '<path id="a" d="M 10 20 C 10 40 30 40 30 20"/>',
        '<line id="a" display="none" x1="10" y1="20" x2="30" y2="40"/>',
    ],
)
def test_what_is_not_one_straight_line_is_none(body):
    assert read_body(body).lines == ()


def test_a_line_asked_for_as_an_outline_is_still_an_open_path():
    svg = swapped(CUFF_SVG, '<rect id="slit" x="90" y="30" width="4" height="22"/>',
                  '<line id="slit" x1="90" y1="30" x2="90" y2="50"/>')  # fmt: skip
    (fault,) = errors(read_texts(svg=svg))
    assert fault.code == "open-path"


def test_a_correction_moves_the_hole_and_tells_it():
    found = read_leg()
    # Drawn at y = 131.5; moved up by 1.5.
    assert found.pattern.hole("plate_trim_2").centre == (188, 130)
    (note,) = found.findings
    assert (note.code, note.severity) == ("correction-applied", Severity.NOTE)
    assert "plate_trim_2 moved 1.5 mm up the page. Found at the first making." in note.text
    assert found.pattern.corrections[0].move_mm == (0, -1.5)


def test_entries_of_one_thing_found_are_told_once():
    entry = '[corrections.{0}]\nname = "row"\nholes = ["plate_trim_{0}"]\nmove_mm = [{0}, 0]\n'
    found = read_leg(TOML + entry.format(1) + entry.format(2)).findings
    (note,) = (f for f in found if f.text.startswith("row:"))
    assert note.text == ("row: plate_trim_1 moved 1 mm right; plate_trim_2 moved 2 mm right.")
    assert note.about == ("plate_trim_1", "plate_trim_2")


def test_corrections_add_up_in_their_order():
    more = (
        '[corrections.more]\nname = "more"\nholes = ["plate_trim_2", "plate_trim_1"]\n'
        "move_mm = [2, 0.5]\n"
    )
    found = read_leg(TOML + more)
    assert [f.about for f in found.findings] == [
        ("plate_trim_2",),
        ("plate_trim_2", "plate_trim_1"),
    ]
    assert found.pattern.hole("plate_trim_2").centre == (190, 130.5)
    assert found.pattern.hole("plate_trim_1").centre == (190, 70.5)


def test_a_slot_that_a_joint_slides_in_can_be_moved_too():
    found = with_words(('holes = ["plate_trim_2"]', 'holes = ["lame_slide"]'))
    assert found.pattern.hole("lame_slide").centre == (140, 394.5)


def test_a_hole_moved_out_of_its_part_is_told():
    found = with_words(("move_mm = [0, -1.5]", "move_mm = [0, 60]"))
    (fault,) = errors(found)
    assert fault.code == "hole-outside-part"
    assert 'The hole "plate_trim_2", moved to (188.0, 191.5), lies in no part.' in fault.text
    assert "Mend the move_mm" in fault.remedy
    assert (fault.place.file, fault.place.key) == ("pattern.toml", "corrections.trim_low.move_mm")
    assert TOML.splitlines()[fault.place.line - 1] == "move_mm = [0, -1.5]"


def test_a_sliding_slot_moved_out_of_its_part_is_told_at_the_correction():
    found = with_words(
        ('holes = ["plate_trim_2"]', 'holes = ["lame_slide"]'),
        ("move_mm = [0, -1.5]", "move_mm = [0, 500]"),
    )
    (fault,) = errors(found)
    assert fault.code == "stray-outline"
    assert '"lame_slide", moved, ' in fault.text
    assert (fault.place.file, fault.place.key) == ("pattern.toml", "corrections.trim_low.move_mm")


def test_a_hole_moved_onto_the_edge_is_warned_of_at_the_correction():
    found = with_words(("move_mm = [0, -1.5]", "move_mm = [0, 47]"))
    edge = [f for f in found.findings if f.code == "hole-breaks-edge"]
    assert [f.place.key for f in edge] == ["corrections.trim_low.move_mm"]


@pytest.mark.parametrize(
    ("move_mm", "words"),
    [
        ((0, -1.5), "1.5 mm up the page"),
        ((0, 2), "2 mm down the page"),
        ((0.25, 0), "0.25 mm right"),
        ((-1, 3), "1 mm left and 3 mm down the page"),
        ((0, 0), "by nothing"),
    ],
)
def test_a_move_in_words(move_mm, words):
    assert move_words(move_mm) == words
