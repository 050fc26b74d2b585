"""What a scale tells of a drying: when a piece is back near its weight before the bath."""

from math import hypot, log

Weights = tuple[float, float, float]
"""Grams before the bath, out of it, and now."""
_SCALE_SHARE = 0.02
"""A weighing is off by so much of the water that was in the leather (common practice, no source)."""
_LAW_SHARE = 0.15
"""Drying strays so far from first order for each e-fold it is drawn on (no source)."""
_LEAST_UPTAKE = 2.0
"""A piece has to have taken up so many times the share that counts as dry, or a scale tells little."""


def dry_by_weight(weights_g: Weights, dry_pct: float) -> bool:
    """Tell whether a piece is back within a share of its weight before the bath."""
    before, _, now = weights_g
    return now - before <= before * dry_pct / 100


def weight_fault(weights_g: Weights, dry_pct: float) -> str:
    """Return in words why weights tell nothing; empty where they do."""
    before, wet, now = weights_g
    least = before * (1 + _LEAST_UPTAKE * dry_pct / 100)
    if before <= 0:
        return f"A piece weighs more than {before:g} g."
    if wet < least:
        return (
            f"Out of the bath it should weigh at least {least:.4g} g, or a scale cannot tell when "
            f"it is back at {before:g} g; it weighed {wet:g} g."
        )
    if now > wet:
        return f"It cannot weigh more now ({now:g} g) than out of the bath ({wet:g} g)."
    if now < before / 2:
        return f"It weighs {now:g} g now, less than half of the {before:g} g before the bath."
    return ""


def dose_by_weight(
    weights_g: Weights, dose_min: float, dry_pct: float
) -> tuple[float, float] | None:
    """Return the dose at which a piece will be back within a share, and the spread of its logarithm.

    Water leaves in first order (Lewis 1921, J. Ind. Eng. Chem. 13): its share falls by the same part
    in each stretch of the dose. ``None`` where it is back already, or nothing has left yet.
    """
    before, wet, now = weights_g
    taken_up = wet - before
    left, wanted = (now - before) / taken_up, before * dry_pct / 100 / taken_up
    if left <= wanted or left >= 1 or dose_min <= 0:
        return None
    gone, to_go = -log(left), -log(wanted)
    spread = hypot(_SCALE_SHARE / (left * gone), _LAW_SHARE * log(to_go / gone))
    return dose_min * to_go / gone, spread
