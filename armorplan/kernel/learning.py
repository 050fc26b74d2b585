"""One factor learned from what was seen: log-normal, on a grid, outliers damped.

What is learned is by how much something takes longer or shorter here than reckoned. Every case has
a factor of its own: its logarithm scatters normally about that of the median. What was seen of a
case is between which bounds its factor lies, or about where, or both. A few cases are of another
kind (a timer left running, the wrong piece looked at); they scatter widely and teach nothing.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import exp, inf, log, pi, sqrt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from numpy import float64
    from numpy.typing import NDArray

    Doubles = NDArray[float64]

DECILE = 1.2815515655446004
"""Standard normal quantile of 90 %: eight of ten lie between this on both sides."""
MOST_CASES = 300
"""More than so many tell nothing new, and a grid as fine as this one holds what they tell."""
_REACH, _CELL = 3.0, 0.01
"""The grid of ln f: from minus to plus this (a twentieth to twenty times), and how fine."""
_TINY = 1e-300
_DAMPED = 0.5
"""A case that is likelier of another kind than one of the many is named as damped."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prior:
    """What is known before anything was seen; all spreads are of the factor's logarithm.

    Attributes:
        spread: of one case, before anything was learned.
        runs: how much cases of one shop differ by themselves; less than ``spread``.
        odd_share: how many cases are of another kind.
        odd_spread: how widely those scatter.
    """

    spread: float
    runs: float
    odd_share: float = 0.05
    odd_spread: float = 1.0

    @property
    def median_spread(self) -> float:
        """Spread of the shop's median: what of one case's is not the cases' own."""
        return sqrt(self.spread**2 - self.runs**2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """What was seen of one case.

    Attributes:
        id: names it.
        above, upto: its factor lies above the first and not above the second.
        about: its factor by measuring; ``None`` where it was only looked at.
        about_spread: how far that is off, of its logarithm; above 0 where there are bounds too.
        weight: how much it counts: 1, or less where several tell of the same.
    """

    id: str
    above: float = 0.0
    upto: float = inf
    about: float | None = None
    about_spread: float = 0.0
    weight: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Damped:
    """A case that counts for little.

    Attributes:
        share: how likely it is one of the many, 0 to 1.
        alone: no case counts in full: it is far off what was expected, not off others.
    """

    id: str
    share: float
    alone: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """What was learned.

    Attributes:
        factor: the median.
        spread: of one further case, of its logarithm.
        interval: in eight of ten the median lies between these.
        seen: how many cases it rests on, damped ones too.
    """

    factor: float
    spread: float
    interval: tuple[float, float]
    seen: float
    damped: tuple[Damped, ...]


def deciles(middle: float, spread: float) -> tuple[float, float, float]:
    """Return what is log-normal about a median at 10, 50 and 90 % of cases."""
    wide = exp(DECILE * spread)
    return middle / wide, middle, middle * wide


def learn(prior: Prior, cases: Iterable[Case]) -> Learned:
    """Return what cases tell of the factor. Their order does not matter."""
    return _learned(prior, tuple(sorted(cases, key=lambda case: case.id)))


@lru_cache(maxsize=256)
def _learned(prior: Prior, cases: tuple[Case, ...]) -> Learned:
    if not cases:
        low, _, high = deciles(1.0, prior.median_spread)
        return Learned(factor=1.0, spread=prior.spread, interval=(low, high), seen=0.0, damped=())
    import numpy as np

    grid = np.arange(-_REACH, _REACH + _CELL / 2, _CELL)
    usual = [_likelihood(case, grid, prior.runs) for case in cases]
    odd = [float(_likelihood(case, np.zeros(1), prior.odd_spread)[0]) for case in cases]
    logs = -0.5 * (grid / prior.median_spread) ** 2
    regular = []
    for case, one, other in zip(cases, usual, odd, strict=True):
        many, few = (1 - prior.odd_share) * one, prior.odd_share * other
        logs = logs + case.weight * np.log(many + few + _TINY)
        regular.append((many + _TINY) / (many + few + 2 * _TINY))
    density = np.exp(logs - logs.max())
    density /= density.sum()
    middle = float((grid * density).sum())
    spread = sqrt(float(((grid - middle) ** 2 * density).sum()) + prior.runs**2)
    shares = [float((share * density).sum()) for share in regular]
    return Learned(
        factor=exp(middle),
        spread=spread,
        interval=_between(grid, density),
        seen=sum(case.weight for case in cases),
        damped=_damped(cases, shares),
    )


def _damped(cases: Sequence[Case], shares: Sequence[float]) -> tuple[Damped, ...]:
    alone = all(share < _DAMPED for share in shares)
    return tuple(
        Damped(id=case.id, share=share, alone=alone)
        for case, share in zip(cases, shares, strict=True)
        if share < _DAMPED
    )


def _between(grid: "Doubles", density: "Doubles") -> tuple[float, float]:
    import numpy as np

    low, high = np.interp((0.1, 0.9), np.cumsum(density), grid + _CELL / 2)
    return exp(float(low)), exp(float(high))


def _likelihood(case: Case, middles: "Doubles", spread: float) -> "Doubles":
    """Return how likely what was seen is, for each logarithm that the cases scatter about.

    What was measured and what was looked at are taken together: the product of two normal
    densities is a normal one, and the bounds cut it.
    """
    import numpy as np
    from scipy.special import ndtr

    chance: Doubles = np.ones_like(middles)
    if case.about is not None:
        told, both = log(case.about), sqrt(spread**2 + case.about_spread**2)
        chance = np.exp(-0.5 * ((told - middles) / both) ** 2) / (both * sqrt(2 * pi))
        pull = (spread / both) ** 2
        middles = middles + pull * (told - middles)
        spread = spread * case.about_spread / both
    if case.above <= 0 and case.upto == inf:
        return chance
    low = ndtr((_log(case.above) - middles) / spread)
    high = ndtr((_log(case.upto) - middles) / spread)
    inside: Doubles = chance * (high - low)
    return inside


def _log(factor: float) -> float:
    return log(factor) if 0 < factor < inf else (inf if factor else -inf)
