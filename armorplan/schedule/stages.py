"""The stages of the objective, in the order in which they count, and when one counts as proved."""

import logging

from armorplan.schedule.problem import Stage, Status

_LOG = logging.getLogger(__name__)

LATENESS = "lateness"
MOVED = "steps moved"
FINISH = "finish"
CHANGES = "batches, colour changes and times at the bench"
JUMPS = "jumps in the chosen order"
FITS = "dry-fits"
STAGES = (LATENESS, MOVED, FINISH, CHANGES, JUMPS, FITS)
"""Each counts only where all before it are equal; ``measures`` says what they measure."""
NOTHING_KNOWN = 0
"""The bound of a stage of which nothing is known: no stage comes to less, but for what is done."""


def stage(name: str, value: int, bound: int, status: Status) -> Stage:
    """Return a stage; it is proved where its bound is reached, but never after a stop.

    A bound above the value is false: it is logged, and the stage counts as one nothing is known of.
    """
    if bound > value:
        _LOG.error("The bound of %s is %d, and a plan has %d: it is false.", name, bound, value)
        known = status if status is not Status.BEST else Status.GOOD
        return Stage(name=name, value=value, bound=min(NOTHING_KNOWN, value), status=known)
    if bound == value and status is not Status.STOPPED:
        status = Status.BEST
    elif status is Status.BEST:
        status = Status.GOOD
    return Stage(name=name, value=value, bound=bound, status=status)
