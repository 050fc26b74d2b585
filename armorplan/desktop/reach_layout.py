"""Where the section of a way in lies on a page: one scale in px to the mm, lengthwise and across."""

from collections.abc import Iterable
from dataclasses import dataclass

from armorplan.geometry.ways_in import Fits, Section

WALL_PX = 7.0
HEAD_PX = 9.0
"""A rivet's head stands so high over the wall."""
OUTSIDE_PX = 58.0
"""So much is shown of a tool before the opening, where there is the width for it."""
OUTSIDE_SHARE = 0.1
LEAST_INSIDE_PX = 30.0
MOST_PX_A_MM = 4.0
SLACK_PX = 4.0
"""A tool keeps so far from the far wall, so that both are seen."""
WIDE_SHARE = 1.7
"""An opening as wide as one likes is drawn so many times as wide as the tool."""
MOST_BARS = 4
RULER_LINES = 2
MORE_PX = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Lay:
    """A section on a page, in logical pixels.

    Attributes:
        scale: px to the mm, lengthwise and across.
        mouth_x: where the opening is; depths count from it to the right.
        roof_y: the inner face of the wall that the joint sits in.
        floor_y: the inner face of the wall across from it.
        is_cut: the wall across is drawn nearer than it is.
        words_y: where words below it begin.
    """

    scale: float
    mouth_x: float
    roof_y: float
    floor_y: float
    is_cut: bool
    words_y: float

    def x(self, depth_mm: float) -> float:
        """Return where a depth is drawn."""
        return self.mouth_x + depth_mm * self.scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What a picture has to lie in, in logical pixels.

    Attributes:
        right_px: kept free on the right for words.
        inside_px: the walls are drawn no further from each other.
        has_bars: further tools are drawn, and the scale has a line of its own.
    """

    wide_px: float
    line_px: float
    right_px: float
    inside_px: float
    has_bars: bool = True

    @property
    def outside_px(self) -> float:
        """How much of a tool is shown before the opening."""
        return min(OUTSIDE_PX, self.wide_px * OUTSIDE_SHARE)


def scale_of(sections: Iterable[Section], room: Room) -> float:
    """Return the scale at which every section of a picture fits, in px to the mm."""
    scale = MOST_PX_A_MM
    for section in sections:
        if section.way is None or section.tool is None:
            continue
        long_px = max(room.wide_px - room.outside_px - room.right_px, 40.0)
        across_px = max(room.inside_px - SLACK_PX, LEAST_INSIDE_PX)
        scale = min(scale, long_px / _far_mm(section), across_px / max(section.tool.thick_mm, 1.0))
    return scale


def _far_mm(section: Section) -> float:
    """Return the greatest depth that is drawn."""
    if section.way is None or section.tool is None:
        return 1.0
    reach_mm = 0.0 if section.tool.fits is Fits.NOT else section.tool.reach_mm
    return max(section.way.along_mm, reach_mm, 20.0)


def inside_px(section: Section, scale: float, room: Room) -> tuple[float, bool]:
    """Return how far the walls are drawn from each other, and whether that is nearer than true."""
    way, tool = section.way, section.tool
    if way is None or tool is None:
        return LEAST_INSIDE_PX, False
    thick_px = tool.thick_mm * scale
    if way.opening_mm is None:
        return max(thick_px * WIDE_SHARE, thick_px + LEAST_INSIDE_PX / 2), False
    wide_px = way.opening_mm * scale
    return min(wide_px, room.inside_px), wide_px > room.inside_px


def _below_px(section: Section, scale: float, room: Room) -> float:
    """Return by how much a tool that does not go in is thicker than the opening, drawn."""
    inside, _ = inside_px(section, scale, room)
    thick_px = 0.0 if section.tool is None else section.tool.thick_mm * scale
    return max(0.0, thick_px - inside - WALL_PX)


def section_px(section: Section, scale: float, room: Room) -> float:
    """Return how high a section is below its heading; one that has no way in is none."""
    if section.way is None or section.tool is None:
        return 0.0
    drawn = laid(section, 0.0, 0.0, scale, room).words_y
    lines = (RULER_LINES if room.has_bars else 1) + bars_of(section, room)
    return drawn + lines * room.line_px + MORE_PX


def bars_of(section: Section, room: Room) -> int:
    """Return how many further tools are drawn, a line each."""
    return min(max(len(section.tools) - 1, 0), MOST_BARS) if room.has_bars else 0


def laid(section: Section, top_px: float, left_px: float, scale: float, room: Room) -> Lay:
    """Return where a section lies that begins at a height."""
    inside, is_cut = inside_px(section, scale, room)
    roof_y = top_px + room.line_px + HEAD_PX + WALL_PX
    floor_y = roof_y + inside
    return Lay(
        scale=scale,
        mouth_x=left_px + room.outside_px,
        roof_y=roof_y,
        floor_y=floor_y,
        is_cut=is_cut,
        words_y=floor_y + WALL_PX + _below_px(section, scale, room) + MORE_PX / 2,
    )


def ruler_mm(scale: float, most_px: float) -> float:
    """Return how long a scale bar is: the longest of 1, 2, 5 times ten that has room."""
    steps = [first * 10**power for power in range(4) for first in (1.0, 2.0, 5.0)]
    fitting = [mm for mm in steps if mm * scale <= most_px]
    return max(fitting, default=1.0)
