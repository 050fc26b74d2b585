"""Marks on judged answers differ by shape as well as by colour and words, and can be seen."""

import pytest
from contrasts import contrast
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QImage, QPainter

from armorplan.desktop.colours import DARK, LIGHT, MARK_RATIO
from armorplan.desktop.drill_marks import Mark, mark_colour, mark_words, paint_mark


def drawn(mark):
    image = QImage(24, 24, QImage.Format.Format_ARGB32)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    paint_mark(painter, QRectF(2, 2, 20, 20), mark, LIGHT)
    painter.end()
    return frozenset(
        (x, y) for x in range(24) for y in range(24) if image.pixelColor(x, y).alpha() > 127
    )


def test_each_mark_has_a_shape_of_its_own(qapp):
    shapes = {mark: drawn(mark) for mark in Mark}
    assert all(shapes.values())
    assert shapes[Mark.STAYS] == shapes[Mark.RIGHT], "both say that nothing is to be done"
    told = [shapes[mark] for mark in Mark if mark is not Mark.STAYS]
    assert len(set(told)) == len(told)


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("mark", Mark)
def test_marks_can_be_seen_on_chosen_rows_and_others(colours, mark):
    for ground in (colours.panel, colours.chosen):
        assert contrast(mark_colour(colours, mark), ground) >= MARK_RATIO


def test_no_two_marks_say_the_same():
    assert len({mark_words(mark) for mark in Mark}) == len(Mark)
