"""How large letters have to be to be read from where the maker stands. No widgets here."""

from dataclasses import dataclass
from math import hypot, radians, tan

LEAST_ARCMIN = 16.0
"""Least height of a capital as it is seen (ISO 9241-303 asks for 16 at least; from memory)."""
A_DEGREE = 60
AN_INCH_MM = 25.4
USUAL_PX_PER_MM = 96 / AN_INCH_MM
"""Taken where a screen does not say how large it is: what desktops reckon with then."""
LIKELY_PX_PER_MM = (1.0, 20.0)
"""A screen that says less or more does not know its own size (a projector, a virtual one)."""
LEAST_TARGET_PX = 88
"""Least side of what is pressed at the bench: hit by a knuckle, with dye on the fingers."""


def capital_mm(distance_mm: float, *, arcmin: float = LEAST_ARCMIN) -> float:
    """Return how high in mm a capital has to be to be read from a distance in mm."""
    return distance_mm * tan(radians(arcmin / A_DEGREE))


@dataclass(frozen=True, slots=True, kw_only=True)
class ScreenFacts:
    """What a screen says of itself.

    Attributes:
        wide_px, high_px: in device-independent pixels.
        wide_mm, high_mm: as it says; 0 where it does not.
        own_diagonal_mm: as the maker says; 0: as the screen says.
    """

    wide_px: float
    high_px: float
    wide_mm: float = 0.0
    high_mm: float = 0.0
    own_diagonal_mm: float = 0.0

    @property
    def px_per_mm(self) -> float:
        """Device-independent pixels to the mm."""
        if self.own_diagonal_mm > 0:
            return hypot(self.wide_px, self.high_px) / self.own_diagonal_mm
        return self._said if self.is_known else USUAL_PX_PER_MM

    @property
    def is_known(self) -> bool:
        """Whether the maker, or the screen in a way that can be, says how large it is."""
        low, high = LIKELY_PX_PER_MM
        return self.own_diagonal_mm > 0 or low <= self._said <= high

    @property
    def _said(self) -> float:
        diagonal_mm = hypot(self.wide_mm, self.high_mm)
        return hypot(self.wide_px, self.high_px) / diagonal_mm if diagonal_mm else 0.0

    @property
    def diagonal_mm(self) -> float:
        """The diagonal that is reckoned with, in mm."""
        return hypot(self.wide_px, self.high_px) / self.px_per_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Sight:
    """Where the maker stands, before which screen, and how much larger it is wanted.

    Attributes:
        distance_mm: from the eyes to the screen.
        px_per_mm: of the screen.
        pct: the maker's own hand on it; 100: as reckoned.
    """

    distance_mm: float
    px_per_mm: float
    pct: float = 100.0

    @property
    def capital_px(self) -> float:
        """How high a capital is wanted, in device-independent pixels."""
        return capital_mm(self.distance_mm) * self.px_per_mm * self.pct / 100

    def body_px(self, capital_share: float) -> int:
        """Return the font's pixel size; ``capital_share`` is what a capital is of it."""
        return max(1, round(self.capital_px / capital_share))

    def readable_mm(self, capital_px: float) -> float:
        """Return from how far, in mm, capitals of so many pixels are read."""
        return capital_px / self.px_per_mm / capital_mm(1.0)
