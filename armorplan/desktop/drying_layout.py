"""How large the picture of a drying is, how it looks, and where things lie in it."""

from dataclasses import dataclass
from datetime import datetime, tzinfo

from armorplan.desktop.colours import Colours

DPI = 96
POINTS_AN_INCH = 72
LETTER = 0.6
"""About the width of a letter, in its height."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlotLook:
    """How large the picture is (logical pixels, at a ratio of device pixels), and how it looks."""

    width_px: int
    height_px: int
    ratio: float
    text_pt: float
    colours: Colours
    zone: tzinfo
    now_at: datetime

    @property
    def text_px(self) -> float:
        """Height of its text."""
        return self.text_pt * DPI / POINTS_AN_INCH

    @property
    def row_px(self) -> float:
        """Height of a bar."""
        return self.text_px + 8


@dataclass(frozen=True, slots=True, kw_only=True)
class PlotLayout:
    """Where things lie, in logical pixels from the left and from the top."""

    left: float
    right: float
    bars: tuple[float, float]
    curve: tuple[float, float]
    air: tuple[float, float]


def layout_of(bars: int, look: PlotLook) -> PlotLayout:
    """Return where things lie: so many bars, below them the curve, and the air."""
    margin = 3.4 * look.text_px
    gap = look.text_px * 0.6
    bars_px = bars * look.row_px
    foot = look.height_px - 2.9 * look.text_px
    rest = foot - bars_px - 2 * gap - 4
    air = max(rest * 0.36, 3 * look.text_px)
    return PlotLayout(
        left=margin,
        right=look.width_px - margin,
        bars=(4, 4 + bars_px),
        curve=(4 + bars_px + gap, foot - air - gap),
        air=(foot - air, foot),
    )


def day(at: datetime) -> float:
    """Return an instant as a number along the axis of time: in days."""
    return at.timestamp() / (24 * 3600)


def day_or(at: datetime | None, never: float) -> float:
    """Return the same, or what stands for never."""
    return never if at is None else day(at)
