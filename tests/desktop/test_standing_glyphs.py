"""Marks of standings: each has a shape of its own, and a colour that shows on both themes."""

from itertools import combinations

import pytest
from contrasts import contrast
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter

from armorplan.desktop.colours import DARK, LIGHT, MARK_RATIO
from armorplan.desktop.standing_glyphs import paint_standing, standing_colour
from armorplan.geometry.reach.model import Standing

SIDE = 28
LEAST_APART = 0.06
"""Share of the box in which two shapes differ at least."""


def painted(standing: Standing) -> list[bool]:
    """Return which pixels of its box a mark covers, in one and the same colour."""
    image = QImage(SIDE, SIDE, QImage.Format.Format_ARGB32)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    paint_standing(painter, QRectF(0, 0, SIDE, SIDE), standing, QColor("black"))
    painter.end()
    return [image.pixelColor(x, y).lightness() < 128 for y in range(SIDE) for x in range(SIDE)]


@pytest.mark.usefixtures("qapp")
def test_shapes_differ_without_colour():
    shapes = {standing: painted(standing) for standing in Standing}
    for one, other in combinations(Standing, 2):
        unlike = sum(a != b for a, b in zip(shapes[one], shapes[other], strict=True))
        assert unlike >= LEAST_APART * SIDE * SIDE, (one, other)


@pytest.mark.parametrize("colours", [LIGHT, DARK])
@pytest.mark.parametrize("standing", list(Standing))
def test_marks_show_on_their_plate(colours, standing):
    assert contrast(standing_colour(colours, standing), colours.panel) >= MARK_RATIO
