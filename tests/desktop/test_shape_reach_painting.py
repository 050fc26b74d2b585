"""The painted section of a way in: to scale, in both themes, and the same in words."""

import numpy as np
import pytest
from desktop.reach_scenes import (
    BETWEEN,
    CLOSED,
    OPEN_ROW,
    REFUSED,
    SCENES,
    SHORT,
    SPARE,
    SQUASHED,
    picture,
    tool,
    way,
)
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.picture_colours import mixed
from armorplan.desktop.reach_layout import OUTSIDE_PX, Room, laid, ruler_mm, scale_of
from armorplan.desktop.shapes_picture_words import picture_words
from armorplan.desktop.shapes_reach_words import (
    Tone,
    depth_words,
    opening_words,
    tone_colour,
    tone_of,
    verdict_words,
)
from armorplan.desktop.widgets.shape_reach_painting import (
    BOLD_SHARE,
    LOW,
    ROOMY,
    form_for,
    paint_reach,
    reach_height,
)
from armorplan.desktop.widgets.shape_sheet_painting import PAD_PX, Sheet
from armorplan.desktop.widgets.shapes_picture import ShapePicture
from armorplan.geometry.ways_in import Getting

WIDE = 760
ROOM = Room(wide_px=736.0, line_px=16.0, right_px=150.0, inside_px=170.0)


def sheet_of(qapp, colours=LIGHT):
    return Sheet(colours=colours, font=qapp.font())


def painted(qapp, shown, colours=LIGHT, form=ROOMY, wide=WIDE):
    sheet = sheet_of(qapp, colours)
    image = QImage(wide, reach_height(sheet, shown, wide, form), QImage.Format.Format_RGB32)
    image.fill(QColor(colours.panel))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    paint_reach(painter, sheet, shown, QRectF(0, 0, image.width(), image.height()))
    painter.end()
    return image


def columns(image, colour):
    """Return the columns in which a colour is painted."""
    pixels = np.frombuffer(image.constBits(), np.uint32).reshape(image.height(), image.width())
    seen = (pixels & 0xFFFFFF) == int(colour.removeprefix("#"), 16)
    return [int(x) for x in np.flatnonzero(seen.any(axis=0))]


def metal(colours):
    return mixed(colours.bar, colours.edge, 0.2)


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_the_horn_ends_where_its_reach_ends_and_the_gap_is_as_long_as_it_is_short(qapp, colours):
    alone = picture(Getting.CANNOT, way(), tool())
    image = painted(qapp, alone, colours)
    sheet = sheet_of(qapp, colours)
    words = sheet.metrics.horizontalAdvance("at least 000 mm short")
    right = words * BOLD_SHARE + PAD_PX
    scale = (WIDE - 2 * PAD_PX - OUTSIDE_PX - right) / 330.0
    mouth = PAD_PX + OUTSIDE_PX
    body = columns(image, metal(colours))
    assert body[0] == pytest.approx(PAD_PX, abs=2)
    assert body[-1] == pytest.approx(mouth + 250.0 * scale, abs=4)
    red = columns(image, tone_colour(Tone.BAD, colours))
    gap = [x for x in red if x > body[-1]]
    assert gap[0] == pytest.approx(mouth + 250.0 * scale, abs=3)
    assert mouth + 330.0 * scale == pytest.approx(gap[0] + 80.0 * scale, abs=3)


def test_lengthwise_and_across_it_is_drawn_to_one_scale():
    section = SHORT.sections[-1]
    scale = scale_of(SHORT.sections, ROOM)
    lay = laid(section, 0.0, 0.0, scale, ROOM)
    assert lay.x(330.0) - lay.x(0.0) == pytest.approx(330.0 * scale)
    assert lay.floor_y - lay.roof_y == pytest.approx(80.0 * scale)
    assert not lay.is_cut


def test_an_opening_too_wide_for_the_room_is_drawn_cut_but_never_narrower_than_the_tool():
    room = Room(wide_px=736.0, line_px=16.0, right_px=150.0, inside_px=54.0)
    section = BETWEEN.sections[-1]
    lay = laid(section, 0.0, 0.0, scale_of(BETWEEN.sections, room), room)
    assert lay.is_cut
    assert lay.floor_y - lay.roof_y > section.tool.thick_mm * lay.scale


def test_all_states_of_a_picture_have_one_scale():
    both = picture(
        Getting.CANNOT, way(), tool(), before=picture(Getting.REACHED, way(20.0), tool()).sections
    )
    assert scale_of(both.sections, ROOM) == scale_of(both.sections[-1:], ROOM)


@pytest.mark.parametrize("name", sorted(SCENES))
@pytest.mark.parametrize("colours", [LIGHT, DARK])
@pytest.mark.parametrize("wide", [WIDE, 300])
def test_every_scene_is_painted_in_each_form(qapp, name, colours, wide):
    for form in (ROOMY, LOW):
        image = painted(qapp, SCENES[name], colours, form, wide)
        tone = tone_of(SCENES[name].sections[-1])
        seen = columns(image, tone_colour(tone, colours))
        assert seen, (name, form)
        assert seen[-1] < wide - 1


@pytest.mark.parametrize("name", sorted(SCENES))
def test_it_fits_into_180_px_and_says_so_by_its_form(qapp, name):
    sheet = sheet_of(qapp)
    assert reach_height(sheet, SCENES[name], WIDE, LOW) <= 180
    assert form_for(sheet, SCENES[name], WIDE, 0) == LOW
    high = reach_height(sheet, SCENES[name], WIDE, ROOMY)
    assert form_for(sheet, SCENES[name], WIDE, high) == ROOMY


def test_a_verdict_has_a_sign_and_words_beside_its_colour():
    told = {
        name: (tone_of(s.sections[-1]), verdict_words(s.sections[-1]))
        for name, s in SCENES.items()
    }
    assert told == {
        "short": (Tone.BAD, "80\N{NO-BREAK SPACE}mm short"),
        "spare": (Tone.GOOD, "75\N{NO-BREAK SPACE}mm to spare"),
        "between": (Tone.DOUBT, "up to 40\N{NO-BREAK SPACE}mm short"),
        "refused": (Tone.BAD, "no tool goes in"),
        "squashed": (Tone.DOUBT, "130\N{NO-BREAK SPACE}mm to spare, squashed wider"),
        "open row": (Tone.GOOD, "175\N{NO-BREAK SPACE}mm to spare"),
        "closed": (Tone.BAD, "no opening is left for a tool"),
    }


def test_depths_and_openings_in_words():
    plain = [s.sections[-1].way for s in (SHORT, SPARE, BETWEEN, OPEN_ROW)]
    said = [depth_words(each).replace("\N{NO-BREAK SPACE}", " ") for each in plain]
    assert said == [
        "lies 330 mm in",
        "lies 140 to 175 mm in",
        "lies 230 to 290 mm in",
        "lies up to 75 mm in",
    ]
    said = [opening_words(each).replace("\N{NO-BREAK SPACE}", " ") for each in plain]
    cut = opening_words(plain[0], is_cut=True).replace("\N{NO-BREAK SPACE}", " ")
    assert cut == "mouth, 80 mm (drawn narrower)"
    assert said == [
        "mouth, 80 mm",
        "mouth, 80 mm",
        "mouth, at most 120 mm",
        "open left row, wide open",
    ]


def test_whoever_hears_it_is_told_the_same():
    said = picture_words(SHORT).replace("\N{NO-BREAK SPACE}", " ")
    assert said == (
        "With nothing else set, 'strap_a': lies flat, any tool serves. "
        "Once the row is shut, 'strap_a': 80 mm short. Seen from the mouth, 80 mm, it lies 330 mm in. "
        "Horn, 250 mm long: 80 mm short. Block, 160 mm long: 170 mm short, squashed wider."
    )
    said = picture_words(REFUSED).replace("\N{NO-BREAK SPACE}", " ")
    assert "does not go in: takes 35 mm, squashed it gives 31 mm" in said
    assert "squashed wider" in picture_words(SQUASHED)
    assert picture_words(CLOSED).endswith("no opening is left for a tool.")


def test_a_scale_bar_is_round_and_has_room():
    assert ruler_mm(1.0, 120.0) == 100.0
    assert ruler_mm(0.5, 120.0) == 200.0
    assert ruler_mm(2.0, 120.0) == 50.0


def test_the_widget_needs_what_the_low_form_takes_and_wants_the_roomy_one(qtbot):
    shown = ShapePicture()
    qtbot.addWidget(shown)
    shown.show_picture(SHORT)
    assert 0 < shown.least_px(WIDE) <= 180 < shown.wanted_px(WIDE)
    assert "80" in shown.accessibleName()
    shown.resize(WIDE, 300)
    shown.grab()
