"""Each kind of moment has a silhouette of its own, words, and a colour that shows on every ground.

Contrast by WCAG 2.2: 4.5 for text (1.4.3), 3 for marks (1.4.11).
"""

from itertools import combinations

import pytest
from contrasts import contrast
from desktop.test_glyphs import inked
from desktop.test_glyphs import painted as painted_state
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from armorplan.app.bells import BellKind
from armorplan.app.rows import BenchState
from armorplan.desktop.bell_glyphs import (
    ahead_text,
    bell_colour,
    bell_word,
    paint_bell,
    passed_text,
)
from armorplan.desktop.colours import DARK, LIGHT

THEMES = pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])


def painted(kind, colour="#000000"):
    image = QImage(20, 20, QImage.Format.Format_RGB32)
    image.fill(QColor("#ffffff"))
    painter = QPainter(image)
    paint_bell(painter, QRectF(0, 0, 20, 20), kind, colour)
    painter.end()
    return image


def test_no_two_moments_look_alike_in_one_colour_and_none_like_a_state(qapp):
    shapes = [(kind, inked(painted(kind))) for kind in BellKind]
    states = [(state, inked(painted_state(state))) for state in BenchState]
    for (one, ink), (other, more) in combinations(shapes + states, 2):
        if isinstance(one, BellKind) or isinstance(other, BellKind):
            assert len(ink ^ more) > 40, (one, other)


@pytest.mark.parametrize("kind", list(BellKind))
def test_a_mark_takes_its_colour(qapp, kind):
    colour = bell_colour(LIGHT, kind)
    image = painted(kind, colour)
    assert QColor(colour) in [image.pixelColor(x, y) for x in range(20) for y in range(20)]


def test_every_moment_is_told_in_words_of_its_own():
    assert len({bell_word(kind) for kind in BellKind}) == len(BellKind)
    assert len({ahead_text(kind, "16:20") for kind in BellKind}) == len(BellKind)
    assert len({passed_text(kind, "16:20") for kind in BellKind}) == len(BellKind)
    assert ahead_text(BellKind.OPENS, "16:20") == "opens 16:20"


@THEMES
@pytest.mark.parametrize("kind", list(BellKind))
def test_its_colour_can_be_read_on_every_ground_of_a_card(colours, kind):
    for ground in (colours.panel, colours.window, colours.bar):
        assert contrast(bell_colour(colours, kind), ground) >= 4.5


@THEMES
def test_a_card_that_rings_can_be_read(colours):
    assert contrast(colours.alarm_text, colours.alarm) >= 4.5
    assert contrast(colours.alarm, colours.window) >= 3
