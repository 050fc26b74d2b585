"""How far a plan may reach: a horizon no sound plan passes."""

from collections.abc import Iterable
from math import ceil

from armorplan.drying.track import GRID_MIN
from armorplan.kernel.units import DAY_MIN
from armorplan.schedule.drying_tables import Drier
from armorplan.steps.model import Work
from armorplan.workshop.shop import Shop

_SPARE_DAYS = 14
MOST_DAYS = 400
"""No plan looks further ahead."""
_DAYS_LOOKED_AT = 14
"""How many days a drying's worst time is looked for in."""
_DAYS_OF_TABLES = 60
"""So many days at least are looked up by the hour; beyond, the last of them counts."""


def horizon_of(works: Iterable[Work], shop: Shop, driers: Iterable[Drier]) -> int:
    """Return a horizon in minutes: all work one after another, twice, and two weeks.

    Every wait counts as it is at its worst time within two weeks: nights are long. Of several
    builds the waits are added up, since they may have to take turns at one rack.

    Args:
        works: the steps of each build.
        shop: who works there.
        driers: one for each of ``works``.
    """
    cells = _DAYS_LOOKED_AT * DAY_MIN // GRID_MIN
    hands_on = waiting = 0
    for work, drier in zip(works, driers, strict=True):
        hands_on += sum(step.minutes for step in work.steps if step.attended)
        waiting += drier.most_waiting_min(work.steps, cells)
    weekly = sum(
        (o.end.hour * 60 + o.end.minute) - (o.start.hour * 60 + o.start.minute)
        for person in shop.people
        for o in person.hours
    )
    weeks = 2 * hands_on / max(weekly, 60)
    days = ceil(7 * weeks) + ceil(waiting / DAY_MIN) + _SPARE_DAYS
    return min(days, MOST_DAYS) * DAY_MIN


def cells_of(horizon_min: int) -> int:
    """Return how many quarters of an hour tables look ahead: half the horizon, or two months.

    A horizon holds all work twice, so that plans end within its first half.
    """
    most = max(horizon_min // 2, _DAYS_OF_TABLES * DAY_MIN)
    return min(horizon_min, most) // GRID_MIN
