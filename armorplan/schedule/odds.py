"""How likely a date is kept, from three times for each step: the least, the likely, the most.

The classic three-point estimate of project networks: a step takes (least + 4 × likely + most) / 6
on average, with a standard deviation of (most - least) / 6; along the critical path averages and
variances add up, and the finish is taken as normally distributed. It is known to be hopeful: a
path that is nearly critical may overtake, which it does not count. Source: D. G. Malcolm, J. H.
Roseboom, C. E. Clark and W. Fazar, 'Application of a technique for research and development
program evaluation', Operations Research 7(5), 1959 (from memory).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from graphlib import TopologicalSorter
from math import sqrt
from statistics import NormalDist


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreeTimes:
    """The least, the likely and the most minutes a step takes."""

    least_min: float
    likely_min: float
    most_min: float

    def __post_init__(self) -> None:
        """Refuse times that contradict each other."""
        if not 0 <= self.least_min <= self.likely_min <= self.most_min:
            message = (
                f"Least {self.least_min:g}, likely {self.likely_min:g} and most "
                f"{self.most_min:g} min have to rise, from 0 upwards."
            )
            raise ValueError(message)

    @property
    def expected_min(self) -> float:
        """What it takes on average."""
        return (self.least_min + 4 * self.likely_min + self.most_min) / 6

    @property
    def variance_min2(self) -> float:
        """The mean square of how far it misses the average."""
        return ((self.most_min - self.least_min) / 6) ** 2


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishOdds:
    """When all is done on average, and how sure that is.

    Attributes:
        expected_min: the average finish, from the start.
        variance_min2: its variance.
        path: the steps of the critical path, in order; of equally long ones the least sure.
        slack_min: by step, how far it can slip on average without moving the finish.
    """

    expected_min: float
    variance_min2: float
    path: tuple[str, ...]
    slack_min: Mapping[str, float]

    def chance_by(self, minute: float) -> float:
        """Return the probability, 0 to 1, that all is done by a minute from the start."""
        if not self.variance_min2:
            return float(minute >= self.expected_min)
        return NormalDist(self.expected_min, sqrt(self.variance_min2)).cdf(minute)


def finish_odds(
    times: Mapping[str, ThreeTimes], waits_for: Mapping[str, Iterable[str]]
) -> FinishOdds:
    """Return the odds of the finish, with hands and tools for everything at once.

    Args:
        times: by step, what it takes.
        waits_for: by step, what has to be done before it.

    Raises:
        graphlib.CycleError: steps wait for each other in a ring.
    """
    firsts = {step: tuple(waits_for.get(step, ())) for step in times}
    order = tuple(TopologicalSorter(firsts).static_order())
    end: dict[str, tuple[float, float]] = {}
    came_from: dict[str, str | None] = {}
    for step in order:
        latest = max(firsts[step], key=end.__getitem__, default=None)
        came_from[step] = latest
        start, spread = (0.0, 0.0) if latest is None else end[latest]
        end[step] = start + times[step].expected_min, spread + times[step].variance_min2
    last = max(order, key=end.__getitem__, default=None)
    finish, variance = (0.0, 0.0) if last is None else end[last]
    latest_end = dict.fromkeys(order, finish)
    for step in reversed(order):
        for first in firsts[step]:
            latest_end[first] = min(latest_end[first], latest_end[step] - times[step].expected_min)
    path: list[str] = []
    while last is not None:
        path.append(last)
        last = came_from[last]
    return FinishOdds(
        expected_min=finish,
        variance_min2=variance,
        path=tuple(reversed(path)),
        slack_min={step: latest_end[step] - end[step][0] for step in times},
    )
