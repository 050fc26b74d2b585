"""How deep a joint lies, as steps of shade under its mark: told by number and word as well."""

from bisect import bisect_left

from armorplan.desktop.colours import Colours
from armorplan.desktop.picture_colours import mixed
from armorplan.geometry.reach.model import Margin

SHADES_FROM_MM = (50, 100, 200)
"""A joint that lies deeper than each of these has the next shade; the first has none."""
SHADE_SHARES = (0.0, 0.10, 0.19, 0.27)
"""So much of the colour of letters is mixed into the ground; more would hide the mark on it."""


def shade_of(margin: Margin) -> int:
    """Return the step of depth of a joint, 0 for a shallow one; none goes in where none is known."""
    if margin.way is None:
        return 0
    return bisect_left(SHADES_FROM_MM, margin.way.along_mm)


def shade_colour(colours: Colours, shade: int) -> str:
    """Return the ground under a mark, ``#rrggbb``."""
    return mixed(colours.panel, colours.text, SHADE_SHARES[shade])
