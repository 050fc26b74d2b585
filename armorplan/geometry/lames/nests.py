"""The spans of two plates on each other, and how grave it is that they do not nest."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import pi, radians, sin

from armorplan.geometry.lames.articulation import bowed_mm
from armorplan.geometry.lames.links import Link, PairKey
from armorplan.kernel.findings import Severity
from armorplan.workshop.constants import Constants

_SEEN = 0.5
"""From this share of the play that soft leather has on, a bow or what is missing is told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Nest:
    """The spans of two plates on each other, both screwed at the same two pivots.

    The inner plate lies on the limb and keeps its bend. Each pivot runs square through both
    leathers, so that the ends of the outer plate are held d further out than those of the inner.
    Between them the outer plate can only stand as far off as its own length lets it.
    """

    link: Link
    outer_mm: float
    inner_mm: float

    @property
    def more_mm(self) -> float:
        """By how much the outer span has to be longer."""
        return self.link.apart_mm * radians(self.link.wrap.wrap_deg)

    @property
    def off_mm(self) -> float:
        """By how much the outer span is longer than it has to be; below 0 shorter."""
        return self.outer_mm - self.inner_mm - self.more_mm

    @property
    def chord_mm(self) -> float:
        """The straight way between the pivots at the outer plate: 2 (R + d) sin(wrap / 2)."""
        angle = radians(self.link.wrap.wrap_deg)
        radius = self.inner_mm / angle + self.link.apart_mm
        return 2 * radius * sin(min(angle / 2, pi))

    @property
    def stands_mm(self) -> float:
        """How far the middle of the outer plate stands off the line between its pivots, in mm."""
        return bowed_mm(self.outer_mm, self.chord_mm)

    @property
    def fits_mm(self) -> float:
        """How far it would stand off with the right length, on the inner plate all the way."""
        return bowed_mm(self.outer_mm - self.off_mm, self.chord_mm)

    @property
    def bow_mm(self) -> float:
        """How far it stands off the plate under it; below 0 it comes short of going over it."""
        return self.stands_mm - self.fits_mm

    @property
    def other_way(self) -> "Nest":
        """The same two with the inner one outside."""
        return replace(self, outer_mm=self.inner_mm, inner_mm=self.outer_mm)


def nest(link: Link) -> Nest:
    """Return two plates as they are drawn."""
    return Nest(link=link, outer_mm=link.outer.girth_mm, inner_mm=link.inner.girth_mm)


def flat(links: Mapping[PairKey, Link]) -> dict[PairKey, Link]:
    """Return the links whose spans on the flat leather tell their girth."""
    return {key: link for key, link in links.items() if not link.drawn_in}


def gravity(told: Nest, constants: Constants) -> Severity | None:
    """Return how grave it is that two plates do not nest.

    One too long only stands off, and is judged by its bow; one too short is judged by what is
    missing: it goes over the plate under it only by crushing it.
    """
    if told.off_mm > 0:
        play = constants.soft_play.value
        return _graded(told.bow_mm, (play * _SEEN, play, None))
    short, bad = constants.short_lame.value, constants.bad_short_lame.value
    return _graded(-told.off_mm, (short * _SEEN, short, bad))


def _graded(mm: float, limits: tuple[float, float, float | None]) -> Severity | None:
    note, warning, error = limits
    if error is not None and mm > error:
        return Severity.ERROR
    if mm > warning:
        return Severity.WARNING
    return Severity.NOTE if mm > note else None
