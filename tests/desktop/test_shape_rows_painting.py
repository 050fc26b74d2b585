"""The painted rows: what is out is red on its own row, and its arrow leads the way it is to move."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from armorplan.desktop.colours import LIGHT
from armorplan.desktop.shapes_picture_words import picture_words
from armorplan.desktop.widgets.shape_rows_painting import paint_rows, rows_height
from armorplan.desktop.widgets.shape_sheet_painting import Sheet
from armorplan.geometry.pictures import RowSide, RowsPicture

WIDE = 600
SIDES = tuple(
    RowSide(
        part=part,
        name=f"{part} part",
        along_mm=(0.0, 20.0, 40.0, 60.0, 80.0),
        holes=tuple(f"{part}_{at}" for at in range(5)),
    )
    for part in ("upper", "lower")
)


def _out(row, **off):
    return RowsPicture(
        rows=tuple(replace(side, **off) if n == row else side for n, side in enumerate(SIDES))
    )


def _red(qapp, picture):
    """Return where the picture is painted in the colour of what is out, as shares of its size."""
    sheet = Sheet(colours=LIGHT, font=qapp.font())
    high = int(rows_height(sheet, picture))
    image = QImage(WIDE, high, QImage.Format.Format_RGB32)
    image.fill(QColor(LIGHT.panel))
    painter = QPainter(image)
    painter.setFont(qapp.font())
    paint_rows(painter, sheet, picture, QRectF(0, 0, WIDE, high))
    painter.end()
    alarm = QColor(LIGHT.alarm).rgb()
    return [
        (x / WIDE, y / high)
        for x in range(WIDE)
        for y in range(high)
        if image.pixel(x, y) == alarm
    ]


def test_nothing_is_red_where_all_meet(qapp):
    assert not _red(qapp, RowsPicture(rows=SIDES))


@pytest.mark.parametrize("row", [0, 1])
@pytest.mark.parametrize("off_mm", [6.0, -6.0])
def test_red_lies_on_the_row_whose_hole_is_out_and_reaches_the_way_it_moves(qapp, row, off_mm):
    picture = _out(row, off_mm=(0.0, 0.0, off_mm, 0.0, 0.0))
    red = _red(qapp, picture)
    assert red
    half = [y < 0.62 for _, y in red]
    assert all(half) if row == 0 else not any(half)
    lefts = [x for x, _ in red]
    reaches = (0.5 - min(lefts), max(lefts) - 0.5)
    assert (reaches[0] > reaches[1]) == (off_mm > 0)
    name, way = SIDES[row].name, "left" if off_mm > 0 else "right"
    assert f"hole 3 of {name}, to move 6.0\N{NO-BREAK SPACE}mm to the {way}." in picture_words(
        picture
    )


@pytest.mark.parametrize("row", [0, 1])
def test_a_hole_beside_its_row_is_red_on_that_row_only(qapp, row):
    picture = _out(row, aside_mm=(0.0, 0.0, 0.0, 3.0, 0.0))
    red = _red(qapp, picture)
    assert {y < 0.62 for _, y in red} == {row == 0}
    assert all(0.6 < x < 0.95 for x, _ in red)
    said = f"hole 4 of {SIDES[row].name} lies 3.0\N{NO-BREAK SPACE}mm beside its row"
    assert said in picture_words(picture)


def test_spacings_that_miss_are_red_on_both_rows(qapp):
    red = _red(qapp, RowsPicture(rows=SIDES, missing=(1,)))
    assert {y < 0.5 for _, y in red} == {True, False}
    assert all(0.2 < x < 0.55 for x, _ in red)
    words = picture_words(RowsPicture(rows=SIDES, missing=(1,)))
    assert "holes 2–3 are not as far apart on both" in words
