"""Demands on times that contradict each other whatever the hours: found at once, said in words."""

from armorplan.schedule.lag_spans import least_wait, most_wait
from armorplan.schedule.network import ORIGIN, Arc, arcs_of, longest_paths
from armorplan.schedule.problem import EndsBeforeLast, Lag, Problem


def lag_cycle(problem: Problem) -> tuple[Arc, ...]:
    """Return a ring of demands that cannot all be met, or nothing where there is none."""
    return longest_paths(arcs_of(problem))[1]


def cycle_words(problem: Problem, cycle: tuple[Arc, ...]) -> str:
    """Return one sentence that names the demands of a ring and by how much they miss."""
    said = dict.fromkeys(
        words(problem, arc.said) if arc.said else _fixed_words(problem, arc)
        for arc in cycle
        if arc.said or arc.minutes
    )
    over = sum(arc.minutes for arc in cycle)
    return f"These cannot all hold, they miss by {over} min: {'; '.join(said)}."


def words(problem: Problem, demand: Lag | EndsBeforeLast) -> str:
    """Return a demand in words, with its reason."""
    if isinstance(demand, EndsBeforeLast):
        others = ", ".join(title(problem, i) for i in sorted(demand.of))
        text = f"{title(problem, demand.first)} ends before the last of {others} starts"
    else:
        text = (
            f"{title(problem, demand.then)} starts {_gap(demand)} "
            f"{title(problem, demand.first)} ends"
        )
    return f"{text} ({demand.reason.rstrip('.')})" if demand.reason else text


def title(problem: Problem, activity_id: str) -> str:
    """Return what sentences call an activity, in quotes."""
    found = next((a.title for a in problem.activities if a.id == activity_id), "")
    return f"“{found or activity_id}”"


def _gap(lag: Lag) -> str:
    text = _gap_words(least_wait(lag), most_wait(lag))
    by_air = lag.opens is not None or lag.closes is not None
    return f"in its window, which the air makes {text}," if by_air else text


def _gap_words(least: int, most: int | None) -> str:
    if most is None:
        return f"at least {least} min after" if least else "after"
    if least == most:
        return f"{least} min after" if least else "as soon as"
    if least == 0:
        return f"at most {most} min after"
    return f"{least} to {most} min after"


def _fixed_words(problem: Problem, arc: Arc) -> str:
    if arc.head != ORIGIN:
        return f"{title(problem, arc.head)} cannot start sooner"
    is_free = any(a.id == arc.tail and a.fixed_start_min is None for a in problem.activities)
    return f"{title(problem, arc.tail)} {'cannot start later' if is_free else 'has its start already'}"
