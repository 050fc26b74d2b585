"""Small invented shops with everything a planning problem can say, and every plan there is of them.

A few activities within a quarter of an hour's worth of minutes: few enough that all plans can be
gone through, so that what serial plan and solver say can be held against all of them.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime

from hypothesis import strategies as st

from armorplan.schedule.activity import Activity, Demand, Dip, Mode
from armorplan.schedule.checker import violations
from armorplan.schedule.measures import goals
from armorplan.schedule.pauses import end_with_pauses
from armorplan.schedule.problem import (
    Bath,
    EndsBeforeLast,
    Hold,
    Job,
    Lag,
    Placed,
    Plan,
    Problem,
    Resource,
    Status,
    Worker,
)

ORIGIN_AT = datetime(2025, 3, 3, 8, 0, tzinfo=UTC)
HORIZON_MIN = 14
_HOURS = (((0, 5), (7, 14)), ((0, 14),), ((1, 4), (5, 9), (10, 14)), ((3, 12),))


@st.composite
def shops(draw, *, most=4, dips=True, holds=True, pauses=True):
    """Draw a problem of at most so many activities; some of them have no plan at all."""
    people = draw(st.sampled_from((("maker",), ("maker", "apprentice"))))
    workers = tuple(Worker(id=who, windows=draw(st.sampled_from(_HOURS))) for who in people)
    wearer = Worker(id="wearer", windows=draw(st.sampled_from((((2, 6), (9, 13)), ((0, 14),)))))
    press = Resource(id="press", capacity=1, windows=draw(st.sampled_from((None, ((0, 9),)))))
    rack = Resource(id="rack", capacity=draw(st.integers(1, 2)))
    baths = tuple(
        Bath(
            id=name,
            capacity=draw(st.integers(1, 3)),
            change_min=draw(st.integers(0, 3)),
            holds=draw(st.sampled_from(("", "blue"))),
        )
        for name in ("vat", "tub")[: draw(st.integers(1, 2))]
    )
    count = draw(st.integers(2, most))
    kinds = ["hands", "hands", "alone", "fit", "modes"]
    kinds += ["dip", "dip"] if dips else []
    kinds += ["pausable"] if pauses else []
    activities = tuple(
        _activity(draw, f"a{at}", draw(st.sampled_from(kinds)), people, baths)
        for at in range(count)
    )
    names = [a.id for a in activities]
    lags = tuple(
        Lag(first=one, then=other, min_lag=low, max_lag=high)
        for one, other, low, high in _lags(draw, names)
    )
    held = ()
    if holds and draw(st.booleans()):
        first, *until = draw(st.permutations(names))[: draw(st.integers(2, min(3, count)))]
        held = (Hold(resource="rack", amount=1, first=first, until=tuple(sorted(until))),)
    rules = ()
    if count > 2 and draw(st.integers(0, 3)) == 0:
        first, *others = draw(st.permutations(names))[:3]
        rules = (EndsBeforeLast(first=first, of=frozenset(others)),)
    return Problem(
        origin_at=ORIGIN_AT,
        horizon_min=HORIZON_MIN,
        activities=activities,
        lags=lags,
        before_last=rules,
        resources=(press, rack),
        workers=(*workers, wearer),
        holds=held,
        baths=baths,
        jobs=_jobs(draw, names),
        stood=tuple(_stood(draw, a) for a in activities) if draw(st.booleans()) else (),
    )


def _stood(draw, activity):
    """Where it lay in a plan that people go by; perhaps where it cannot lie any more."""
    start_min = draw(st.integers(0, HORIZON_MIN - 2))
    way = draw(st.sampled_from(activity.ways))
    end_min = start_min + way.minutes
    return Placed(id=activity.id, start_min=start_min, end_min=end_min, who=way.who, mode=way.name)


def _activity(draw, name, kind, people, baths):
    minutes = draw(st.integers(1, 3))
    able = people if draw(st.booleans()) else people[:1]
    plain = Activity(
        id=name,
        minutes=minutes,
        people=able,
        demands=draw(st.sampled_from(((), (), (Demand(resource="press", amount=1),)))),
        earliest_min=draw(st.sampled_from((0, 0, 0, 2))),
        latest_start_min=draw(st.sampled_from((None, None, None, 8))),
        priority=draw(st.integers(0, 3)),
        soon=draw(st.booleans()),
    )
    match kind:
        case "alone":
            rack = Demand(resource="rack", amount=1)
            return Activity(id=name, minutes=minutes, demands=(rack,), priority=plain.priority)
        case "fit":
            return replace(plain, also=("wearer",), demands=())
        case "modes":
            slower = Mode(who=people[-1], minutes=minutes + 1)
            quicker = Mode(
                who=people[0],
                minutes=minutes,
                name="press",
                demands=(Demand(resource="press", amount=1),),
            )
            return replace(plain, people=(), demands=(), modes=(quicker, slower))
        case "pausable":
            longer = draw(st.integers(3, 6))
            return replace(plain, minutes=longer, demands=(), sitting_min=draw(st.integers(1, 2)))
        case "dip":
            dip = Dip(
                family=draw(st.sampled_from(("blue", "brass"))),
                amount=draw(st.integers(1, 2)),
                set_up_min=draw(st.integers(0, 2)),
            )
            modes = tuple(
                Mode(who=who, minutes=minutes, name=bath.id, bath=bath.id)
                for who in able
                for bath in baths
            )
            return replace(plain, people=(), demands=(), dip=dip, modes=modes)
    return plain


def _lags(draw, names):
    found = []
    for at, one in enumerate(names):
        for other in names[at + 1 :]:
            kind = draw(st.sampled_from(("none", "none", "after", "window", "back")))
            if kind == "after":
                found.append((one, other, draw(st.integers(0, 2)), None))
            elif kind == "window":
                low = draw(st.integers(0, 1))
                found.append((one, other, low, low + draw(st.integers(0, 3))))
            elif kind == "back":
                found.append((one, other, -draw(st.integers(1, 3)), None))
    return found


def _jobs(draw, names):
    if not draw(st.booleans()):
        return ()
    half = len(names) // 2
    return tuple(
        Job(
            id=job,
            activities=tuple(mine),
            due_min=draw(st.sampled_from((None, 4, 9))),
            weight=draw(st.integers(1, 3)),
        )
        for job, mine in (("one", names[:half]), ("two", names[half:]))
        if mine
    )


def all_plans(problem: Problem) -> Iterator[tuple[Placed, ...]]:
    """Yield every placing that the checker is silent on; nothing here is fixed by history.

    Whatever starts where nothing else does could be tried, so this is for a few activities only.
    """
    # Dips last: how long they take is known only once all of them lie.
    order = sorted(problem.activities, key=lambda a: (a.dip is not None, a.id))
    windows = {w.id: w.windows for w in problem.workers}
    yield from _laid(problem, order, windows, ())


def best_goals(problem: Problem) -> dict[str, int] | None:
    """Return the least goals, stage by stage, over all plans; ``None`` where there is no plan."""
    found = (goals(problem, placed) for placed in all_plans(problem))
    return min(found, key=lambda told: tuple(told.values()), default=None)


def _laid(problem, order, windows, placed):
    if len(placed) == len(order):
        ended = _with_batches(problem, placed)
        if not _broken(problem, ended):
            by_id = {p.id: p for p in ended}
            yield tuple(by_id[a.id] for a in problem.activities)
        return
    activity = order[len(placed)]
    for way in activity.ways:
        for start in range(problem.horizon_min):
            end = _end(activity, way, start, windows)
            if end is None or end > problem.horizon_min:
                continue
            here = Placed(id=activity.id, start_min=start, end_min=end, who=way.who, mode=way.name)
            tried = (*placed, here)
            if activity.dip is not None or not _broken(_only(problem, tried), tried):
                yield from _laid(problem, order, windows, tried)


def _end(activity, way, start, windows):
    if activity.sitting_min and not way.also:
        return end_with_pauses(way.minutes, start, windows.get(way.who, ()), activity.sitting_min)
    set_up = activity.dip.set_up_min if activity.dip else 0
    return start + set_up + way.minutes


def _with_batches(problem, placed):
    known = {a.id: a for a in problem.activities}
    batches = {}
    for p in placed:
        way = known[p.id].way(p.who, p.mode)
        if known[p.id].dip is not None:
            batches.setdefault((way.bath, p.start_min), []).append((p, way, known[p.id].dip))
    ends = {}
    for (_, start), members in batches.items():
        takes = max(d.set_up_min for _, _, d in members) + sum(w.minutes for _, w, _ in members)
        ends |= {p.id: start + takes for p, _, _ in members}
    return tuple(replace(p, end_min=ends.get(p.id, p.end_min)) for p in placed)


def _only(problem, placed):
    """Return what can be said already of these alone."""
    known = {p.id for p in placed}
    return replace(
        problem,
        activities=tuple(a for a in problem.activities if a.id in known),
        lags=tuple(g for g in problem.lags if {g.first, g.then} <= known),
        before_last=(),
        holds=(),
        jobs=(),
    )


def _broken(problem, placed):
    return violations(problem, Plan(status=Status.GOOD, placed=placed))
