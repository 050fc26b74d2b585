"""The stages of the objective and when one counts as proved."""

from armorplan.schedule.problem import Placed, Stage, Status

FINISH, JUMPS = "finish", "jumps in the chosen order"


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
