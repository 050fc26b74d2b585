"""Models for the solver's tests: one solved at once, one that goes on improving for long."""

from armorplan.solving.model import (
    Effort,
    Interval,
    Latest,
    Least,
    Linear,
    Model,
    NoOverlap,
    Number,
    at_least,
)


def two_tasks(seconds=10.0):
    """Tasks of 5 and 4; the first has to wait till 5, and may not start between 4 and 9."""
    return Model(
        effort=Effort(seconds=seconds),
        numbers=(
            Number(name="a", ranges=((0, 3), (10, 20))),
            Number(name="b", ranges=((0, 30),)),
        ),
        intervals=(
            Interval(name="task a", start="a", size=5),
            Interval(name="task b", start="b", size=4),
        ),
        constraints=(
            NoOverlap(intervals=("task a", "task b")),
            Linear(terms=(("a", 1),), ranges=at_least(5)),
        ),
        objective=Latest(of=(("a", 5), ("b", 4)), ranges=((0, 100),)),
    )


def long_search(seconds=60.0, tasks=60):
    """One machine, tasks with releases and weights: improves early, is not proved for minutes."""
    minutes = [3 + (7 * n) % 11 for n in range(tasks)]
    names = [f"s{n}" for n in range(tasks)]
    return Model(
        effort=Effort(seconds=seconds),
        numbers=tuple(
            Number(name=name, ranges=(((17 * n) % (4 * tasks), 20 * tasks),))
            for n, name in enumerate(names)
        ),
        intervals=tuple(
            Interval(name=f"i{n}", start=name, size=minutes[n]) for n, name in enumerate(names)
        ),
        constraints=(NoOverlap(intervals=tuple(f"i{n}" for n in range(tasks))),),
        objective=Least(terms=tuple((name, 1 + (5 * n) % 13) for n, name in enumerate(names))),
    )
