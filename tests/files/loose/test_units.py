"""What one unit is: by the file's word, and by holes and size where it has none or lies."""

import pytest
from files.loose.messy import (
    Mess,
    as_dxf,
    as_half_arcs,
    as_svg,
    in_pieces,
    lantern_plates,
    plain,
    seeded,
)
from files.loose.reading_kit import loose

from armorplan.geometry.brought.model import Sureness

PLATES = lantern_plates(seeded(2), 4)
MESS = plain(PLATES[:2])
SVG = '<svg xmlns="http://www.w3.org/2000/svg" {}>'
NAMES = {1.0: "mm", 25.4 / 96: "96 an inch", 25.4 / 72: "72 an inch", 25.4: "inch", 10.0: "cm"}


def unit(folder, mm_each, attrs):
    return loose(folder, as_svg(MESS, mm_each=mm_each, head=SVG.format(attrs)).encode()).unit


def near(unit, mm_each):
    return unit.mm_each == pytest.approx(mm_each, rel=1e-6)


def test_the_page_says_it(tmp_path):
    found = unit(tmp_path, 0.5, 'width="500mm" height="200mm" viewBox="0 0 1000 400"')
    assert near(found, 0.5)
    assert found.sureness is Sureness.SAID
    assert "500 × 200 mm" in found.why
    assert 0.5 not in found.others


@pytest.mark.parametrize("mm_each", [1.0, 25.4 / 96, 25.4, 10.0])
def test_no_word_of_a_unit(tmp_path, mm_each):
    found = unit(tmp_path, mm_each, f'viewBox="0 0 {500 / mm_each} {400 / mm_each}"')
    assert near(found, mm_each), found
    assert found.sureness is not Sureness.SAID


def test_no_word_of_a_unit_and_holes_in_pieces(tmp_path):
    mess = in_pieces(plain(PLATES[:2], as_half_arcs), seeded(3))
    head = SVG.format('viewBox="0 0 500 400"')
    found = loose(tmp_path, as_svg(mess, head=head).encode()).unit
    assert near(found, 1.0)
    assert "round holes" in found.why


def test_72_to_the_inch_is_among_those_asked_about(tmp_path):
    found = unit(tmp_path, 25.4 / 72, 'viewBox="0 0 1400 1100"')
    assert any(f == pytest.approx(25.4 / 72) for f in (found.mm_each, *found.others[:2]))


def test_a_page_in_pixels_scales_its_numbers(tmp_path):
    # 1000 px wide, numbers of 2000: one unit is half a pixel.
    found = unit(tmp_path, 25.4 / 96 / 2, 'width="1000" height="800px" viewBox="0 0 2000 1600"')
    assert near(found, 25.4 / 96 / 2)


@pytest.mark.parametrize("wrong", [25.4, 1 / 25.4, 10.0, 0.1])
def test_a_page_that_is_wrong_by_so_much_is_doubted(tmp_path, wrong):
    attrs = f'width="{500 * wrong}mm" height="{400 * wrong}mm" viewBox="0 0 500 400"'
    found = unit(tmp_path, 1.0, attrs)
    assert near(found, 1.0), found
    assert found.sureness is Sureness.GUESSED
    assert any(f == pytest.approx(wrong) for f in found.others)


def test_a_page_that_says_mm_is_believed_though_little_is_drawn(tmp_path):
    head = SVG.format('width="100mm" height="100mm" viewBox="0 0 100 100"')
    found = loose(tmp_path, '<rect width="4" height="4"/>', head=head).unit
    assert near(found, 1.0)
    assert found.sureness is Sureness.GUESSED
    assert found.others[0] == pytest.approx(25.4)
    assert "That is small: with 1 unit = 25.4 mm the whole drawing is 102 mm long." in found.why
    guard = '<circle cx="6" cy="6" r="6"/><circle cx="6" cy="6" r="1.5"/>'
    assert near(loose(tmp_path, guard, head=head).unit, 1.0)


def test_a_header_that_says_mm_is_doubted_sooner(tmp_path):
    """Programs write it unasked, and small parts drawn in inches are common."""
    data = as_dxf(Mess(lines=[(((0, 0), (4, 0), (4, 3)), True, None, "cut")]), units=4)
    assert near(loose(tmp_path, data, name="watch.dxf").unit, 25.4)


def test_long_lengths_are_told_in_whole_mm(tmp_path):
    body = '<rect width="15933" height="3"/>'
    found = loose(tmp_path, body, head=SVG.format('viewBox="0 0 16000 100"')).unit
    assert "e+" not in found.why
    assert " mm long" in found.why


def test_curves_are_fine_enough_for_every_unit_that_may_be(tmp_path):
    body = '<path d="M0 0A40 40 0 0 1 80 0A40 40 0 0 1 0 0z"/>'
    found = loose(tmp_path, body, head=SVG.format('viewBox="0 0 90 90"'))
    widest = max(found.unit.mm_each, *found.unit.others)
    (stroke,) = found.strokes
    area = abs(
        sum(
            x0 * y1 - x1 * y0
            for (x0, y0), (x1, y1) in zip(
                stroke.points, (*stroke.points[1:], stroke.points[0]), strict=True
            )
        )
        / 2
    )
    # Chords cut off two thirds of their rise along the whole length.
    lost = 2 / 3 * (0.05 / widest) * 2 * 3.1416 * 40
    assert 3.14159 * 1600 - lost <= area <= 3.14160 * 1600


@pytest.mark.parametrize(
    ("units", "mm_each"), [(1, 25.4), (4, 1.0), (5, 10.0), (6, 1000.0), (14, 100.0)]
)
def test_a_dxf_says_it_in_its_header(tmp_path, units, mm_each):
    found = loose(tmp_path, as_dxf(MESS, units=units, mm_each=mm_each), name="watch.dxf").unit
    assert near(found, mm_each)
    assert found.sureness is Sureness.SAID


def test_a_dxf_of_metres_drawn_in_mm(tmp_path):
    found = loose(tmp_path, as_dxf(MESS, units=6), name="watch.dxf").unit
    assert near(found, 1.0)
    assert found.sureness is Sureness.GUESSED
    assert "numbers are m" in found.why


@pytest.mark.parametrize("mm_each", [1.0, 25.4])
def test_a_dxf_without_a_unit(tmp_path, mm_each):
    found = loose(tmp_path, as_dxf(MESS, units=0, mm_each=mm_each), name="watch.dxf").unit
    assert near(found, mm_each)
    assert found.sureness is not Sureness.SAID
