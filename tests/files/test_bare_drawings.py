"""A bare SVG opens with nothing typed: what is a part, a hole, a slot; sizes; look-alikes."""

import pytest
from files.small_cuff import OPEN_SVG, SHELF

from armorplan.files.bare_drawing import bare_drawing
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import from_texts, read_folder
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.parts import PartKind

LEFT = '<path id="left" d="M 10 10 H 60 V 50 L 30 60 L 10 50 Z"/>'
RIGHT = '<path id="right" d="M 130 10 H 80 V 50 L 110 60 L 130 50 Z"/>'


def opened(tmp_path, body, name="petals.svg"):
    (tmp_path / name).write_text(f"{OPEN_SVG}{body}</svg>", encoding="utf-8")
    found = read_pattern(read_folder(tmp_path / name), SHELF)
    assert found.pattern is not None, found.findings
    return found


def parts_of(found):
    return {part.id: part for part in found.pattern.parts}


def told(found, code):
    return [f.text for f in found.findings if f.code == code]


def test_outlines_are_parts_and_circles_in_them_holes(tmp_path):
    found = opened(tmp_path, f'{LEFT}<circle id="row_1" cx="20" cy="20" r="2"/>{RIGHT}')
    parts = parts_of(found)
    assert list(parts) == ["left", "right"]
    assert [h.id for h in parts["left"].holes] == ["row_1"]
    assert parts["left"].kind is PartKind.PLATE
    assert parts["left"].thickness_mm == 3.6
    assert found.pattern.name == "Petals"
    assert found.pattern.slug == "petals"


def test_sizes_areas_and_holes_are_told(tmp_path):
    found = opened(
        tmp_path,
        '<rect id="plate" x="10" y="10" width="100" height="60"/>'
        '<circle cx="20" cy="20" r="2"/><circle cx="30" cy="20" r="2"/>'
        '<circle cx="40" cy="20" r="1.5"/><rect x="60" y="30" width="24" height="5"/>',
    )
    (words,) = told(found, "drawn-part")
    # 6000 - 120 mm² of slot - holes of 2 x 4π and 2.25π mm²: 58.48 cm²; 1 ft² is 929.03 cm².
    assert words == (
        "'plate' is 100 × 60 mm, 0.58 dm² (0.06 ft²); holes: 1 of 3 mm, 2 of 4 mm; "
        "slots: 24 × 5 mm."
    )


def test_mirror_twins_and_near_twins_are_told_in_mm(tmp_path):
    near = '<path id="near" d="M 140 12 H 188 V 50 L 160 60 L 140 50 Z"/>'
    found = opened(tmp_path, LEFT + RIGHT + near)
    first, *others = told(found, "look-alikes")
    assert first == "'left' and 'right' are mirror twins, 0.0 mm apart."
    assert len(others) == 2
    assert all("near-twins, " in words and " mm apart" in words for words in others)


def test_shapes_without_ids_are_named_by_their_label_or_numbered(tmp_path):
    body = LEFT.replace('id="left"', 'aria-label="Left petal"') + RIGHT.replace('id="right" ', "")
    parts = parts_of(opened(tmp_path, body))
    assert {part.id: part.name for part in parts.values()} == {
        "Left_petal": "Left petal",
        "part_2": "part 2",
    }


def test_a_frame_round_the_page_is_no_part(tmp_path):
    frame = '<rect id="page" x="1" y="1" width="198" height="98"/>'
    holes = '<circle cx="20" cy="20" r="2"/><circle cx="90" cy="20" r="2"/>'
    found = opened(tmp_path, frame + LEFT + RIGHT + holes)
    assert list(parts_of(found)) == ["left", "right"]
    assert told(found, "drawn-frame") == [
        '"page" lies round several parts and is taken for the frame of the page.'
    ]


def test_parts_nested_in_a_cut_out_are_parts(tmp_path):
    ring = (
        '<rect id="ring" x="5" y="5" width="90" height="80"/>'
        '<rect id="window" x="20" y="20" width="60" height="50"/>'
        '<rect id="boss" x="30" y="30" width="20" height="20"/>'
    )
    found = opened(tmp_path, ring)
    parts = parts_of(found)
    assert list(parts) == ["ring", "boss"]
    assert [slot.id for slot in parts["ring"].slots] == ["window"]
    assert len(told(found, "nested-part")) == 1


def test_a_large_circle_in_no_outline_is_a_round_part(tmp_path):
    body = '<circle cx="50" cy="50" r="20"></circle><circle id="mid" cx="50" cy="50" r="2"/>'
    found = opened(tmp_path, body)
    (part,) = found.pattern.parts
    assert part.name == "round part 1"
    assert [hole.id for hole in part.holes] == ["mid"]
    assert told(found, "drawn-part")[0].startswith("'round part 1' is 40 × 40 mm, 0.12 dm²")


def test_a_shape_drawn_twice_is_one_part(tmp_path):
    found = opened(tmp_path, LEFT + LEFT.replace("left", "left_line"))
    assert list(parts_of(found)) == ["left"]
    assert len(told(found, "drawn-twice")) == 1


def test_open_paths_and_crossing_outlines_are_told_once_each(tmp_path):
    body = LEFT + '<path d="M 100 80 H 120 V 90"/><path id="over" d="M 50 20 H 90 V 40 H 50 Z"/>'
    found = opened(tmp_path, body)
    assert len(told(found, "open-path")) == 1
    assert "102" not in told(found, "open-path")[0]
    assert len(told(found, "outlines-cross")) == 1
    warnings = [f.code for f in found.findings if f.severity is Severity.WARNING]
    assert sorted(warnings) == ["open-path", "outlines-cross"]


def test_straight_lines_may_be_what_leather_bends_about(tmp_path):
    found = opened(tmp_path, LEFT + '<line id="fold" x1="10" y1="30" x2="60" y2="30"/>')
    assert len(told(found, "drawn-lines")) == 1
    assert told(found, "open-path") == []


def test_long_and_narrow_may_be_a_strap(tmp_path):
    found = opened(tmp_path, '<rect id="band" x="5" y="5" width="150" height="20"/>' + LEFT)
    assert ["strap" in words for words in told(found, "drawn-part")] == [True, False]


@pytest.mark.parametrize(
    ("body", "code"),
    [("", "no-outline"), ('<circle cx="5" cy="5" r="2"/>', "no-outline"), ("<g>", "broken-xml")],
)
def test_what_holds_no_part_is_refused(tmp_path, body, code):
    (tmp_path / "x.svg").write_text(f"{OPEN_SVG}{body}</svg>", encoding="utf-8")
    with pytest.raises(UnreadableError) as refused:
        read_folder(tmp_path / "x.svg")
    assert refused.value.findings[0].code == code


def test_a_drawing_without_a_unit_is_told(tmp_path):
    (tmp_path / "x.svg").write_text(
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 100">{LEFT}</svg>',
        encoding="utf-8",
    )
    found = read_pattern(read_folder(tmp_path / "x.svg"), SHELF)
    assert found.pattern is None
    assert [f.code for f in found.findings if f.severity is Severity.ERROR] == ["no-unit"]


def test_the_same_drawing_is_the_same_pattern(tmp_path):
    one, again = opened(tmp_path, LEFT), opened(tmp_path, LEFT)
    other = opened(tmp_path, RIGHT)
    assert one.pattern.uuid == again.pattern.uuid
    assert one.pattern.content_hash == again.pattern.content_hash
    assert one.pattern.uuid != other.pattern.uuid


def test_a_build_of_a_bare_drawing_comes_back_from_its_texts(tmp_path):
    (tmp_path / "x.svg").write_text(f"{OPEN_SVG}{LEFT}{RIGHT}</svg>", encoding="utf-8")
    source = read_folder(tmp_path / "x.svg")
    again = read_pattern(from_texts(source.slug, source.as_texts()), SHELF)
    assert again.pattern == read_pattern(source, SHELF).pattern


def test_the_samples_drawing_gives_the_parts_of_its_pattern():
    folder = samples_folder() / "elbow_cop"
    whole = read_pattern(read_folder(folder), SHELF).pattern
    bare = read_pattern(read_folder(folder / "elbow_cop.svg"), SHELF).pattern
    assert {p.id: len(p.holes) for p in bare.parts} == {p.id: len(p.holes) for p in whole.parts}


def test_prefixed_and_hidden_elements_stay_sound():
    svg = (
        '<?xml version="1.0" encoding="UTF-8"?><s:svg xmlns:s="http://www.w3.org/2000/svg" '
        'width="200mm" height="100mm" viewBox="0 0 200 100"><!-- <path d=""/> -->'
        '<s:defs><s:rect x="0" y="0" width="4" height="4"/></s:defs>'
        '<s:circle cx="50" cy="50" r="20" style="fill:none"><s:title>ß</s:title></s:circle>'
        '<s:rect x="90" y="10" width="40" height="40"/></s:svg>'
    )
    drawn = bare_drawing("ß.svg", svg)
    found = read_pattern(from_texts("x", {"pattern.toml": drawn.toml, "ß.svg": drawn.svg}), SHELF)
    assert [part.name for part in found.pattern.parts] == ["round part 1", "part 1"]


def test_a_folder_with_a_drawing_only_says_how_to_begin(tmp_path):
    (tmp_path / "cop.svg").write_text(f"{OPEN_SVG}{LEFT}</svg>", encoding="utf-8")
    with pytest.raises(UnreadableError) as refused:
        read_folder(tmp_path)
    (finding,) = refused.value.findings
    assert finding.code == "no-such-file"
    assert "armorplan bring cop.svg -o FOLDER" in finding.remedy
