"""How much longer something dries that was found still damp."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from math import exp, log
from statistics import NormalDist

from armorplan.drying.body import Body, Multiples
from armorplan.drying.curve import Curve, curve_of, instants_of, knots_of
from armorplan.drying.room import DryingRoom
from armorplan.drying.spans import Stage
from armorplan.drying.stages import LATEST
from armorplan.kernel.learning import DECILE, deciles
from armorplan.workshop.shelf import TreatmentEntry

_SHARES = (0.1, 0.5, 0.9)
_LEAST_MORE = 1.01
"""Nobody looks again sooner than a hundredth of the whole later."""
_STANDARD = NormalDist()


@dataclass(frozen=True, slots=True, kw_only=True)
class Damp:
    """A look that found something still damp.

    Attributes:
        at: when it was.
        stage: how far it was to have dried.
        factor: the dose by then as a multiple of what that stage takes by the catalogue, for this
            body.
        foretold: by a weighing, at which multiple it will be dry, and the spread of its logarithm.
        expected: at which multiple it was expected to be dry without what this drying told, and that
            spread; ``None``: as the room has it, which this look has moved already.
    """

    at: datetime
    stage: Stage
    factor: float
    foretold: tuple[float, float] | None = None
    expected: tuple[float, float] | None = None

    def factors(self, usual: Multiples) -> Multiples:
        """Return at which multiples it will be dry, in 10, 50 and 90 % of cases.

        A weighing foretells them. A look cuts off what was expected before it: it may not count twice.

        Args:
            usual: those of all dryings of the treatment in this room.
        """
        if self.foretold is None:
            return factors_after(deciles(*self.expected) if self.expected else usual, self.factor)
        least, likely, most = (
            max(each, _LEAST_MORE * self.factor) for each in deciles(*self.foretold)
        )
        return least, likely, most


def factors_after(factors: Multiples, damp_factor: float) -> Multiples:
    """Return by which multiples something is dry that was damp at one: 10, 50 and 90 % of cases.

    The multiples of all dryings are log-normal (``factors``: their 10, 50 and 90 %); of those that
    take longer than ``damp_factor`` these are the same quantiles.
    """
    _, middle, most = factors
    spread = log(most / middle) / DECILE
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
        stage: how far: the stage that was looked for, or a later one; KeyError where the treatment
            has none such.
        damp: what the look found.
    """
    passed_min, wholes_min = doses_after(room, entry, body, stage, damp)
    least, likely, most = (max(0.0, whole - passed_min) for whole in wholes_min)
    return room.until(entry, (least, likely, most), damp.at)


def doses_after(
    room: DryingRoom,
    entry: TreatmentEntry,
    body: Body,
    stage: Stage,
    damp: Damp,
) -> tuple[float, Multiples]:
    """Return the dose that had passed by a look, and that to a stage: least, likely, most.

    Both in minutes at the reference; KeyError where the treatment has no such stage.
    """
    whole_min = reference_min(room, entry, body, stage)
    seen_min = reference_min(room, entry, body, damp.stage)
    if whole_min is None or seen_min is None:
        raise KeyError(stage)
    least, likely, most = damp.factors(room.factors(entry))
    return seen_min * damp.factor, (whole_min * least, whole_min * likely, whole_min * most)


def stages_after(
    room: DryingRoom, entry: TreatmentEntry, body: Body, damp: Damp
) -> tuple[Stage, ...]:
    """Return the stages that a look puts off: the one looked for, and what is reached after it.

    Latest times stay: what has to be done in time is not put off by who looks.
    """
    seen_min = reference_min(room, entry, body, damp.stage)
    if seen_min is None:
        raise KeyError(damp.stage)
    waited = ((s, reference_min(room, entry, body, s)) for s in Stage if s not in LATEST)
    return tuple(stage for stage, least in waited if least is not None and least >= seen_min)


def curve_after(
    room: DryingRoom,
    entry: TreatmentEntry,
    body: Body,
    damp: Damp,
    span: tuple[datetime, datetime],
) -> Curve:
    """Return the way of a drying that was found damp, from its start to an end.

    What had passed by the look counts as a share of what is known since to be needed, so that the
    likely curve reaches 100 at the likely end.
    """
    start_at, until_at = span
    passed_min, needed = doses_after(room, entry, body, Stage.HANDLE, damp)
    looked_at = max(damp.at, start_at)
    bands = [
        minutes_after(room, entry, body, s, damp) for s in stages_after(room, entry, body, damp)
    ]
    knots = [looked_at, *knots_of(damp.at, bands)]
    at = instants_of(start_at, max(until_at, looked_at), knots)
    look = at.index(looked_at)
    slow, likely, fast = room.passed(entry, at)
    before = [passed_min * each / likely[look] if likely[look] else 0.0 for each in likely[:look]]

    def along(pace: Sequence[float]) -> list[float]:
        return [*before, *(passed_min + each - pace[look] for each in pace[look:])]

    return curve_of(at, room.airs(at), (along(slow), along(likely), along(fast)), needed)
