"""How large the figure of a drying is, how it looks, and where things lie in it."""

from dataclasses import dataclass

from armorplan.sheets.chart_colours import ChartColours
from armorplan.sheets.time_axis import TickRoom

PX_AN_INCH = 96
POINTS_AN_INCH = 72
LETTER = 0.58
"""About the width of a letter, in its height."""
SMALL = 0.92
"""Height of words at axes and in bars, as a share of the text's."""
_WIDE = 54
"""From so many heights of its text on a figure has its names beside its bars."""
_BESIDE, _NARROW, _RIGHT = 10.2, 3.6, 3.8
_LEAST_ROW, _MOST_ROW, _ROWS_SHARE = 1.65, 2.8, 0.28
_FOOT, _GAP, _LEAST_AIR, _AIR_SHARE = 2.9, 0.7, 3.0, 0.36
_CLOCK, _DAY = 3.7, 6.4
"""A time, and a day's name, below the axis need so much."""
TOP_PX = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartLook:
    """How large the figure is (in 96ths of an inch: a window's logical pixels), and how it looks."""

    width_px: float
    height_px: float
    text_pt: float
    colours: ChartColours

    @property
    def text_px(self) -> float:
        """Height of its text."""
        return self.text_pt * PX_AN_INCH / POINTS_AN_INCH

    @property
    def small_pt(self) -> float:
        """Height of words at axes and in bars."""
        return self.text_pt * SMALL


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartPlace:
    """Where things lie, in pixels from the left and from the top of the figure.

    ``beside``: names stand left of the bars; else in them.
    """

    left: float
    right: float
    bars: tuple[float, float]
    curve: tuple[float, float]
    air: tuple[float, float]
    beside: bool

    @property
    def wide_px(self) -> float:
        """Width of its axes."""
        return self.right - self.left

    def ticks(self, look: ChartLook, minutes: float) -> TickRoom:
        """Return how close times can be written below axes that show so many minutes."""
        an_em = minutes / self.wide_px * look.text_px
        return TickRoom(clock_min=_CLOCK * an_em, day_min=_DAY * an_em)


def place_of(bars: int, look: ChartLook) -> ChartPlace:
    """Return where things lie: so many bars, below them the curve, and the air."""
    em = look.text_px
    beside = look.width_px >= _WIDE * em
    foot = look.height_px - _FOOT * em
    row = min(max(_ROWS_SHARE * foot / max(bars, 1), _LEAST_ROW * em), _MOST_ROW * em)
    bars_foot = TOP_PX + bars * row
    air = max((foot - bars_foot - 2 * _GAP * em) * _AIR_SHARE, _LEAST_AIR * em)
    return ChartPlace(
        left=(_BESIDE if beside else _NARROW) * em,
        right=look.width_px - _RIGHT * em,
        bars=(TOP_PX, bars_foot),
        curve=(bars_foot + _GAP * em, foot - air - _GAP * em),
        air=(foot - air, foot),
        beside=beside,
    )


def height_px(bars: int, text_px: float) -> float:
    """Return a height at which nothing is cramped, for paper."""
    curve, air = 20.0, 10.0
    return TOP_PX + text_px * (bars * _MOST_ROW + curve + air + 2 * _GAP + _FOOT)
