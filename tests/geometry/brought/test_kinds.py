"""What lines are taken for, in small drawings made of a few shapes."""

import pytest
import shapely
from files.loose.messy import Mess, as_circle, ring, slot

from armorplan.geometry.brought.model import Lettering, ShapeKind
from armorplan.geometry.brought.sorting import sorted_out, with_kinds


def rect(left, top, wide, high):
    right, bottom = left + wide, top + high
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def plate(mess, left=0.0, top=0.0, layer="cut"):
    """Draw a plate of 120 × 80 mm, its corners cut off, with four holes."""
    x, y = left, top
    mess.add(
        ((x + 10, y), (x + 120, y + 5), (x + 120, y + 80), (x, y + 76), (x, y + 9)), layer=layer
    )
    for spot in ((x + 15, y + 15), (x + 105, y + 15), (x + 105, y + 66), (x + 15, y + 66)):
        as_circle(mess, spot, 4.0)


def kinds(mess, **more):
    found = sorted_out(mess.as_drawing(), mm_each=1.0, **more)
    return found, {shape.key: shape.kind for shape in found.shapes}


def only(found, kind):
    return [shape for shape in found.shapes if shape.kind is kind]


def test_a_hole_is_round_and_small_and_anything_else_in_a_part_a_slot():
    mess = Mess()
    plate(mess)
    as_circle(mess, (60.0, 40.0), 16.0)
    as_circle(mess, (60.0, 62.0), 17.0)
    mess.add(slot((40.0, 30.0), 20, 4))
    _, found = kinds(mess)
    assert [found[f"s{n}"] for n in range(5)] == [ShapeKind.PART] + 4 * [ShapeKind.HOLE]
    assert found["s5"] is ShapeKind.HOLE
    assert found["s6"] is ShapeKind.SLOT
    assert found["s7"] is ShapeKind.SLOT


def test_what_lies_in_a_part_says_so():
    mess = Mess()
    plate(mess)
    plate(mess, 200.0)
    found, _ = kinds(mess)
    assert {s.key: s.inside for s in only(found, ShapeKind.HOLE)} == {
        **{f"s{n}": "s0" for n in range(1, 5)},
        **{f"s{n}": "s5" for n in range(6, 10)},
    }


def test_an_outline_round_two_parts_is_a_frame():
    mess = Mess()
    mess.add(rect(-20, -20, 400, 200))
    plate(mess)
    plate(mess, 200.0)
    found, of = kinds(mess)
    assert of["s0"] is ShapeKind.FRAME
    assert len(only(found, ShapeKind.PART)) == 2
    assert len(only(found, ShapeKind.HOLE)) == 8


def test_a_page_round_one_part_is_a_frame_and_a_plate_with_slots_is_none():
    mess = Mess()
    mess.add(rect(-20, -20, 210, 297))
    plate(mess)
    _, of = kinds(mess)
    assert of["s0"] is ShapeKind.FRAME
    assert of["s1"] is ShapeKind.PART
    mess = Mess()
    mess.add(rect(0, 0, 210, 80))
    for n in range(5):
        mess.add(slot((30.0 + 35 * n, 40.0), 24, 5))
    _, of = kinds(mess)
    assert list(of.values()) == [ShapeKind.PART] + 5 * [ShapeKind.SLOT]


def test_a_line_along_the_edge_is_no_cut_out():
    mess = Mess()
    mess.add(rect(0, 0, 200, 80))
    mess.add(rect(6, 6, 188, 68))
    for n in range(5):
        as_circle(mess, (20.0 + 40 * n, 15.0), 4.0)
    found, of = kinds(mess)
    assert of["s0"] is ShapeKind.PART
    assert of["s1"] is ShapeKind.ENGRAVING
    assert {s.inside for s in only(found, ShapeKind.HOLE)} == {"s0"}
    assert len(only(found, ShapeKind.HOLE)) == 5


def test_a_sheet_of_any_form_round_one_part_is_a_frame():
    mess = Mess()
    mess.add([(-90, -80), (240, -60), (300, 190), (120, 260), (-70, 170)])
    plate(mess)
    _, of = kinds(mess)
    assert of["s0"] is ShapeKind.FRAME
    assert of["s1"] is ShapeKind.PART


def test_a_page_with_a_margin_is_two_frames():
    mess = Mess()
    mess.add(rect(-30, -30, 420, 210))
    mess.add(rect(-20, -20, 400, 190))
    plate(mess)
    plate(mess, 200.0)
    _, of = kinds(mess)
    assert [of[f"s{n}"] for n in range(3)] == [ShapeKind.FRAME, ShapeKind.FRAME, ShapeKind.PART]


def test_a_part_nested_in_a_cut_out():
    mess = Mess()
    mess.add(rect(0, 0, 300, 200))
    mess.add(rect(40, 40, 220, 120))
    plate(mess, 80.0, 60.0)
    found, of = kinds(mess)
    assert [of[f"s{n}"] for n in range(3)] == [ShapeKind.PART, ShapeKind.SLOT, ShapeKind.PART]
    assert {s.inside for s in only(found, ShapeKind.HOLE)} == {"s2"}


def test_open_lines_in_a_part_are_engraving_and_all_of_their_layer_with_them():
    mess = Mess()
    plate(mess)
    mess.add([(20, 40), (100, 40)], closed=False, layer="inner")
    mess.add(rect(50, 20, 12, 8), layer="inner")
    mess.add(rect(70, 20, 12, 4), layer="cut")
    found, of = kinds(mess)
    assert of["s5"] is of["s6"] is ShapeKind.ENGRAVING
    assert of["s7"] is ShapeKind.SLOT
    assert {s.inside for s in only(found, ShapeKind.ENGRAVING)} == {"s0"}


def test_a_fold_line_drawn_beyond_both_edges_lies_in_its_part():
    mess = Mess()
    plate(mess)
    mess.add([(60, -30), (60, 110)], closed=False)
    mess.add([(60, 70), (60, 170)], closed=False)
    found, _ = kinds(mess)
    assert [s.inside for s in found.shapes[-2:]] == ["s0", ""]


def test_a_layer_of_holes_stays_one_though_a_fold_line_is_on_it():
    mess = Mess()
    mess.add(rect(0, 0, 100, 60), layer="outside")
    for n in range(4):
        mess.add(ring((20.0 + 20 * n, 30.0), 4, 24), layer="inside")
    mess.add([(20, 45), (80, 45)], closed=False, layer="inside")
    found, _ = kinds(mess)
    assert len(only(found, ShapeKind.HOLE)) == 4
    assert len(only(found, ShapeKind.ENGRAVING)) == 1


def test_layers_named_for_engraving_in_some_languages():
    for layer in ("Engrave", "Gravur 1", "GRAVURE", "grabado", "fold lines", "Falzlinien"):
        mess = Mess()
        plate(mess)
        mess.add(rect(50, 20, 12, 8), layer=layer)
        _, of = kinds(mess)
        assert of["s5"] is ShapeKind.ENGRAVING, layer


def test_lines_that_help_to_draw_are_left_out():
    mess = Mess()
    plate(mess)
    mess.add(rect(50, 20, 12, 8), layer="Hilfslinien")
    mess.add([(-50, 0), (200, 0)], closed=False, layer="construction")
    _, of = kinds(mess)
    assert of["s5"] is of["s6"] is ShapeKind.LEFT_OUT


def test_a_ring_round_a_hole_marks_its_cap():
    mess = Mess()
    plate(mess)
    as_circle(mess, (60.0, 40.0), 4.0)
    as_circle(mess, (60.0, 40.0), 10.0)
    _, of = kinds(mess)
    assert of["s5"] is ShapeKind.HOLE
    assert of["s6"] is ShapeKind.ENGRAVING


def test_letters_turned_to_outlines_are_engraving_and_a_row_of_slots_is_not():
    mess = Mess()
    mess.add(rect(0, 0, 200, 80))
    letter_l = ((0, 0), (1.5, 0), (1.5, 6.5), (5, 6.5), (5, 8), (0, 8))
    letter_t = ((0, 0), (6, 0), (6, 1.5), (3.8, 1.5), (3.8, 8), (2.2, 8), (2.2, 1.5), (0, 1.5))
    letter_i = ((0, 0), (1.5, 0), (1.5, 8), (0, 8))
    letter_o = tuple((0.8 * x + 3.2, y + 4) for x, y in ring((0, 0), 8, 20))
    inner_o = tuple((0.8 * x + 3.2, y + 4) for x, y in ring((0, 0), 5, 20))
    for n, letters in enumerate(((letter_l,), (letter_i,), (letter_t,), (letter_o, inner_o))):
        for letter in letters:
            mess.add([(x + 40 + 8 * n, y + 30) for x, y in letter])
    for n in range(6):
        mess.add(slot((30.0 + 8 * n, 65.0), 6 + n % 3, 3))
    found, of = kinds(mess)
    assert [of[f"s{n}"] for n in range(1, 6)] == 5 * [ShapeKind.ENGRAVING]
    assert len(only(found, ShapeKind.SLOT)) == 6


def test_an_empty_square_of_a_round_length_checks_the_printer():
    mess = Mess()
    plate(mess)
    plate(mess, 200.0)
    mess.add(rect(0, 200, 50, 50))
    _, of = kinds(mess)
    assert of["s10"] is ShapeKind.FRAME


def test_a_title_block_and_a_scale_are_frames():
    mess = Mess()
    plate(mess)
    mess.add(rect(200, 0, 100, 5))
    for x in (220, 240, 260):
        mess.add([(x, 0), (x, 5)], closed=False)
    found, of = kinds(mess)
    assert of["s5"] is ShapeKind.FRAME
    assert len(only(found, ShapeKind.PART)) == 1


def test_strays_are_left_out_and_told():
    mess = Mess()
    plate(mess)
    as_circle(mess, (300.0, 40.0), 4.0)
    mess.add(rect(300, 100, 5, 3))
    mess.add([(300, 0), (340, 12)], closed=False)
    found, of = kinds(mess)
    assert {of[f"s{n}"] for n in (5, 6, 7)} == {ShapeKind.LEFT_OUT}
    (told,) = [f for f in found.findings if f.code == "stray-holes"]
    assert "(300.0, 40.0) mm" in told.text


def test_a_large_circle_in_no_part_is_a_part():
    mess = Mess()
    as_circle(mess, (0.0, 0.0), 60.0)
    as_circle(mess, (10.0, 0.0), 4.0)
    _, of = kinds(mess)
    assert list(of.values()) == [ShapeKind.PART, ShapeKind.HOLE]


def test_a_closed_line_that_encloses_nothing_is_left_out():
    mess = Mess()
    plate(mess)
    mess.add([(0, 200), (100, 200), (40, 200)])
    found, of = kinds(mess)
    assert of["s5"] is ShapeKind.LEFT_OUT
    assert found.shapes[-1].why == "It encloses no area."


def test_every_shape_says_why():
    mess = Mess()
    mess.add(rect(-20, -20, 400, 300))
    plate(mess)
    plate(mess, 200.0)
    mess.add([(20, 40), (100, 40)], closed=False)
    found, _ = kinds(mess)
    assert all(s.why.endswith(".") and len(s.why) > 15 for s in found.shapes)


class TestNames:
    def _named(self, *texts, **more):
        mess = Mess()
        plate(mess)
        plate(mess, 0.0, 120.0)
        drawing = mess.as_drawing()
        lettering = tuple(Lettering(text=t, at=at, height=h) for t, at, h in texts)
        found = sorted_out(
            type(drawing)(
                name="x", strokes=drawing.strokes, lettering=lettering, unit=drawing.unit
            ),
            mm_each=1.0,
            **more,
        )
        return [s.name for s in found.shapes if s.kind is ShapeKind.PART]

    def test_a_text_in_a_part_names_it(self):
        assert self._named(("top lame", (30, 40), 6.0)) == ["top lame", ""]

    def test_the_highest_of_several_and_no_bare_marks(self):
        assert self._named(
            ("cut 2", (30, 50), 3.0), ("cop", (30, 40), 6.0), ("—", (40, 60), 9.0)
        ) == ["cop", ""]

    def test_the_nearest_text_beside_names_where_none_is_inside(self):
        # 12 mm below the first plate, 28 mm above the second.
        assert self._named(("first", (60, 92), 5.0)) == ["first", ""]
        assert self._named(("far off", (60, 300), 5.0)) == ["", ""]


class TestSayingOtherwise:
    def test_a_frame_that_is_a_part_after_all_takes_its_parts_in(self):
        mess = Mess()
        mess.add(rect(-20, -20, 400, 300))
        plate(mess)
        plate(mess, 200.0)
        found, _ = kinds(mess)
        other = with_kinds(found, {"s0": ShapeKind.PART})
        of = {s.key: s for s in other.shapes}
        assert of["s0"].kind is ShapeKind.PART
        assert of["s0"].said
        assert of["s1"].kind is ShapeKind.ENGRAVING
        assert of["s1"].inside == of["s2"].inside == "s0"

    def test_what_was_said_stays_said(self):
        mess = Mess()
        plate(mess)
        mess.add(slot((60.0, 40.0), 20, 4))
        found, _ = kinds(mess)
        once = with_kinds(found, {"s5": ShapeKind.ENGRAVING})
        twice = with_kinds(once, {"s1": ShapeKind.LEFT_OUT})
        of = {s.key: s.kind for s in twice.shapes}
        assert of["s5"] is ShapeKind.ENGRAVING
        assert of["s1"] is ShapeKind.LEFT_OUT
        assert of["s2"] is ShapeKind.HOLE

    def test_an_open_line_said_to_be_a_part_is_closed_and_a_straight_one_is_not(self):
        mess = Mess()
        mess.add([(0, 0), (100, 0), (100, 60), (0, 60)], closed=False)
        as_circle(mess, (50.0, 30.0), 4.0)
        mess.add([(200, 0), (300, 0)], closed=False)
        found, _ = kinds(mess)
        other = with_kinds(found, {"s0": ShapeKind.PART, "s2": ShapeKind.SLOT})
        of = {s.key: s for s in other.shapes}
        assert of["s0"].closed
        assert (of["s1"].kind, of["s1"].inside) == (ShapeKind.HOLE, "s0")
        assert of["s2"].kind is ShapeKind.LEFT_OUT

    def test_an_oval_said_to_be_a_hole_is_the_circle_of_its_area(self):
        mess = Mess()
        plate(mess)
        mess.add(rect(50, 30, 4, 3))
        found, _ = kinds(mess)
        other = with_kinds(found, {"s5": ShapeKind.HOLE})
        hole = next(s for s in other.shapes if s.key == "s5")
        assert hole.circle == ((52.0, 31.5), pytest.approx(2 * (12 / 3.14159265) ** 0.5))

    def test_saying_what_it_is_changes_nothing_else(self):
        mess = Mess()
        mess.add(rect(-20, -20, 400, 300))
        plate(mess)
        plate(mess, 200.0)
        found, _ = kinds(mess)
        same = with_kinds(found, {s.key: s.kind for s in found.shapes})
        assert [(s.key, s.kind, s.inside, s.name) for s in same.shapes] == [
            (s.key, s.kind, s.inside, s.name) for s in found.shapes
        ]


def test_crossing_lines_are_told_with_their_place():
    mess = Mess()
    plate(mess)
    as_circle(mess, (120.0, 40.0), 6.0)
    mess.add(((200, 0), (300, 60), (300, 0), (200, 60)))
    found, _ = kinds(mess)
    told = {f.code: f.text for f in found.findings}
    assert "outlines-cross" in told
    assert "(250.0, 30.0) mm" in told["crosses-itself"]
    crossed = next(s for s in found.shapes if s.key == "s6")
    assert crossed.points == ((200.0, 0.0), (300.0, 60.0), (300.0, 0.0), (200.0, 60.0))


def test_an_open_outline_is_told_with_the_tolerance_that_closes_it():
    mess = Mess()
    mess.add([(0, 0), (100, 0), (100, 60), (0, 60), (0, 0.85)], closed=False)
    found, _ = kinds(mess)
    (told,) = [f for f in found.findings if f.code == "open-outline"]
    assert "0.8 mm" in told.text or "0.9 mm" in told.text
    assert "up to 0.9 mm" in told.remedy
    closed, of = kinds(mess, tolerance_mm=0.9)
    assert of["s0"] is ShapeKind.PART
    assert closed.joined == (2, 0.85)
    assert shapely.Polygon(closed.shapes[0].points).is_valid
