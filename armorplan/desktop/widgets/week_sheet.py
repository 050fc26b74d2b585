"""What the painting of the coming days needs to know, and its heading of days and hours."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen

from armorplan.desktop.colours import Colours
from armorplan.desktop.picture_colours import Look
from armorplan.desktop.week_geometry import WeekGeometry
from armorplan.desktop.week_layout import Block, Lane, hour_step, hours, midnights
from armorplan.desktop.wording import day_text

PAD_PX = 6.0
HOURS_A_DAY = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """What the painting needs to know, and the instants in view."""

    geometry: WeekGeometry
    colours: Colours
    font: QFont
    seen: tuple[datetime, datetime]
    deep: tuple[float, float]
    """From where to where below the heading one sees."""
    chosen: frozenset[str]
    """Steps that are chosen; empty where nothing is."""
    closed: str
    """What the closed hours are called."""
    air: str
    """What the strip of the air is called."""
    change: str = ""
    """What the change of a bath is called."""
    open_build: str = ""
    """The id of the open build."""
    compares: bool = False
    """Whether it is drawn where things lay as promised."""

    def lanes(self) -> Iterator[tuple[Lane, float]]:
        """Yield every lane in view, with its top."""
        tops = self.geometry.tops
        for number, lane in enumerate(self.geometry.lanes):
            if tops[number + 1] >= self.deep[0] and tops[number] <= self.deep[1]:
                yield lane, tops[number]

    def look(self, block: Block) -> Look:
        """Return how a block is drawn beside what is chosen."""
        if not self.chosen:
            return Look.PLAIN
        return Look.PLAIN if self.chosen.isdisjoint(block.steps) else Look.LIT


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The part of the sheet in view.

    ``size`` is the viewport's, ``offset`` where the first midnight lies in it below the heading;
    ``air_px`` is how much of the heading the air takes, at its foot; ``now`` is the present with
    its words, ``ring`` what has the keys.
    """

    size: QSize
    offset: QPointF
    margin_px: float
    heading_px: float
    air_px: float
    now: tuple[datetime, str]
    ring: str


def label_step(sheet: Sheet) -> int:
    """Return how many hours lie between two clock labels."""
    label = QFontMetricsF(sheet.font).horizontalAdvance("00:00") + 12
    return hour_step(sheet.geometry.px_an_hour, label)


def has_days(sheet: Sheet) -> bool:
    """Tell whether days are wide enough to be named; else weeks are."""
    wide = QFontMetricsF(sheet.font).horizontalAdvance("00 000")
    return sheet.geometry.px_an_hour * HOURS_A_DAY >= wide


def paint_heading(
    painter: QPainter, sheet: Sheet, height: float, now: tuple[datetime, str]
) -> None:
    """Paint days and clock hours along the top, and where the present stands among them."""
    geometry, colours = sheet.geometry, sheet.colours
    metrics = QFontMetricsF(sheet.font)
    left, right = (geometry.x(at) for at in sheet.seen)
    painter.fillRect(QRectF(left, 0, right - left, height), QColor(colours.window))
    foot = height - metrics.descent() - 4
    flag = _flag_box(sheet, metrics, foot, now)
    painter.setFont(sheet.font)
    painter.setPen(QColor(colours.quiet))
    for at in hours(*sheet.seen, geometry.zone, label_step(sheet)):
        text = f"{at.astimezone(geometry.zone):%H:%M}"
        half = metrics.horizontalAdvance(text) / 2
        x = geometry.x(at)
        if x + half < flag.left() - PAD_PX / 2 or x - half > flag.right() + PAD_PX / 2:
            painter.drawText(QPointF(x - half, foot), text)
    _paint_days(painter, sheet, metrics, left, only_mondays=not has_days(sheet))
    painter.setPen(QPen(QColor(colours.line), 1.0))
    painter.drawLine(QPointF(left, height - 0.5), QPointF(right, height - 0.5))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colours.strong))
    painter.drawRoundedRect(flag, 4, 4)
    painter.setPen(QColor(colours.strong_text))
    painter.drawText(flag, Qt.AlignmentFlag.AlignCenter, now[1])


def _flag_box(
    sheet: Sheet, metrics: QFontMetricsF, foot: float, now: tuple[datetime, str]
) -> QRectF:
    """Return the place of the flag over the present: whole while its line is in view."""
    at, text = now
    box = metrics.boundingRect(text).adjusted(-PAD_PX, -2, PAD_PX, 2)
    x = sheet.geometry.x(at)
    box.moveCenter(QPointF(x, foot - metrics.ascent() / 2 + 1))
    left, right = (sheet.geometry.x(seen) for seen in sheet.seen)
    if left <= x <= right:
        box.moveLeft(min(max(box.left(), left + 2), right - box.width() - 2))
    return box


def _paint_days(
    painter: QPainter, sheet: Sheet, metrics: QFontMetricsF, left: float, *, only_mondays: bool
) -> None:
    """Paint each day's name at its midnight; the first stays in view while its day does.

    Where days are narrow only Mondays are named, and the first day in view.
    """
    geometry = sheet.geometry
    bold = QFont(sheet.font)
    bold.setBold(True)
    wide = QFontMetricsF(bold)
    starts = list(midnights(*sheet.seen, geometry.zone))
    if only_mondays:
        starts = [at for at in starts if not at.astimezone(geometry.zone).weekday()] or starts[:1]
    ends = [geometry.x(at) for at in starts[1:]] + [geometry.x(sheet.seen[1]) + 1e6]
    painter.setFont(bold)
    painter.setPen(QColor(sheet.colours.text))
    for at, end in zip(starts, ends, strict=True):
        x = max(geometry.x(at), left) + PAD_PX
        whole = day_text(at, geometry.zone)
        fitting = (t for t in (whole, whole.split(" ")[0]) if wide.horizontalAdvance(t) < end - x)
        painter.drawText(QPointF(x, metrics.ascent() + 3), next(fitting, ""))
    painter.setFont(sheet.font)
