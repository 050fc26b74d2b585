"""Small shops in which the apprentice does some work only with the maker beside."""

from dataclasses import replace

from hypothesis import strategies as st
from schedule.random_shops import shops

from armorplan.schedule.activity import Mode
from armorplan.schedule.problem import Worker


@st.composite
def pair_shops(draw, *, most=3, **parts):
    """Draw a shop as ``random_shops.shops`` does, of which some work may be done in a pair."""
    problem = draw(shops(most=most, **parts))
    workers = problem.workers
    if not any(worker.id == "apprentice" for worker in workers):
        hours = draw(st.sampled_from((((0, 14),), ((0, 5), (7, 14)))))
        workers = (*workers, Worker(id="apprentice", windows=hours))
    activities = tuple(
        with_pair(a, draw(st.integers(-2, 1))) if a.people and draw(st.booleans()) else a
        for a in problem.activities
    )
    return replace(problem, activities=activities, workers=workers)


def with_pair(activity, more_min):
    """The activity with the apprentice beside the maker instead of alone, so much slower."""
    alone = tuple(way for way in activity.ways if way.who == "maker")
    pairs = tuple(
        replace(
            way,
            who="apprentice",
            minutes=max(1, way.minutes + more_min),
            name=f"{way.name}+maker",
            also=("maker",),
        )
        for way in alone
    )
    return replace(activity, people=(), modes=(*alone, *pairs)) if alone else activity


def alone(who, minutes, **parts):
    """A way of doing something with nobody beside."""
    return Mode(who=who, minutes=minutes, **parts)


def pair(minutes, *, who="apprentice", beside="maker", name=""):
    """A way of doing something with somebody beside."""
    return Mode(who=who, minutes=minutes, name=f"{name}+{beside}", also=(beside,))
