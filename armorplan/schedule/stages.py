"""The stages of the objective, in the order in which they count, and when one counts as proved."""

from armorplan.schedule.problem import Placed, Stage, Status

LATENESS = "lateness"
FINISH = "finish"
CHANGES = "colour changes and times at the bench"
JUMPS = "jumps in the chosen order"
FITS = "dry-fits"
STAGES = (LATENESS, FINISH, CHANGES, JUMPS, FITS)
"""Each counts only where all before it are equal; ``measures`` says what they measure."""


def finish_stage(placed: tuple[Placed, ...], bound: int, status: Status) -> Stage:
    """Return the stage of the finish, in minutes from the origin."""
    return stage(FINISH, max((p.end_min for p in placed), default=0), bound, status)


def stage(name: str, value: int, bound: int, status: Status) -> Stage:
    """Return a stage; it is proved where its bound is reached, but never after a stop."""
    bound = min(bound, value)
    if bound == value and status is not Status.STOPPED:
        status = Status.BEST
    elif status is Status.BEST:
        status = Status.GOOD
    return Stage(name=name, value=value, bound=bound, status=status)
