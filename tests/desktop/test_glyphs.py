"""Each state has a silhouette of its own, and a word."""

from itertools import combinations

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from armorplan.app.rows import BenchState
from armorplan.desktop.colours import LIGHT
from armorplan.desktop.glyphs import paint_state, state_word


def painted(state: BenchState, colour: str = "#000000") -> QImage:
    image = QImage(20, 20, QImage.Format.Format_RGB32)
    image.fill(QColor("#ffffff"))
    painter = QPainter(image)
    paint_state(painter, QRectF(0, 0, 20, 20), state, colour)
    painter.end()
    return image


def inked(image: QImage) -> set[tuple[int, int]]:
    return {
        (x, y) for x in range(20) for y in range(20) if image.pixelColor(x, y).lightness() < 128
    }


def test_no_two_states_look_alike_in_one_colour(qapp):
    shapes = {state: inked(painted(state)) for state in BenchState}
    for one, other in combinations(BenchState, 2):
        differing = shapes[one] ^ shapes[other]
        assert len(differing) > 40, (one, other)


@pytest.mark.parametrize("state", list(BenchState))
def test_a_mark_takes_its_colour_and_has_a_word(qapp, state):
    colour = LIGHT.state(state)
    image = painted(state, colour)
    assert QColor(colour) in [image.pixelColor(x, y) for x in range(20) for y in range(20)]
    assert state_word(state) == state.value
