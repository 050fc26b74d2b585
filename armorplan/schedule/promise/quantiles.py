"""What finishes of many runs say: by when with which odds, and how far that may be off.

The error of a quantile is told by the runs whose rank it may be: of n runs the number that end
before the true quantile is binomial (H. A. David, H. N. Nagaraja, 'Order Statistics', 3rd ed.,
2003, section 7.1; from memory).
"""

from dataclasses import dataclass
from math import ceil, floor, sqrt
from typing import TYPE_CHECKING

from armorplan.schedule.promise.hours import NEVER

if TYPE_CHECKING:
    from armorplan.schedule.promise.doubles import Doubles

WITHIN = 1.96
"""So many standard errors hold 95 of 100 times."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantile:
    """By when it ends with certain odds; ``None``: not within the days looked ahead.

    Attributes:
        odds_pct: how often it ends by then.
        minute: from the origin.
        low, high: with other draws it would lie between these 95 times of 100.
    """

    odds_pct: int
    minute: float | None
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """A share of the runs in %, and by how much other draws would differ 95 times of 100."""

    pct: float
    error_pct: float


def quantile(ends: "Doubles", odds_pct: int) -> Quantile:
    """Return by when so many of the runs end; the later of two where it lies between."""
    import numpy as np

    if not 0 < odds_pct < 100:  # noqa: PLR2004 - per cent
        message = f"Odds are from 1 to 99 %, not {odds_pct}."
        raise ValueError(message)
    ranked, count, odds = np.sort(ends), len(ends), odds_pct / 100
    middle, reach = count * odds, WITHIN * sqrt(count * odds * (1 - odds))

    def at(rank: int) -> float | None:
        minute = float(ranked[min(max(rank, 1), count) - 1])
        return None if minute >= NEVER else minute

    return Quantile(
        odds_pct=odds_pct,
        minute=at(ceil(middle - 1e-9)),
        low=at(floor(middle - reach)),
        high=at(ceil(middle + reach)),
    )


def share_by(ends: "Doubles", due_min: float) -> Share:
    """Return how many of the runs end by a minute.

    Where all do or none does, the error is the rule of three: 3 / n (from memory).
    """
    count = len(ends)
    kept = int((ends <= due_min).sum())
    odds = kept / count
    error = WITHIN * sqrt(odds * (1 - odds) / count)
    if kept in (0, count):
        error = 3 / count
    return Share(pct=100 * odds, error_pct=100 * error)
