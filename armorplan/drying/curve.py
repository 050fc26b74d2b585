"""The way of one drying to be seen: how far it is, as a band, and the air it goes through."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from math import isfinite

from armorplan.drying.body import Multiples
from armorplan.drying.track import GRID_MIN, cell_of, start_of
from armorplan.workshop.air import Climate

DRY_PCT = 100.0
"""Dry to handle; cure goes on beyond, and is told by its span alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """One drying along its time.

    The per cent are the share of the way to 'dry to handle', counted in minutes at the reference
    air; they stay at 100 from there on, also where the treatment goes on to cure. They are not the
    water that has left: a thing loses most of that early. The likely curve reaches 100 at the likely
    minutes of ``DryTimes``, the low one at its latest, the high one at its soonest.

    Attributes:
        at: instants (UTC): the start, each quarter of an hour after it, each stage at its soonest,
            likely and latest, the end.
        dry_pct_low: per cent of the way for each instant, if it dries slowly.
        dry_pct_likely: likely.
        dry_pct_high: if it dries fast.
        temperature_c: of the air at each instant.
        humidity_pct: relative.
        air_m_s: how fast it moves.
    """

    at: tuple[datetime, ...]
    dry_pct_low: tuple[float, ...]
    dry_pct_likely: tuple[float, ...]
    dry_pct_high: tuple[float, ...]
    temperature_c: tuple[float, ...]
    humidity_pct: tuple[float, ...]
    air_m_s: tuple[float, ...]


def instants_of(
    start_at: datetime, until_at: datetime, knots: Iterable[datetime] = ()
) -> tuple[datetime, ...]:
    """Return the start, the borders of the 15-minute grid after it, and the end.

    Args:
        start_at: where it begins.
        until_at: where it ends.
        knots: where a line bends as well; what lies outside is left out.

    Raises:
        ValueError: the end is before the start.
    """
    start_at, until_at = start_at.astimezone(UTC), until_at.astimezone(UTC)
    if until_at < start_at:
        message = f"a curve does not end at {until_at:%Y-%m-%d %H:%M}, before it begins"
        raise ValueError(message)
    border = start_of(cell_of(start_at) + 1)
    inside = max(0, -((border - until_at) // timedelta(minutes=GRID_MIN)))
    borders = (border + timedelta(minutes=GRID_MIN) * at for at in range(inside))
    inner = (at.astimezone(UTC) for at in knots)
    bends = (at for at in inner if start_at < at < until_at)
    return tuple(sorted({start_at, *borders, *bends, until_at}))


def knots_of(from_at: datetime, bands: Iterable[Multiples]) -> list[datetime]:
    """Return the instants of bands of minutes from an instant on; what is never has none."""
    return [
        from_at.astimezone(UTC) + timedelta(minutes=minutes)
        for band in bands
        for minutes in band
        if isfinite(minutes)
    ]


def curve_of(
    at: tuple[datetime, ...],
    air: Sequence[Climate],
    passed: tuple[Sequence[float], Sequence[float], Sequence[float]],
    doses: Multiples,
) -> Curve:
    """Return the curve of a drying.

    Args:
        at: instants from its start on.
        air: of each instant.
        passed: minutes at the reference that have passed by each instant: least, likely, most.
        doses: minutes at the reference it takes to be dry to handle: least, likely, most.
    """
    slow, likely, fast = passed
    least, middle, most = doses
    return Curve(
        at=at,
        dry_pct_low=_shares(slow, most),
        dry_pct_likely=_shares(likely, middle),
        dry_pct_high=_shares(fast, least),
        temperature_c=tuple(c.temperature_c for c in air),
        humidity_pct=tuple(c.humidity_pct for c in air),
        air_m_s=tuple(c.air_m_s for c in air),
    )


def _shares(passed: Sequence[float], dose: float) -> tuple[float, ...]:
    if not dose:
        return (DRY_PCT,) * len(passed)
    return tuple(min(DRY_PCT, DRY_PCT * minutes / dose) for minutes in passed)
