"""How long things take in each run: log-normal about what is reckoned, alike within a cause."""

from collections.abc import Mapping
from math import sqrt
from typing import TYPE_CHECKING

from armorplan.schedule.problem import Problem

if TYPE_CHECKING:
    from armorplan.schedule.promise.doubles import Doubles

SHARED = 0.5
"""So much of the variance is common to all of one cause, since what dries slowly today dries slowly
on every piece; the rest is each one's own. Common practice, no source."""


def factors(problem: Problem, *, runs: int, seed: int) -> Mapping[str, "Doubles"]:
    """Return by how much each unsure activity takes longer or shorter, run by run.

    The median is 1. The same problem, runs and seed give the same.
    """
    import numpy as np

    unsure = [a for a in problem.activities if a.spread > 0]
    draw = np.random.default_rng(seed)
    causes = sorted({a.cause for a in unsure if a.cause})
    together = {cause: draw.standard_normal(runs) for cause in causes}
    found = {}
    for activity in unsure:
        own = draw.standard_normal(runs)
        if activity.cause:
            own = sqrt(SHARED) * together[activity.cause] + sqrt(1 - SHARED) * own
        found[activity.id] = np.exp(activity.spread * own)
    return found
