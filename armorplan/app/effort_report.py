"""What setting the joints takes in an order, held against the least, as frozen values and in words."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import floor

from armorplan.app.effort_rank import LeastEffort
from armorplan.app.effort_times import joint_times
from armorplan.kernel.units import about_words
from armorplan.orders.effort_solver import Solve
from armorplan.orders.least_effort import least_effort

_ALIKE_MIN = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class RowReport:
    """A row joint by joint, and with all its posts loaded before the first is set; minutes.

    ``joints`` are plain ids, in the order in which they are set.
    """

    row: str
    joints: tuple[str, ...]
    one_by_one_min: float
    loaded_min: float
    loaded: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class EffortReport:
    """What setting the joints takes, on one side of each pair, rows and strap ends each in one go.

    ``work_min`` and ``change_min`` (other tools, turning over) are of the order given; the whole
    minutes that its steps show add up to ``steps_min``, which holds no tools and no turning.
    No order takes less work than ``bound_min``, nor less change than ``change_bound_min``;
    ``least_min`` is the work of the best order found, and ``proved``: it equals the bound.
    """

    work_min: float
    steps_min: int
    change_min: float
    least_min: float
    least_change_min: float
    bound_min: float
    change_bound_min: float
    proved: bool
    rows: tuple[RowReport, ...]


def effort_report(effort: LeastEffort, order: Iterable[str]) -> EffortReport:
    """Return what an order of steps takes beside the order of least effort."""
    order = tuple(order)
    times, found = joint_times(effort, order).values(), effort.found
    return EffortReport(
        work_min=round(sum(time.minutes for time in times), 2),
        steps_min=sum(time.whole_min for time in times),
        change_min=effort.spent_in(order).change_min,
        least_min=found.spent.work_min,
        least_change_min=found.spent.change_min,
        bound_min=found.bound_min,
        change_bound_min=found.change_bound_min,
        proved=effort.is_proved,
        rows=tuple(
            RowReport(
                row=row.group.row,
                joints=row.joints,
                one_by_one_min=round(row.minutes.one_by_one_min, 2),
                loaded_min=round(row.minutes.loaded_min, 2),
                loaded=row.minutes.is_loaded,
            )
            for row in effort.rows.values()
        ),
    )


def proved_by(effort: LeastEffort, solve: Solve) -> LeastEffort:
    """Return the same with the solver's word on groups too large to go through; takes seconds.

    Raises SolverLostError where the solver dies.
    """
    if effort.found.proved:
        return effort
    return replace(effort, found=least_effort(effort.problem, solve=solve))


def effort_words(report: EffortReport) -> str:
    """Say what setting the joints takes in this order, and how far that is from the least."""
    said = [_takes(report)]
    if report.proved and report.work_min <= report.bound_min + _ALIKE_MIN:
        said.append("No order that works each row in one go takes less; that is proved.")
    elif report.proved:
        said.append(
            f"The least would be {about_words(report.least_min)}, about "
            f"{about_words(report.work_min - report.least_min)} less; other reasons stand against it."
        )
    else:
        said.append(
            f"The best order found takes {about_words(report.least_min)}; none takes less than "
            f"{about_words(floor(report.bound_min))}."
        )
    loaded = [row for row in report.rows if row.loaded]
    if loaded:
        saved = sum(row.one_by_one_min - row.loaded_min for row in loaded)
        rows = "1 row is" if len(loaded) == 1 else f"{len(loaded)} rows are"
        said.append(
            f"{rows} quicker loaded first and then set: about {about_words(saved)}, taken off already."
        )
    return " ".join(said)


def _takes(report: EffortReport) -> str:
    takes = (
        f"Setting the joints takes {about_words(report.steps_min)} in this order, one side of each "
        "pair, as its steps and the plan count it."
    )
    if report.change_min < _ALIKE_MIN:
        return takes
    more = about_words(report.change_min)
    return (
        f"{takes} Taking up tools and turning the work over takes about {more} more, which they do "
        "not count."
    )
