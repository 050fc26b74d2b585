"""Small shops in which the apprentice does some work only with the maker beside."""

from dataclasses import replace

from hypothesis import strategies as st
from schedule.random_shops import shops

from armorplan.schedule.activity import Activity, Mode
from armorplan.schedule.problem import Worker


@st.composite
def pair_shops(draw, *, most=3, **parts):
    """Draw a shop as ``random_shops.shops`` does, of which some work may be done in a pair."""
    return _with_apprentice(draw, draw(shops(most=most, **parts)), with_pair, (-2, 1))


@st.composite
def lesson_shops(draw, *, most=3, **parts):
    """Draw a shop of which the apprentice may learn some work from the maker, no quicker than he is.

    Something is packed last of all, so that what comes before has time; in half of them that is
    all that is asked of the ends.
    """
    problem = _with_apprentice(draw, draw(shops(most=most, **parts)), with_lesson, (0, 2))
    pack = Activity(id="pack", minutes=1, earliest_min=problem.horizon_min - 1)
    is_dated = draw(st.booleans())
    return replace(
        problem,
        activities=(*problem.activities, pack),
        jobs=problem.jobs if is_dated else (),
        stood=problem.stood if is_dated else (),
    )


def _with_apprentice(draw, problem, changed, more_min):
    workers = problem.workers
    if not any(worker.id == "apprentice" for worker in workers):
        hours = draw(st.sampled_from((((0, 14),), ((0, 5), (7, 14)))))
        workers = (*workers, Worker(id="apprentice", windows=hours))
    activities = tuple(
        changed(a, draw(st.integers(*more_min))) if a.people and draw(st.booleans()) else a
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


def with_lesson(activity, more_min):
    """The activity as the maker does it, which the apprentice may learn in so much more time."""
    both = with_pair(activity, more_min)
    if activity.dip is not None or not both.in_pairs:
        return activity
    done, lessons = ([w for w in both.modes if bool(w.also) is b] for b in (False, True))
    return replace(both, modes=tuple(done), taught=tuple(lessons))


def alone(who, minutes, **parts):
    """A way of doing something with nobody beside."""
    return Mode(who=who, minutes=minutes, **parts)


def pair(minutes, *, who="apprentice", beside="maker", name=""):
    """A way of doing something with somebody beside."""
    return Mode(who=who, minutes=minutes, name=f"{name}+{beside}", also=(beside,))
