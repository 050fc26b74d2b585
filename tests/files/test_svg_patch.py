"""One shape of a drawing changed in its text: read again it is the change, and nothing else."""

from dataclasses import replace
from math import dist

import pytest
from fontTools.misc.transform import Identity, Transform
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.files.drawing import Drawing, read_drawing
from armorplan.files.svg_copy import SheetCopy
from armorplan.files.svg_patch import SvgPatch
from armorplan.files.svg_write import KEPT_MM
from armorplan.files.toml_patch import UnpatchableError

HEAD = (
    '\ufeff<?xml version="1.0" encoding="UTF-8"?>\r\n<!-- a > comment with id="h1" -->\r\n'
    '<s:svg xmlns:s="http://www.w3.org/2000/svg" xmlns:own="urn:own"\r\n'
    '     xmlns:xlink="http://www.w3.org/1999/xlink" width="8in" height="6in" viewBox="-10 5 800 600">\r\n'
)
BODY = """  <s:g transform="{group}" style='fill: none'>
    <s:path own:note='id="h1" cx="7"' id="plate" d="M 20,30 L 220,30 L 220,180 L 20,180 Z"/>
    <s:circle own:cx="9" id='h1' title='a > cx="5"' class="cut" cx="60" cy='70' r="4" />
    <s:ellipse id="h2" cx="100.0" cy="70.50" rx="4" ry="4"></s:ellipse>  <!-- stays -->
    <s:use xlink:href="#h3" id="h4" x="30" transform="rotate(10)"/>
    <s:use xlink:href="#inner" id="h6" y="-9" transform="rotate(-25)"/>
    <s:line id="axis" x1="30" y1="40" x2="30" y2="170"/>
    <s:rect id="slot" x="150" y="60" width="30" height="8" rx="2"><s:title>slot</s:title></s:rect>
    <own:thing id="other" cx="3"/>
  </s:g>
  <s:defs><s:circle id="h3" cx="140" cy="120" r="4"/>
    <s:use id="inner" xlink:href="#h5" x="12" transform="translate(30 9) scale(2)"/>
    <s:circle id="h5" cx="20" cy="40" r="2" transform="scale(1.5)"/></s:defs>
</s:svg>
"""


def drawing(group: str = "translate(3 4) rotate(20) scale(1.5)") -> str:
    return HEAD + BODY.replace("{group}", group).replace("\n", "\r\n")


def read(text: str) -> Drawing:
    found = read_drawing("d.svg", text)
    assert found.readable, found.findings
    return found


def rest(found: Drawing, *left_out: str) -> dict[str, object]:
    """What a drawing holds beside some shapes, without the lines it stands in."""
    shapes = (*found.circles, *found.outlines, *found.lines)
    return {s.id: replace(s, place=None) for s in shapes if s.id not in left_out}  # type: ignore[arg-type]


def circle(found: Drawing, name: str):
    return next(c for c in found.circles if c.id == name)


GROUPS = st.builds(
    lambda turn, by, shift, hand: (
        f"translate({shift[0]:.3f} {shift[1]:.3f}) rotate({turn:.3f}) scale({by:.4f} {by * hand:.4f})"
    ),
    st.floats(-180, 180),
    st.floats(0.2, 5),
    st.tuples(st.floats(-50, 50), st.floats(-50, 50)),
    st.sampled_from((1, -1)),
)
SPOTS = st.tuples(st.floats(-300, 300), st.floats(-300, 300))


@settings(max_examples=15)
@given(group=GROUPS, to=SPOTS, which=st.sampled_from(("h1", "h2", "h4", "h6")))
def test_a_moved_hole_lies_where_it_was_put_and_all_else_stays(group, to, which):
    before = drawing(group)
    patch = SvgPatch(before)
    patch.move_circle(which, to)
    after = patch.text
    moved = circle(read(after), which)
    assert dist(moved.centre, to) < 2 * KEPT_MM
    assert moved.diameter_mm == pytest.approx(circle(read(before), which).diameter_mm)
    assert rest(read(after), which) == rest(read(before), which)
    back = SvgPatch(after)
    back.move_circle(which, circle(read(before), which).centre)
    there, was = circle(read(back.text), which), circle(read(before), which)
    assert dist(there.centre, was.centre) < 2 * KEPT_MM


def test_only_the_numbers_that_change_are_written():
    before = drawing("translate(0 0)")
    x, y = circle(read(before), "h1").centre
    patch = SvgPatch(before)
    patch.move_circle("h1", (x + 0.254, y), 5.08)
    assert patch.text == before.replace(
        'class="cut" cx="60" cy=\'70\' r="4" />', 'class="cut" cx="61" cy=\'70\' r="10" />'
    )
    assert SvgPatch(before).text == before


@settings(max_examples=15)
@given(group=GROUPS, at=SPOTS, diameter=st.floats(1, 20), like=st.sampled_from(("h1", "h4", "h6")))
def test_a_new_hole_is_drawn_behind_the_one_it_looks_like(group, at, diameter, like):
    before = drawing(group)
    patch = SvgPatch(before)
    patch.add_circle("new", at, diameter_mm=diameter, like=like)
    made = circle(read(patch.text), "new")
    assert dist(made.centre, at) < 2 * KEPT_MM
    assert made.diameter_mm == pytest.approx(diameter, abs=3 * KEPT_MM)
    assert rest(read(patch.text), "new") == rest(read(before))
    assert '\r\n    <s:circle id="new"' in patch.text
    gone = SvgPatch(patch.text)
    gone.remove("new")
    assert gone.text == before


def test_a_shape_alone_on_its_line_goes_with_the_line_and_no_other():
    before = drawing()
    for name, line in (("slot", "    <s:rect id"), ("h2", None)):
        patch = SvgPatch(before)
        patch.remove(name)
        assert rest(read(patch.text)) == rest(read(before), name)
        lost = [row for row in before.splitlines(keepends=True) if row not in patch.text]
        assert len(lost) == 1
        assert line is None or lost[0].startswith(line)
        assert "<!-- stays -->" in patch.text


@settings(max_examples=15)
@given(group=GROUPS)
def test_outlines_and_lines_are_put_in_mm_whatever_they_were_drawn_as(group):
    before, ring = drawing(group), ((10.0, 10.0), (50.0, 12.0), (30.0, 40.0))
    for name in ("plate", "slot"):
        patch = SvgPatch(before)
        patch.replace_outline(name, ring)
        outline = next(o for o in read(patch.text).outlines if o.id == name)
        assert all(dist(a, b) < 2 * KEPT_MM for a, b in zip(outline.ring, ring, strict=True))
        assert rest(read(patch.text), name) == rest(read(before), name)
        assert "<s:title>slot</s:title>" in patch.text
    patch = SvgPatch(before)
    patch.move_line("axis", (ring[0], ring[1]))
    patch.add_line("fold", (ring[1], ring[2]), like="axis")
    lines = {line.id: line.ends for line in read(patch.text).lines}
    assert dist(lines["axis"][1], ring[1]) < 2 * KEPT_MM
    assert dist(lines["fold"][0], ring[1]) < 2 * KEPT_MM
    assert rest(read(patch.text), "axis", "fold") == rest(read(before), "axis")


@settings(max_examples=15)
@given(group=GROUPS, axis=st.floats(-100, 100))
def test_turning_over_twice_changes_no_byte(group, axis):
    before = drawing(group)
    over: Transform = Identity.translate(2 * axis, 0).scale(-1, 1)
    patch = SvgPatch(before)
    for name in ("plate", "axis", "slot"):
        patch.lay(name, over)
    once = patch.text
    first = next(o for o in read(before).outlines if o.id == "plate").ring[0]
    turned = next(o for o in read(once).outlines if o.id == "plate").ring[0]
    assert dist(turned, (2 * axis - first[0], first[1])) < KEPT_MM
    patch = SvgPatch(once)
    for name in ("plate", "axis", "slot"):
        patch.lay(name, over)
    assert patch.text == before


def test_a_copy_of_a_copy_is_turned_over_where_it_lies():
    before = drawing()
    patch = SvgPatch(before)
    patch.lay("h6", Identity.translate(80, 0).scale(-1, 1))
    was, now = circle(read(before), "h6"), circle(read(patch.text), "h6")
    assert dist(now.centre, (80 - was.centre[0], was.centre[1])) < KEPT_MM
    assert rest(read(patch.text), "h6") == rest(read(before), "h6")


def test_a_new_id_stands_wherever_the_drawing_names_it():
    patch = SvgPatch(drawing().replace('<s:defs><s:circle id="h3"', '<s:defs><s:circle id="h5"'))
    with pytest.raises(UnpatchableError, match="no shape"):
        patch.rename("h4", "tab_hole")
    patch = SvgPatch(drawing())
    patch.rename("h1", "first & \"best'")
    assert rest(read(patch.text), "first & \"best'") == rest(read(drawing()), "h1")
    with pytest.raises(UnpatchableError, match="already"):
        patch.rename("h2", "h4")


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda p: p.move_circle("nothing", (1, 1)), 'no shape called "nothing"'),
        (lambda p: p.move_circle("h3", (1, 1)), "no shape"),
        (lambda p: p.move_circle("plate", (1, 1)), "is no circle, but a <path>"),
        (lambda p: p.move_circle("h4", (1, 1), 9), "unlink it"),
        (lambda p: p.replace_outline("h4", ((0, 0), (1, 0), (0, 1))), "unlink it first"),
        (lambda p: p.add_circle("h2", (1, 1), diameter_mm=4, like="h1"), "already"),
    ],
)
def test_what_cannot_be_changed_by_itself_is_told(change, words):
    with pytest.raises(UnpatchableError, match=words):
        change(SvgPatch(drawing()))


def test_a_shape_drawn_twice_or_squeezed_or_broken_is_told():
    again = drawing().replace("</s:svg>", '<s:use href="#h1"/></s:svg>')
    with pytest.raises(UnpatchableError, match="second time by a <use> in line 18"):
        SvgPatch(again).move_circle("h1", (1, 1))
    skewed = SvgPatch(drawing("skewX(30)"))
    with pytest.raises(UnpatchableError, match="oval"):
        skewed.add_circle("new", (1, 1), diameter_mm=4, like="slot")
    skewed.move_line("axis", ((1, 2), (3, 4)))
    assert read(skewed.text).lines[0].ends[1] == pytest.approx((3, 4), abs=0.002)
    with pytest.raises(UnpatchableError, match="ends too early"):
        SvgPatch(drawing()[:-20])
    with pytest.raises(UnpatchableError, match="squeezes it to nothing"):
        SvgPatch(drawing("scale(0 1)")).replace_outline("plate", ((0, 0), (1, 0), (0, 1)))


def test_what_is_drawn_within_an_outline_goes_with_it():
    before = drawing("scale(1)")
    ring = next(o for o in read(before).outlines if o.id == "plate").ring
    patch = SvgPatch(before)
    patch.lay_within(ring, Identity.translate(10, 0), {"plate", "h1"})
    was, now = read(before), read(patch.text)
    assert circle(now, "h1") == circle(was, "h1")
    assert circle(now, "h2").centre[0] == pytest.approx(circle(was, "h2").centre[0] + 10)
    assert now.lines[0].ends[0][0] == pytest.approx(was.lines[0].ends[0][0] + 10)


PLAIN = '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm" viewBox="0 0 90 90">\n'


def test_what_a_path_editor_would_draw_an_outline_anew_from_goes_with_the_old_one():
    star = (
        '<path id="plate" xmlns:e="urn:e" e:type="star" e:path-effect="#p" e:original-d="M 1 1"'
        ' e:note="mine" d="M 0 0 L 10 0 L 5 5 Z"/>'
    )
    patch = SvgPatch(f"{PLAIN}{star}\n</svg>\n")
    patch.replace_outline("plate", ((1.0, 1.0), (4.0, 1.0), (3.0, 3.0)))
    row = patch.text.splitlines()[1]
    assert row == '<path id="plate" xmlns:e="urn:e" e:note="mine" d="M 1,1 L 4,1 L 3,3 Z"/>'


def test_what_is_taken_out_leaves_nothing_of_other_changes_behind():
    row = '<circle id="a" cx="1" cy="2" r="3"/>\n'
    patch = SvgPatch(f"{PLAIN}{row}{row.replace('a', 'b')}</svg>\n")
    patch.move_circle("a", (5.0, 5.0))
    patch.remove("a")
    assert patch.text == f"{PLAIN}{row.replace('a', 'b')}</svg>\n"


@pytest.mark.parametrize("prefix", ["", "own:"])
def test_a_hole_like_one_that_says_its_language_itself_says_it_too(prefix):
    space = f'xmlns{":" if prefix else ""}{prefix.rstrip(":")}="http://www.w3.org/2000/svg"'
    patch = SvgPatch(f'{PLAIN}<{prefix}circle {space} id="a" cx="9" cy="9" r="3"/>\n</svg>\n')
    patch.add_circle("b", (20.0, 9.0), diameter_mm=6.0, like="a")
    assert {each.id for each in read(patch.text).circles} == {"a", "b"}


def test_a_sheet_of_mirrored_shapes_lies_beside_the_drawing_and_ends_its_lines_alike():
    before = drawing("scale(1)")
    sheet = SheetCopy(before, "the right side", 300.0)
    sheet.draw("h6", "h6_right", sheet.over)
    was, made = circle(read(before), "h6"), circle(read(sheet.text), "h6_right")
    assert dist(made.centre, (600 - was.centre[0], was.centre[1])) < 2 * KEPT_MM
    assert made.diameter_mm == pytest.approx(was.diameter_mm, abs=2 * KEPT_MM)
    assert sheet.text.count("\n") == sheet.text.count("\r\n")
    assert "\r" not in SheetCopy(before.replace("\r\n", "\n"), "right", 300.0).text
