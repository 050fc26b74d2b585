"""Small problems for the planner's tests: by hand, at random, and solved by trying everything."""

from dataclasses import replace
from datetime import UTC, datetime

from hypothesis import strategies as st

from armorplan.schedule.activity import Activity, Demand
from armorplan.schedule.checker import violations
from armorplan.schedule.problem import (
    EndsBeforeLast,
    Lag,
    Placed,
    Plan,
    Problem,
    Resource,
    Status,
    Worker,
)
from armorplan.schedule.table import Table

ORIGIN_AT = datetime(2025, 3, 3, 8, tzinfo=UTC)
DAY = (0, 60)


def problem(*activities, horizon_min=200, windows=(DAY, (100, 160)), **parts):
    """A problem with one maker, ``m``, who works two hours of sixty minutes."""
    workers = parts.pop("workers", (Worker(id="m", windows=windows),))
    return Problem(
        origin_at=ORIGIN_AT,
        horizon_min=horizon_min,
        activities=activities,
        workers=workers,
        **parts,
    )


def by_hand(name, minutes=10, **parts):
    """An activity the maker does."""
    return Activity(id=name, minutes=minutes, people=("m",), **parts)


def waiting(name, minutes=10, **parts):
    """An activity that time alone does."""
    return Activity(id=name, minutes=minutes, **parts)


def plan_of(problem, *places):
    """A plan from (id, start, end) or (id, start, end, who)."""
    people = {a.id: a.people for a in problem.activities}
    placed = tuple(
        Placed(
            id=name,
            start_min=start,
            end_min=end,
            who=who[0] if who else next(iter(people.get(name, ())), None),
        )
        for name, start, end, *who in places
    )
    return Plan(status=Status.GOOD, placed=placed)


def kinds(problem, plan):
    """The kinds of everything a plan breaks."""
    return {v.kind for v in violations(problem, plan)}


@st.composite
def problems(draw, *, most=6, horizon_min=24, windows=((0, 5), (7, 12), (15, 24))):
    """Activities in a chosen order, lags forwards, tables, resources, history: all at random."""
    count = draw(st.integers(1, most))
    names = [f"a{n}" for n in range(count)]
    crew = draw(st.sampled_from([("m",), ("m", "n")]))
    activities = tuple(draw(_activities(name, at, crew)) for at, name in enumerate(names))
    pairs = st.tuples(st.integers(0, count - 1), st.integers(0, count - 1))
    chosen = draw(st.lists(pairs, max_size=2 * count, unique=True)) if count > 1 else []
    lags = tuple(draw(_lags(names[a], names[b])) for a, b in chosen if a < b)
    rules = draw(st.lists(_rules(names), max_size=2)) if count > 2 else []
    return Problem(
        origin_at=ORIGIN_AT,
        horizon_min=horizon_min,
        activities=activities,
        lags=lags,
        before_last=tuple(rules),
        resources=(Resource(id="rack", capacity=2),),
        workers=tuple(
            Worker(id=who, windows=windows if who == "m" else windows[1:]) for who in crew
        ),
    )


@st.composite
def _activities(draw, name, at, crew):
    minutes = draw(st.integers(0, 4))
    people = draw(st.sampled_from([(), crew, crew[-1:]]))
    amount = draw(st.integers(0, 2))
    activity = Activity(
        id=name,
        minutes=minutes,
        people=people,
        demands=(Demand(resource="rack", amount=amount),) if amount else (),
        earliest_min=draw(st.sampled_from([0, 0, 3])),
        priority=draw(st.sampled_from([at, at, 0])),
    )
    what = draw(st.integers(0, 9))
    if what == 0:
        start = draw(st.integers(-3, 2))
        return replace(
            activity,
            people=people[:1],  # The ledger says who is at it.
            fixed_start_min=start,
            fixed_end_min=start + minutes + 1,
        )
    if what == 1:
        rises = draw(st.lists(st.integers(0, 3), min_size=2, max_size=5))
        # Time alone may find it ready already; hands and places are taken for a while always.
        least = 3 if people or amount else 0
        ready = [sum(rises[: n + 1]) + least * (n + 1) for n in range(len(rises))]
        return replace(activity, table=Table(grid_min=3, ready=tuple(ready)))
    return activity


def _lags(first, then):
    low = st.integers(-2, 4)
    high = st.none() | st.integers(0, 4)
    return st.builds(
        lambda least, over, opens, closes: Lag(
            first=first,
            then=then,
            min_lag=least,
            max_lag=None if over is None else least + over,
            opens=opens,
            closes=closes,
            reason=f"{first} first",
        ),
        low,
        high,
        st.none() | tables(),
        st.none() | tables(least=2, closes=True),
    )


@st.composite
def tables(draw, *, least=0, closes=False):
    """A wait by the time of day: never falling, on a grid of three minutes, or finer."""
    rises = draw(st.lists(st.integers(0, 4), min_size=2, max_size=5))
    ready = [sum(rises[: n + 1]) + least * (n + 1) for n in range(len(rises))]
    if not draw(st.booleans()):
        return Table(grid_min=3, ready=tuple(ready))
    asked = [draw(st.integers(0, 5)) for _ in ready]
    if closes:
        nexts = [r - 3 * n - 2 for n, r in enumerate(ready[1:])]
        takes = [max(0, min(w, r)) for w, r in zip(asked, [*nexts, 99], strict=True)]
    else:
        formers = [0, *(r - 3 * n - 3 for n, r in enumerate(ready[:-1]))]
        takes = [max(w, r) for w, r in zip(asked, formers, strict=True)]
    return Table(grid_min=3, ready=tuple(ready), takes=tuple(takes))


@st.composite
def _rules(draw, names):
    first = draw(st.sampled_from(names))
    others = [n for n in names if n != first]
    of = draw(st.sets(st.sampled_from(others), min_size=1, max_size=3))
    return EndsBeforeLast(first=first, of=frozenset(of), reason="the cup closes")


def soonest_by_trying(problem):
    """Return the soonest finish of all plans the checker lets pass, or ``None``: tries them all."""
    options = [_options(problem, a) for a in problem.activities]
    best = [None]

    def search(placed, at):
        plan = Plan(status=Status.GOOD, placed=placed)
        if best[0] is not None and plan.finish_min >= best[0]:
            return
        if any(v.kind != "missing" for v in violations(problem, plan)):
            return
        if at == len(options):
            best[0] = plan.finish_min
            return
        for option in options[at]:
            search((*placed, option), at + 1)

    search((), 0)
    return best[0]


def _options(problem, activity):
    if activity.fixed_start_min is not None:
        start, end = activity.fixed_start_min, activity.fixed_end_min
        people = activity.people or (None,)
        return [Placed(id=activity.id, start_min=start, end_min=end, who=w) for w in people]
    return [
        Placed(id=activity.id, start_min=start, end_min=_end(activity, start), who=who)
        for start in range(problem.horizon_min + 1)
        for who in activity.people or (None,)
    ]


def _end(activity, start):
    if activity.table is not None:
        return activity.table.ready_at(start)
    return start + activity.minutes
