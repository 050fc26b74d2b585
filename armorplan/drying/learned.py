"""This shop's own factor of a treatment's drying, from looks and weighings.

Everything counts on the scale of doses: minutes at the reference that had passed in the air as it
was, as a share of what the stage should take. So a cold night between 'still damp' and 'dry' widens
what is known, and is not taken for drying.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from math import exp, inf

from armorplan.drying.stages import USUAL_SPREAD
from armorplan.drying.weighing import Weights, dose_by_weight, dry_by_weight, weight_fault
from armorplan.kernel.learning import Case, Damped, Prior, learn
from armorplan.workshop.air import Pace

PRIOR = Prior(spread=USUAL_SPREAD, runs=0.15)
"""Two dryings of one treatment in one shop differ by some 15 % (common practice, no source)."""
_LEEWAY = exp(1.5 * PRIOR.runs)
"""Who never says 'still damp' may have found it damp all the same: of dryings whose median is at a
'dry', half would still be damp there. So such a 'dry' is taken with so much leeway."""
_MOST_ONLY_DRY = 4.0
"""And however many there are, together they count as no more dryings than that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """One look at a drying, or one weighing, with all that is needed to learn from it.

    Attributes:
        run: the drying: what dried, from when on.
        bath: shared by what began to dry together; together they count as one drying.
        dose_min: minutes at the reference that had passed.
        reference_min: minutes at the reference that the stage takes by the catalogue, here.
        dry: what was found; ``None`` where it was weighed only.
        weights_g: before the bath, out of it, and now; ``None`` where it was not weighed.
    """

    treatment: str
    run: str
    bath: str
    dose_min: float
    reference_min: float
    dry: bool | None = None
    weights_g: Weights | None = None

    @property
    def factor(self) -> float:
        """The dose as a share of the reference."""
        return self.dose_min / self.reference_min


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """What a shop has learned of a treatment's drying.

    Attributes:
        factor: its median multiple of what is reckoned; before anything was learned 1.
        spread: of the logarithm of one drying's multiple; before ``prior_spread``.
        interval: in eight of ten the median lies between these.
        observations: dryings it rests on; what dried together is one.
        damped: dryings that count for little, since they are far off the others.
    """

    treatment: str
    factor: float
    spread: float
    interval: tuple[float, float]
    observations: int
    damped: tuple[Damped, ...] = ()
    prior_factor: float = 1.0
    prior_spread: float = PRIOR.spread

    @property
    def pace(self) -> Pace:
        """The same as the room keeps it."""
        return Pace(
            treatment=self.treatment,
            factor=self.factor,
            spread=self.spread,
            observations=self.observations,
        )


def case_of(looks: Sequence[Look], dry_pct: float) -> Case | None:
    """Return what the looks at one drying tell together; ``None`` where that is nothing.

    Where it was found damp after it had been found dry, the later look counts: it was dry outside
    only.
    """
    found = [(look.factor, _says_dry(look, dry_pct)) for look in looks if look.dose_min > 0]
    above = max((factor for factor, dry in found if dry is False), default=0.0)
    upto = min((factor for factor, dry in found if dry and factor > above), default=inf)
    about, spread = _weighed(looks, dry_pct)
    if not above and upto == inf and about is None:
        return None
    return Case(id=looks[0].run, above=above, upto=upto, about=about, about_spread=spread)


def _says_dry(look: Look, dry_pct: float) -> bool | None:
    if look.weights_g is None:
        return look.dry
    is_told = not weight_fault(look.weights_g, dry_pct)
    return dry_by_weight(look.weights_g, dry_pct) if is_told else None


def _weighed(looks: Sequence[Look], dry_pct: float) -> tuple[float | None, float]:
    """Return the factor by the weighing that tells it best, and its spread."""
    found: list[tuple[float, float]] = []
    for look in looks:
        if look.weights_g is None or weight_fault(look.weights_g, dry_pct):
            continue
        told = dose_by_weight(look.weights_g, look.dose_min, dry_pct)
        if told is not None:
            found.append((told[1], told[0] / look.reference_min))
    spread, factor = min(found, default=(0.0, None))
    return factor, spread


def cases_of(looks: Iterable[Look], dry_pct: float) -> tuple[Case, ...]:
    """Return the dryings that were looked at; those of one bath share one weight."""
    found: list[Case] = []
    ordered = sorted(looks, key=lambda look: (look.bath, look.run, look.dose_min))
    for _, bath in groupby(ordered, key=lambda look: look.bath):
        runs = [
            case
            for _, run in groupby(bath, key=lambda look: look.run)
            if (case := case_of(tuple(run), dry_pct)) is not None
        ]
        found += [_shared(case, len(runs)) for case in runs]
    return tuple(found)


def _with_leeway(cases: Sequence[Case]) -> tuple[Case, ...]:
    """Return the cases with what is only known to be dry taken for less than it says.

    Such are those of a shop that never found anything damp.
    """
    only_dry = [case for case in cases if case.about is None]
    among = sum(case.weight for case in only_dry)
    share = min(1.0, _MOST_ONLY_DRY / among) if among else 1.0
    return tuple(
        replace(case, upto=case.upto * _LEEWAY, weight=case.weight * share)
        if case.about is None
        else case
        for case in cases
    )


def _shared(case: Case, among: int) -> Case:
    return replace(case, weight=1 / among)


def estimate(treatment: str, looks: Iterable[Look], dry_pct: float) -> Estimate:
    """Return what a shop's looks tell of one treatment. Their order does not matter.

    Args:
        treatment: the catalogue's id; looks at others are left out.
        looks: at dryings, and weighings.
        dry_pct: back within so many per cent of its weight before the bath, a piece is dry.
    """
    mine = [look for look in looks if look.treatment == treatment and look.reference_min > 0]
    cases = cases_of(mine, dry_pct)
    says_damp = any(_says_dry(look, dry_pct) is False for look in mine if look.dose_min > 0)
    learned = learn(PRIOR, cases if says_damp else _with_leeway(cases))
    return Estimate(
        treatment=treatment,
        factor=learned.factor,
        spread=learned.spread,
        interval=learned.interval,
        observations=round(sum(case.weight for case in cases)),
        damped=learned.damped,
    )
