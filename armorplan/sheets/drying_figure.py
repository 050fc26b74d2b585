"""What the figure of one drying shows; no drawing."""

from dataclasses import dataclass
from datetime import datetime

from armorplan.drying.curve import Curve
from armorplan.drying.instants import Instants

_S_A_DAY = 24 * 3600


@dataclass(frozen=True, slots=True, kw_only=True)
class WindowBar:
    """A window with its name and its words; without an end it stays open."""

    name: str
    words: str
    opens: Instants
    closes: Instants | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Shades:
    """Stretches that are shaded, and in a word what they are: night, or closed hours."""

    word: str = ""
    spans: tuple[tuple[datetime, datetime], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingFigure:
    """What the figure shows, from ``start_at`` to ``until_at``.

    Attributes:
        trouble: that it does not dry or would spoil, written over the curve; empty: it dries.
        zone: of the shop, whose hours are written below.
        other: the way in another air or leather, drawn beside this one; ``None``: nothing is asked.
        film_c: the coldest air that its film forms in; ``None`` where that does not matter.
        look_at: when it was last found still damp; ``None``: never.
    """

    trouble: str
    zone: str
    start_at: datetime
    until_at: datetime
    windows: tuple[WindowBar, ...]
    curve: Curve
    other: Curve | None = None
    film_c: float | None = None
    shades: Shades = Shades()
    look_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingPaper:
    """A figure for itself, with lines above it and notes at its foot."""

    title: str
    sentences: tuple[str, ...]
    figure: DryingFigure
    notes: tuple[str, ...] = ()


def day(at: datetime) -> float:
    """Return an instant as matplotlib counts along an axis of time: in days."""
    return at.timestamp() / _S_A_DAY
