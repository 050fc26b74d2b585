"""Paints the way in to a joint in section, to scale: wall, opening, tool, and what it is short by."""

from math import ceil
from typing import NamedTuple

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter

from armorplan.desktop.reach_layout import Room, bars_of, laid, scale_of, section_px
from armorplan.desktop.shapes_reach_words import tone_colour, tone_of, tone_sign, verdict_words
from armorplan.desktop.widgets.shape_reach_leather import LeatherSketch
from armorplan.desktop.widgets.shape_reach_lengths import LengthSketch
from armorplan.desktop.widgets.shape_reach_tool import ToolSketch
from armorplan.desktop.widgets.shape_sheet_painting import PAD_PX, Sheet, width_of
from armorplan.geometry.ways_in import ReachPicture, Section

HEADING_PX = 4.0
BETWEEN_PX = 8.0
BARS_WIDE_PX = 520.0
"""Where it is narrower further tools have no room for their names."""
RIGHT_SHARE = 0.3
"""So much of the width at most is kept free on the right for words."""
BOLD_SHARE = 1.12
"""Bold words are so much wider."""


class Form(NamedTuple):
    """How a picture is drawn: how far the walls are apart at most, further tools, every state."""

    inside_px: float
    has_bars: bool
    has_all: bool


ROOMY = Form(inside_px=170.0, has_bars=True, has_all=True)
LOW = Form(inside_px=54.0, has_bars=False, has_all=False)
"""Of states before the last one only the words are left."""
FORMS = (
    ROOMY,
    Form(inside_px=130.0, has_bars=True, has_all=True),
    Form(inside_px=100.0, has_bars=True, has_all=True),
    Form(inside_px=80.0, has_bars=True, has_all=True),
    Form(inside_px=80.0, has_bars=False, has_all=True),
    Form(inside_px=140.0, has_bars=True, has_all=False),
    Form(inside_px=100.0, has_bars=True, has_all=False),
    Form(inside_px=100.0, has_bars=False, has_all=False),
    Form(inside_px=80.0, has_bars=False, has_all=False),
    LOW,
)
"""From the roomiest to the one that takes least height."""


def reach_height(sheet: Sheet, picture: ReachPicture, wide_px: float, form: Form = ROOMY) -> int:
    """Return the height that a picture needs at a width in one of its forms, in logical pixels."""
    room = _room(sheet, wide_px, form)
    scale = scale_of(_drawn(picture, form), room)
    headings = len(picture.sections) * (sheet.line_px + HEADING_PX)
    between = (len(picture.sections) - 1) * BETWEEN_PX * form.has_all
    drawn = sum(section_px(section, scale, room) for section in _drawn(picture, form))
    return ceil(2 * _pad_px(form) + headings + between + drawn)


def form_for(sheet: Sheet, picture: ReachPicture, wide_px: float, high_px: float) -> Form:
    """Return the roomiest form that a height has room for; else the lowest."""
    forms = (form for form in FORMS if wide_px >= BARS_WIDE_PX or not form.has_bars)
    fitting = (f for f in forms if reach_height(sheet, picture, wide_px, f) <= high_px)
    return next(fitting, LOW)


def _room(sheet: Sheet, wide_px: float, form: Form) -> Room:
    return Room(
        wide_px=wide_px - 2 * PAD_PX,
        line_px=sheet.line_px,
        right_px=_right_px(sheet, wide_px),
        inside_px=form.inside_px,
        has_bars=form.has_bars,
    )


def _right_px(sheet: Sheet, wide_px: float) -> float:
    """Return how much is kept free for the words on what is missing; nothing where it is narrow."""
    words_px = width_of(sheet, "at least 000 mm short") * BOLD_SHARE + PAD_PX
    return words_px if words_px <= wide_px * RIGHT_SHARE else PAD_PX


def _drawn(picture: ReachPicture, form: Form) -> tuple[Section, ...]:
    return picture.sections if form.has_all else picture.sections[-1:]


def _pad_px(form: Form) -> float:
    return PAD_PX if form.has_all else PAD_PX / 2


def paint_reach(painter: QPainter, sheet: Sheet, picture: ReachPicture, box: QRectF) -> None:
    """Paint state below state into a box; where it is low only the last one is drawn."""
    form = form_for(sheet, picture, box.width(), box.height())
    room = _room(sheet, box.width(), form)
    drawn = _drawn(picture, form)
    scale = scale_of(drawn, room)
    inner = box.adjusted(PAD_PX, 0, -PAD_PX, 0)
    y = box.top() + _pad_px(form)
    for at, section in enumerate(picture.sections):
        y += BETWEEN_PX * (at > 0 and form.has_all)
        heading = QRectF(inner.left(), y, inner.width(), sheet.line_px)
        _paint_heading(painter, sheet, section, heading)
        y += sheet.line_px + HEADING_PX
        way, tool = section.way, section.tool
        if way is not None and tool is not None and section in drawn:
            lay = laid(section, y, inner.left(), scale, room)
            leather = LeatherSketch(painter, sheet, inner, lay)
            held = ToolSketch(painter, sheet, inner, lay)
            leather.zone(way)
            leather.walls(way, tool)
            leather.opening(way, tool)
            held.tool(tool)
            leather.bounds(way, tool)
            leather.joint(way, picture.joint)
            held.ending(way, tool, tone_colour(tone_of(section), sheet.colours))
            lengths = LengthSketch(painter, sheet, inner, lay)
            lengths.lengths(way, is_low=not form.has_bars)
            y += section_px(section, scale, room)
            lengths.bars(way, section.tools[1 : 1 + bars_of(section, room)], y)


def _paint_heading(painter: QPainter, sheet: Sheet, section: Section, line: QRectF) -> None:
    """Write the state, and beside it with its sign how it turns out."""
    tone = tone_of(section)
    colour = tone_colour(tone, sheet.colours)
    bold = QFont(sheet.font)
    bold.setBold(True)
    verdict = f"{tone_sign(tone)} {verdict_words(section)}"
    painter.setFont(bold)
    wide = painter.fontMetrics().horizontalAdvance(verdict)
    when = f"{section.when[:1].upper()}{section.when[1:]}:"
    least = min(wide + 8.0, line.width())
    painter.setFont(sheet.font)
    painter.setPen(QColor(sheet.colours.text))
    short = sheet.metrics.elidedText(when, Qt.TextElideMode.ElideMiddle, line.width() - least)
    painter.drawText(line, Qt.AlignmentFlag.AlignVCenter, short)
    painter.setFont(bold)
    painter.setPen(QColor(colour))
    rest = line.adjusted(width_of(sheet, short) + 8, 0, 0, 0)
    painter.drawText(rest, Qt.AlignmentFlag.AlignVCenter, verdict)
