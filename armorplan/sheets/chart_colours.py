"""Colours of a figure on light and on dark ground."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartColours:
    """Colours of the figure, as matplotlib reads them."""

    ground: str
    ink: str
    quiet: str
    line: str
    night: str
    drying: str
    holds: str
    warm: str
    damp: str
    alarm: str


LIGHT = ChartColours(
    ground="#ffffff",
    ink="#222222",
    quiet="#5a5a5a",
    line="#c4c4c4",
    night="#eef0f4",
    drying="#8a5a00",
    holds="#f4dfb2",
    warm="#a83b00",
    damp="#00507f",
    alarm="#a3113f",
)
DARK = ChartColours(
    ground="#1f2124",
    ink="#eeeeee",
    quiet="#b4b4b4",
    line="#55585d",
    night="#2a2d33",
    drying="#f0b64a",
    holds="#5c4a22",
    warm="#ff9a5c",
    damp="#7cc4f2",
    alarm="#ff8fab",
)
