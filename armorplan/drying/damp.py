"""How much longer something dries that was found still damp."""

from dataclasses import dataclass
from datetime import datetime
from math import exp, log
from statistics import NormalDist

from armorplan.drying.body import Body, Multiples
from armorplan.drying.room import DryingRoom
from armorplan.drying.spans import Stage
from armorplan.workshop.shelf import TreatmentEntry

_SHARES = (0.1, 0.5, 0.9)
_LEAST_MORE = 1.01
"""Nobody looks again sooner than a hundredth of the whole later."""
_STANDARD = NormalDist()
_DECILE = _STANDARD.inv_cdf(0.9)


@dataclass(frozen=True, slots=True, kw_only=True)
class Damp:
    """A look that found something still damp.

    Attributes:
        at: when it was.
        factor: the dose by then as a multiple of the catalogue's, for this body.
        foretold: by a weighing, at which multiple it will be dry, and the spread of its logarithm.
    """

    at: datetime
    factor: float
    foretold: tuple[float, float] | None = None

    def factors(self) -> Multiples | None:
        """Return what a weighing foretells, 10, 50 and 90 %; ``None`` where it was not weighed."""
        if self.foretold is None:
            return None
        middle, spread = self.foretold
        wide = exp(_DECILE * spread)
        least, likely, most = (
            max(each, _LEAST_MORE * self.factor) for each in (middle / wide, middle, middle * wide)
        )
        return least, likely, most


def factors_after(factors: Multiples, damp_factor: float) -> Multiples:
    """Return by which multiples something is dry that was damp at one: 10, 50 and 90 % of cases.

    The multiples of all dryings are log-normal (``factors``: their 10, 50 and 90 %); of those that
    take longer than ``damp_factor`` these are the same quantiles.
    """
    _, middle, most = factors
    spread = log(most / middle) / _DECILE
    if damp_factor <= 0 or spread <= 0:
        return factors
    passed = _STANDARD.cdf((log(damp_factor) - log(middle)) / spread)
    least, likely, late = (
        max(_quantile(middle, spread, passed + share * (1 - passed)), _LEAST_MORE * damp_factor)
        for share in _SHARES
    )
    return least, likely, late


def _quantile(middle: float, spread: float, share: float) -> float:
    return middle * exp(spread * _STANDARD.inv_cdf(min(share, 1 - 1e-9)))


def reference_min(
    room: DryingRoom, entry: TreatmentEntry, body: Body, stage: Stage
) -> float | None:
    """Return the minutes at the reference to a stage by the catalogue, without what was learned."""
    doses = room.doses(entry, body, stage)
    return None if doses is None else doses[1] / room.factors(entry)[1]


def minutes_after(
    room: DryingRoom,
    entry: TreatmentEntry,
    body: Body,
    stage: Stage,
    damp: Damp,
) -> Multiples:
    """Return soonest, likely and latest minutes to a stage from a look that found it damp.

    Args:
        room: where it dries.
        entry: the treatment.
        body: what dries.
        stage: how far; KeyError where the treatment has none such.
        damp: what the look found.
    """
    whole_min = reference_min(room, entry, body, stage)
    if whole_min is None:
        raise KeyError(stage)
    factors = damp.factors() or factors_after(room.factors(entry), damp.factor)
    least, likely, most = (whole_min * (each - damp.factor) for each in factors)
    return room.until(entry, (least, likely, most), damp.at)
