"""How far the catalogue's time alone misleads about a look, and which stage lies nearest to it."""

from math import inf

from armorplan.app.drills.dry_cases import Rung
from armorplan.app.drills.dry_looks import Look

_CLOSE = 2.5
"""Where the catalogue is right a stage is no further off than this many times."""


def is_ready(look: Look) -> bool:
    """Tell whether what waits for it may go on."""
    return look.case.is_ready(look.rung() or look.case.rungs[0].id)


def is_misled(look: Look) -> bool:
    """Tell whether the catalogue's time alone is wrong about whether it may go on."""
    return look.case.is_ready(look.catalogue_rung()) is not is_ready(look)


def is_off(look: Look, rung: str, off: int) -> bool:
    """Tell whether the catalogue's time is off by so many rungs.

    Where it is right a stage has to be near; and in air that slows or speeds drying it has to be
    wrong to take a rung away from it, or to add one.
    """
    case = look.case
    place, told = case.place(rung), case.place(look.catalogue_rung())
    if off or place != told:
        return abs(place - told) == off
    tempting = place > 0 if _is_slow(look) else place < len(case.rungs) - 1
    return (look.air.is_own or tempting) and _times_off(look, nearest(look)) <= _CLOSE


def nearest(look: Look) -> Rung:
    """Return the rung whose likely time lies nearest to what has passed, earlier or later."""
    return min(look.case.rungs[1:], key=lambda rung: _times_off(look, rung))


def _times_off(look: Look, rung: Rung) -> float:
    """Return how many times one of what has passed and the likely time is the other, from 1 up."""
    likely_min = look.span(rung).likely_min
    if not likely_min or not look.passed_min:
        return inf
    times = look.passed_min / likely_min
    return max(times, 1 / times)


def _is_slow(look: Look) -> bool:
    rung = look.case.rungs[1]
    likely_min = look.span(rung).likely_min
    return likely_min is None or (
        rung.stage is not None and likely_min > look.case.catalogue_min(rung.stage)
    )
