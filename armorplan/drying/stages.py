"""What a treatment takes to each of its stages, and how its minutes are rounded to be safe."""

from math import ceil
from typing import TYPE_CHECKING

from armorplan.drying.along import MOST_MIN
from armorplan.drying.body import Body, Multiples, multiples
from armorplan.drying.spans import Stage, Verdict
from armorplan.drying.track import GRID_MIN
from armorplan.kernel.learning import deciles
from armorplan.workshop.air import Pace
from armorplan.workshop.shelf import Carrier, TreatmentEntry

if TYPE_CHECKING:
    from armorplan.drying.track import Doubles

USUAL_SPREAD = 0.3
"""Spread of a catalogue's times before anything was learned (common practice, no source)."""
FREEZES_C = 0.0
"""Colder than this wet leather, water dye, glue and finish freeze. What water holds keeps it liquid a
little longer (common practice, no source)."""
LATEST = (Stage.CLOSES, Stage.RECOAT_BY)
"""Stages by which something has to be done; the others have to be waited for."""
HAIR = 1e-6
"""What minutes may be off by before they are rounded."""


def stage_minutes(entry: TreatmentEntry) -> dict[Stage, int]:
    """Return the catalogue's minutes to each stage a treatment knows."""
    opens, closes = entry.window_min or (None, None)
    found = {
        Stage.TOUCH: entry.touch_min,
        Stage.RECOAT_BY: entry.recoat_by_min,
        Stage.OPENS: opens,
        Stage.CLOSES: closes,
        Stage.HANDLE: entry.handle_min,
        Stage.CURE: entry.cure_min,
    }
    return {stage: minutes for stage, minutes in found.items() if minutes is not None}


def shop_factors(learned: Pace | None) -> Multiples:
    """Return what a shop's own drying multiplies minutes by: 10, 50, 90 %."""
    return deciles(learned.factor, learned.spread) if learned else deciles(1.0, USUAL_SPREAD)


def stage_doses(entry: TreatmentEntry, body: Body, learned: Pace | None) -> dict[Stage, Multiples]:
    """Return the minutes at the reference that each stage takes: least, likely, most."""
    here, shop = multiples(entry, body), shop_factors(learned)
    least, likely, most = (m * s for m, s in zip(here, shop, strict=True))
    return {
        stage: (minutes * least, minutes * likely, minutes * most)
        for stage, minutes in stage_minutes(entry).items()
    }


def film_dose(entry: TreatmentEntry, body: Body, learned: Pace | None) -> float:
    """Return the likely minutes at the reference until a finish has formed its film.

    Of what forms none, until it is dry to handle.
    """
    minutes = entry.handle_min
    if entry.film_from_c is not None:
        minutes = entry.touch_min if entry.film_min is None else entry.film_min
    return minutes * multiples(entry, body)[1] * shop_factors(learned)[1]


def whole_minutes(minutes: float, stage: Stage) -> int | None:
    """Return whole minutes: up for what has to be waited for, down for the latest time."""
    if minutes == float("inf"):
        return None
    return max(1, int(minutes + HAIR)) if stage in LATEST else ceil(minutes - HAIR)


def within_cell(stage: Stage) -> int:
    """Return the minute of a grid cell that speaks for all its starts: the last, or the first."""
    return 0 if stage in LATEST else GRID_MIN - 1


def ready_minutes(taken: "Doubles", stage: Stage) -> tuple[int, ...]:
    """Return by cell the minute, counted from the first cell, at which a stage is reached.

    Args:
        taken: minutes it takes from the minute ``within_cell`` of each cell; ``inf`` for never.
        stage: by or after which something happens.
    """
    import numpy as np

    ended = np.minimum(taken, MOST_MIN)
    whole = np.floor(ended + HAIR) if stage in LATEST else np.ceil(ended - HAIR)
    begun = np.arange(len(taken)) * GRID_MIN + within_cell(stage)
    return tuple(int(minute) for minute in np.maximum.accumulate(begun + whole))


def freezes(entry: TreatmentEntry, coldest_c: float) -> bool:
    """Tell whether what is wet with water freezes in this air before it is dry."""
    return entry.carrier is Carrier.WATER and coldest_c < FREEZES_C


def verdict_of(entry: TreatmentEntry, handle_min: int | None, coldest_c: float) -> Verdict:
    """Return whether it dries: what never does is not said to spoil, but where it freezes.

    Args:
        entry: the treatment.
        handle_min: likely minutes to handle, ``None`` for never.
        coldest_c: the coldest air while its film forms.
    """
    if freezes(entry, coldest_c):
        return Verdict.WOULD_SPOIL
    if handle_min is None:
        return Verdict.WILL_NOT_DRY
    if entry.film_from_c is not None and coldest_c < entry.film_from_c:
        return Verdict.WOULD_SPOIL
    return Verdict.DRIES
