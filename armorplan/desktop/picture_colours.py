"""Colours of the pictures, mixed from a theme's: leather by kind and layer, lit and dimmed."""

from dataclasses import dataclass
from enum import StrEnum

from armorplan.desktop.colours import Colours
from armorplan.kernel.findings import Severity
from armorplan.pattern.parts import PartKind

LAYER_SHARE = 0.08
"""How much lighter each layer outward is drawn than the one under it."""
MOST_LAYERS = 4
TINT_SHARE = 0.55
DIM_SHARE = 0.6
OXBLOOD = "#7a3b1e"
TRIM_SHARE = 0.2
"""So much of it is in a trim's colour: a trim sets off from what it covers."""


class Look(StrEnum):
    """How a thing is drawn beside what is chosen."""

    PLAIN = "plain"
    LIT = "lit"
    DIM = "dim"


@dataclass(frozen=True, slots=True, kw_only=True)
class Coat:
    """Fill, edge and text of a shape, ``#rrggbb``, and the width of its edge in pixels."""

    fill: str
    edge: str
    text: str
    edge_px: float


def mixed(one: str, other: str, share: float) -> str:
    """Return ``one`` with a share (0 to 1) of ``other`` mixed in, all ``#rrggbb``."""
    pairs = ((int(one[i : i + 2], 16), int(other[i : i + 2], 16)) for i in (1, 3, 5))
    return "#" + "".join(f"{round(a + (b - a) * share):02x}" for a, b in pairs)


def leather(colours: Colours, kind: str, layer: int) -> str:
    """Return the fill of a part of this kind; layers outward are lighter."""
    ground = colours.strap if kind in (PartKind.STRAP, PartKind.KEEPER) else colours.leather
    if kind == PartKind.TRIM:
        ground = mixed(ground, OXBLOOD, TRIM_SHARE)
    outward = min(max(layer, 0), MOST_LAYERS)
    if colours.dark:  # its text is light, so the lightest layer is the theme's own leather
        return mixed(ground, "#000000", LAYER_SHARE * (MOST_LAYERS - outward))
    return mixed(ground, "#ffffff", LAYER_SHARE * outward)


def coat(colours: Colours, fill: str, look: Look) -> Coat:
    """Return how a shape of this fill is drawn."""
    if look is Look.LIT:
        tinted = mixed(fill, colours.chosen, TINT_SHARE)
        return Coat(fill=tinted, edge=colours.focus, text=colours.text, edge_px=3.5)
    if look is Look.DIM:
        faded = mixed(fill, colours.panel, DIM_SHARE)
        faint = mixed(colours.edge, colours.panel, 0.5)
        return Coat(fill=faded, edge=faint, text=colours.quiet, edge_px=1.0)
    return Coat(fill=fill, edge=colours.edge, text=colours.text, edge_px=1.4)


def severity_colour(colours: Colours, severity: Severity | None) -> str:
    """Return the colour of a mark: alarm, amber, blue; of what is sound, that of quiet text."""
    return {
        Severity.ERROR: colours.alarm,
        Severity.WARNING: colours.drying,
        Severity.NOTE: colours.running,
        None: colours.quiet,
    }[severity]
