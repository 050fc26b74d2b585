"""Prices and pins of today on the shelf a build was started with."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any, Protocol, TypeVar

from armorplan.workshop.shelf import Shelf


class _Entry(Protocol):
    @property
    def id(self) -> str: ...


_E = TypeVar("_E", bound=_Entry)


def with_prices(kept: Shelf, today: Shelf) -> Shelf:
    """Return the kept shelf with the prices and the currency of today's, entry by entry, and its pins.

    Nothing but cost follows from a price, and nothing but rounds of a dry fit from pins, so that a
    running build may know today's.
    """
    return replace(
        kept,
        leathers=_priced(kept.leathers, today.leathers, "price_per_dm2"),
        fasteners=_priced(kept.fasteners, today.fasteners, "price_each"),
        hardware=_priced(kept.hardware, today.hardware, "price_each"),
        supplies=_priced(kept.supplies, today.supplies, "price_per_m"),
        treatments=_priced(kept.treatments, today.treatments, "price_per_litre"),
        currency=today.currency,
        pins=today.pins,
    )


def _priced(kept: Sequence[_E], today: Sequence[_E], price: str) -> tuple[_E, ...]:
    known = {entry.id: getattr(entry, price) for entry in today}
    return tuple(_with(entry, price, known.get(entry.id)) for entry in kept)


def _with(entry: Any, price: str, value: float | None) -> Any:
    return replace(entry, **{price: value})
