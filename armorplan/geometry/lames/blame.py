"""Which of two plates that do not nest is the one that is off: by its own bend, and by its other neighbours."""

from collections.abc import Mapping
from dataclasses import dataclass

from armorplan.geometry.lames.links import Link, PairKey
from armorplan.geometry.lames.nests import Nest, gravity, nest
from armorplan.geometry.lames.radii import allowance_mm
from armorplan.geometry.lames.seats import Seat
from armorplan.geometry.told import listed
from armorplan.pattern.joining import Form
from armorplan.workshop.constants import Constants

_AGAINST, _FOR = 0.5, 0.25
"""A bend speaks against a span that is longer by this share of what is off, and for one within that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blame:
    """The plate that is off, and why.

    Attributes:
        seat: its pivots.
        bend_mm: how far its own bend takes its pivots apart; ``None`` where that does not speak
            against it.
        misfits: its other neighbours that it does not nest with either, by name.
        cleared: the other plate.
        fits: what the other plate fits, in words.
    """

    seat: Seat
    bend_mm: float | None
    misfits: tuple[str, ...]
    cleared: str
    fits: tuple[str, ...]

    @property
    def words(self) -> str:
        """Why it is this plate, as a sentence."""
        name = self.seat.part.name
        said = []
        if self.bend_mm is not None:
            said.append(
                f"its own bend takes {self.bend_mm:.1f} mm, and its pivots lie {self.seat.girth_mm:.1f} mm apart"
            )
        if self.misfits:
            said.append(
                f"it does not nest with the {listed(list(self.misfits), last=' or the ')} either"
            )
        if self.fits:
            said.append(f"the {self.cleared} fits {listed(list(self.fits))}")
        return f"It is the {name} that is off: {'; '.join(said)}."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Witness:
    """What speaks against a plate and for it."""

    seat: Seat
    bend_mm: float | None
    misfits: tuple[str, ...]
    fits: tuple[str, ...]

    @property
    def score(self) -> int:
        return len(self.misfits) + (self.bend_mm is not None) - len(self.fits)


def _witness(seat: Seat, off_mm: float, beside: Mapping[str, bool], bend: Form | None) -> _Witness:
    fits = [f"the {name}" for name, fit in beside.items() if fit]
    told = None if bend is None else allowance_mm(bend, seat.part)
    over = 0.0 if told is None else seat.girth_mm - told
    if told is not None and abs(over) < off_mm * _FOR:
        fits.insert(0, "its own bend")
    return _Witness(
        seat=seat,
        bend_mm=told if over > off_mm * _AGAINST else None,
        misfits=tuple(name for name, fit in beside.items() if not fit),
        fits=tuple(fits),
    )


def _beside(
    part: str, key: PairKey, links: Mapping[PairKey, Link], constants: Constants
) -> dict[str, bool]:
    """Return by name the other plates that a plate turns on, and whether it nests with each."""
    found: dict[str, bool] = {}
    for other, link in sorted(links.items()):
        if other != key and part in other:
            neighbour = link.seat(next(each for each in other if each != part)).part
            found[neighbour.name] = gravity(nest(link), constants) is None
    return found


def blame(
    told: Nest, links: Mapping[PairKey, Link], bends: Mapping[str, Form], constants: Constants
) -> Blame | None:
    """Return which of two plates is off; ``None`` where it may be either.

    Args:
        told: the two as they are drawn.
        links: all pairs whose spans tell their girth.
        bends: the bend of each plate that has one, with its radius and angle.
        constants: what is accepted.
    """
    key, off_mm = told.link.key, abs(told.off_mm)
    one, other = (
        _witness(
            seat, off_mm, _beside(seat.part.id, key, links, constants), bends.get(seat.part.id)
        )
        for seat in (told.link.outer, told.link.inner)
    )
    if one.score == other.score:
        return None
    guilty, clear = (one, other) if one.score > other.score else (other, one)
    return Blame(
        seat=guilty.seat,
        bend_mm=guilty.bend_mm,
        misfits=guilty.misfits,
        cleared=clear.seat.part.name,
        fits=clear.fits,
    )
