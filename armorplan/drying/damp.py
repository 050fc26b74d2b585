"""How much longer something dries that was found still damp."""

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
    damp: tuple[float, datetime],
) -> Multiples:
    """Return soonest, likely and latest minutes to a stage from a look that found it damp.

    Args:
        room: where it dries.
        entry: the treatment.
        body: what dries.
        stage: how far; KeyError where the treatment has none such.
        damp: the dose by the look as a multiple of the catalogue's, and when it was.
    """
    whole_min = reference_min(room, entry, body, stage)
    if whole_min is None:
        raise KeyError(stage)
    factor, at = damp
    least, likely, most = (
        whole_min * (each - factor) for each in factors_after(room.factors(entry), factor)
    )
    return room.until(entry, (least, likely, most), at)
