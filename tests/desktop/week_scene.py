"""An invented week: five builds, two dye colours, one tray, one rack, a maker and an apprentice.

Laid by hand and not by a planner, so that every mark of the chart has something to show.
"""

from collections.abc import Iterator
from datetime import datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from armorplan.app.in_hand import WeekPlan
from armorplan.app.rows import Chart
from armorplan.app.shown_plan import ShownPlan
from armorplan.app.week_facts import WeekFacts
from armorplan.schedule.activity import Activity, Demand, Dip, Mode
from armorplan.schedule.problem import (
    Bath,
    Hold,
    Job,
    Lag,
    Placed,
    Plan,
    Problem,
    Resource,
    Stage,
    Status,
    Worker,
)

ZONE = "Europe/London"
ORIGIN_AT = datetime(2026, 5, 4, 7, 0, tzinfo=ZoneInfo(ZONE))
"""A Monday, an hour before the shop opens."""
DAY, OPENS, NOON, BACK, CLOSES = 1440, 60, 300, 360, 660
TITLES = ("Gorget", "Left elbow", "Right elbow", "Breastplate", "Belt pouch")
COLOURS = ("dye|chestnut", "dye|black")
WET_OF = ("dye|chestnut", "dye|chestnut", "dye|black", "dye|black", "dye|chestnut")
DUE_MIN = {
    "Gorget": 2 * DAY + 600,
    "Left elbow": 3 * DAY + 240,
    "Right elbow": 3 * DAY + 60,
    "Breastplate": 4 * DAY + 240,
}
PEOPLE = (("maker", "Maker"), ("apprentice", "Apprentice"), ("wearer", "Wearer"))
KINDS = ("cut", "bevel", "dye", "dry", "rivet", "fit", "polish")


def _windows(days: int, until: int = CLOSES) -> tuple[tuple[int, int], ...]:
    halves = ((OPENS, NOON), (BACK, until))
    return tuple((d * DAY + a, d * DAY + b) for d in range(days) for a, b in halves)


def _activities(build: str, family: str) -> tuple[Activity, ...]:
    def named(kind: str) -> dict[str, str]:
        return {"id": f"{build}/{kind}", "title": f"{kind.capitalize()} the {build}"}

    both = ("maker", "apprentice")
    return (
        Activity(
            **named("cut"), minutes=60, people=both, demands=(Demand(resource="table", amount=1),)
        ),
        Activity(**named("bevel"), minutes=45, people=both, sitting_min=15),
        Activity(
            **named("dye"),
            minutes=20,
            modes=(Mode(who="maker", minutes=20, name="tray", bath="tray"),),
            dip=Dip(family=family, amount=2, set_up_min=10),
        ),
        Activity(**named("dry"), minutes=780),
        Activity(**named("rivet"), minutes=90, people=both),
        Activity(**named("fit"), minutes=30, people=("maker",), also=("wearer",), soon=True),
        Activity(**named("polish"), minutes=120, people=both, sitting_min=15),
    )


def _lags(build: str) -> tuple[Lag, ...]:
    at = [f"{build}/{kind}" for kind in KINDS]
    chain = [Lag(first=a, then=b) for a, b in pairwise(at)]
    chain[3] = Lag(first=at[3], then=at[4], max_lag=600, reason="While it is still supple.")
    return tuple(chain)


def problem(builds: tuple[str, ...] = TITLES, days: int = 8) -> Problem:
    """The problem that the week is a plan of."""
    return Problem(
        origin_at=ORIGIN_AT,
        horizon_min=days * DAY,
        activities=tuple(
            a for at, b in enumerate(builds) for a in _activities(b, WET_OF[at % len(WET_OF)])
        ),
        lags=tuple(lag for b in builds for lag in _lags(b)),
        resources=(
            Resource(id="rack", capacity=12),
            Resource(id="table", capacity=1, windows=_windows(days, 540)),
        ),
        workers=(
            Worker(id="maker", windows=_windows(days)),
            Worker(id="apprentice", windows=_windows(days, 540)),
            Worker(
                id="wearer",
                windows=((2 * DAY + 360, 2 * DAY + 540), (3 * DAY + 60, 3 * DAY + 300)),
            ),
        ),
        holds=tuple(
            Hold(resource="rack", amount=2, first=f"{b}/dye", until=(f"{b}/rivet",))
            for b in builds
        ),
        baths=(Bath(id="tray", capacity=4, change_min=20, holds="dye|black"),),
        jobs=tuple(
            Job(
                id=b,
                title=b,
                activities=tuple(f"{b}/{kind}" for kind in KINDS),
                due_min=DUE_MIN.get(b),
            )
            for b in builds
        ),
    )


_LIES = {
    "Gorget": "M60 A120 360-410 M1500 M3240 A3270",
    "Left elbow": "M120 A180 360-410 A1500 M3270 M3330",
    "Right elbow": "M180 A240 465-515 M1590 M3300 A3390-4470",
    "Breastplate": "M240 M420 465-515 A1590 M4380 M4440",
    "Belt pouch": "A360 A420 545-575 M1800 M4410 A4470",
}
"""Who begins each step of each build at which minute; ends where they do not follow from minutes.

The maker is M, the apprentice A; what dries hangs from the end of its bath. Two baths hold two
each, and the apprentice polishes the right elbow over a night.
"""
_TAKES = {"cut": 60, "bevel": 45, "rivet": 90, "fit": 30, "polish": 120}
_DRY_MIN = 780


def placed(later_min: int = 0) -> tuple[Placed, ...]:
    """The week by hand; ``later_min`` moves the last step of each build."""
    return tuple(p for build in _LIES for p in _of_build(build, later_min))


def _of_build(build: str, later_min: int) -> Iterator[Placed]:
    hands = [kind for kind in KINDS if kind != "dry"]
    for kind, lies in zip(hands, _LIES[build].split(), strict=True):
        who = "apprentice" if lies.startswith("A") else "maker"
        start, _, end = lies.strip("MA").partition("-")
        at = int(start) + (later_min if kind == "polish" else 0)
        until = int(end) if end else at + _TAKES[kind]
        mode = "tray" if kind == "dye" else ""
        yield Placed(id=f"{build}/{kind}", start_min=at, end_min=until, who=who, mode=mode)
        if kind == "dye":
            yield Placed(id=f"{build}/dry", start_min=until, end_min=until + _DRY_MIN)


STAGES = (
    Stage(name="lateness", value=90, bound=0, status=Status.GOOD),
    Stage(name="finish", value=4590, bound=4590, status=Status.BEST),
)


def week_plan(*, promised: bool = False) -> WeekPlan:
    """The week as it stands, and where asked for an hour sooner as promised."""
    now = ShownPlan(
        plan=Plan(status=Status.GOOD, placed=placed(), stages=STAGES), origin_at=ORIGIN_AT
    )
    then = ShownPlan(plan=Plan(status=Status.GOOD, placed=placed(-60)), origin_at=ORIGIN_AT)
    return WeekPlan(problem=problem(), shown=now, promised=then if promised else None)


def facts(
    build: str = "Gorget", *, promised: bool = False, plan: WeekPlan | None = None
) -> WeekFacts:
    """The week as seen from one of its builds, of which nothing else is known."""
    found = plan or week_plan(promised=promised)
    chart = Chart(
        bars=(),
        lanes=(),
        closed=(),
        now_at=ORIGIN_AT + timedelta(minutes=200),
        zone=ZONE,
        names=PEOPLE,
    )
    return WeekFacts(
        chart=chart,
        build=build,
        title=build,
        problem=found.problem,
        shown=found.shown,
        promised=found.promised,
    )


def many(bars: int) -> WeekPlan:
    """A plan of so many bars in builds of seven: each by itself on a day, nothing is sought."""
    builds = tuple(f"Piece {n}" for n in range(bars // len(KINDS)))
    made = problem(builds, 3 + len(builds) // 6)
    found = []
    for at, build in enumerate(builds):
        start = (at // 6) * DAY + 60 + (at % 6) * 90
        for number, kind in enumerate(KINDS):
            begin = start + number * 12 + (DAY if number > 3 else 0)
            who = None if kind == "dry" else ("maker", "apprentice")[at % 2]
            mode = "tray" if kind == "dye" else ""
            end = begin + (780 if kind == "dry" else 12)
            if kind == "dye":
                who = "maker"
            found.append(
                Placed(id=f"{build}/{kind}", start_min=begin, end_min=end, who=who, mode=mode)
            )
    plan = Plan(status=Status.GOOD, placed=tuple(found))
    return WeekPlan(problem=made, shown=ShownPlan(plan=plan, origin_at=ORIGIN_AT))
