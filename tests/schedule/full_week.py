"""Invented weeks that are nearly full: several builds, two colours in one vat, one rack, two people.

Everything the planner knows takes part: dips in batches with a change of colour, a rack held from
the dip to what follows, damp work in its window, looks at what sets, work that may stop at
closing, the apprentice's slower pace, and builds with due dates.
"""

from dataclasses import dataclass, field
from random import Random

from schedule.bench_problems import MONDAY_AT

from armorplan.schedule.activity import Activity, Dip, Mode
from armorplan.schedule.problem import Bath, Hold, Job, Lag, Problem, Resource, Worker

DAY_MIN = 1440
HORIZON_MIN = 35 * DAY_MIN
_MAKER = ((0, 240), (300, 540))
"""Minutes after eight: mornings and afternoons, Monday to Friday."""
_APPRENTICE = ((120, 300), (360, 600))
"""Tuesday to Saturday, two hours later."""
_DUE_DAYS = (3, 4, 4, 5, 5)
_EVENINGS_MIN = {3: 540, 4: 540, 5: 600}
"""Thursday evening, Friday evening twice, Saturday evening twice."""
_COLOURS = ("russet", "black")
_PIECES, _RIVETS = 5, 5
VAT = "vat"


def full_week(*, builds=5, seed=7, scale=1.27):
    """Return a problem of sixty steps a build; ``scale`` stretches what hands do."""
    laid = _Week(rng=Random(seed), scale=scale)  # noqa: S311
    for number in range(builds):
        laid.build(number)
    weeks = 1 + (builds - 1) // 5
    windows = {
        "maker": _hours(_MAKER, range(5), weeks + 4),
        "apprentice": _hours(_APPRENTICE, range(1, 6), weeks + 4),
    }
    return Problem(
        origin_at=MONDAY_AT,
        horizon_min=(weeks + 4) * 7 * DAY_MIN,
        activities=tuple(laid.activities),
        lags=tuple(laid.lags),
        resources=(Resource(id="rack", capacity=14),),
        workers=tuple(Worker(id=who, windows=hours) for who, hours in windows.items()),
        holds=tuple(laid.holds),
        baths=(Bath(id=VAT, capacity=4, change_min=20, holds="russet"),),
        jobs=tuple(laid.jobs),
    )


def load(problem):
    """Return which share of all hours until the last due date is worked at the very least.

    An hour of the apprentice does what fifty minutes of the maker do.
    """
    due = max(job.due_min for job in problem.jobs)
    by_hand = sum(a.minutes for a in problem.activities if a.people)
    set_ups = sum(a.dip.set_up_min * a.dip.amount for a in problem.activities if a.dip) / 4
    hours = {
        w.id: sum(max(0, min(end, due) - start) for start, end in w.windows)
        for w in problem.workers
    }
    return (by_hand + set_ups) / (hours["maker"] + hours["apprentice"] / 1.2)


def _hours(day, days, weeks):
    return tuple(
        (DAY_MIN * (7 * week + at) + start, DAY_MIN * (7 * week + at) + end)
        for week in range(weeks)
        for at in days
        for start, end in day
    )


@dataclass
class _Week:
    rng: Random
    scale: float
    activities: list = field(default_factory=list)
    lags: list = field(default_factory=list)
    holds: list = field(default_factory=list)
    jobs: list = field(default_factory=list)

    def build(self, number):
        """Add a build: pieces cut, formed damp, dyed, finished, then riveted and looked over."""
        since = len(self.activities)
        name, colour = f"b{number:02}", _COLOURS[number % 2]
        ready = [self.piece(f"{name}.p{at}", colour) for at in range(_PIECES)]
        fit = self.by_hand(f"{name}.fit", 30, soon=True)
        for last in ready:
            self.chain(last, fit)
        last = fit
        for at in range(_RIVETS - 2):
            last = self.chain(last, self.by_hand(f"{name}.rivet{at}", self.about(20)))
        last = self.chain(last, self.by_hand(f"{name}.strap", self.about(25), sitting_min=5))
        mine = tuple(a.id for a in self.activities[since:])
        week, turn = divmod(number, len(_DUE_DAYS))
        day = _DUE_DAYS[turn]
        due = (7 * week + day) * DAY_MIN + _EVENINGS_MIN[day]
        self.jobs.append(Job(id=name, activities=mine, due_min=due))

    def piece(self, name, colour):
        """Add one piece of eleven steps; return its last."""
        cut = self.by_hand(f"{name}.cut", self.about(20), sitting_min=10)
        bevel = self.chain(cut, self.by_hand(f"{name}.bevel", self.about(16)))
        case = self.chain(bevel, self.by_hand(f"{name}.case", 5))
        form = self.chain(case, self.by_hand(f"{name}.form", self.about(22)), 10, 60)
        look = self.chain(form, self.by_hand(f"{name}.look", 3), 40, 70)
        set_dry = self.dries(f"{name}.set", 600, form)
        dye = self.dip(f"{name}.dye", colour)
        self.chain(look, dye)
        self.chain(set_dry, dye)
        dye_dry = self.dries(f"{name}.dye.dry", 480, dye)
        finish = self.chain(dye_dry, self.by_hand(f"{name}.finish", self.about(14)))
        self.holds.append(Hold(resource="rack", amount=1, first=dye, until=(finish,)))
        finish_dry = self.dries(f"{name}.finish.dry", 180, finish)
        edge = self.chain(finish_dry, self.by_hand(f"{name}.edge", self.about(16)))
        self.holds.append(Hold(resource="rack", amount=1, first=finish, until=(edge,)))
        return edge

    def about(self, minutes):
        """Return a duration near this one."""
        return max(3, round(minutes * self.scale * self.rng.uniform(0.75, 1.25)))

    def by_hand(self, name, minutes, **parts):
        """Add a step that either does, the apprentice at a slower pace."""
        slower = minutes + minutes // 5
        modes = (Mode(who="maker", minutes=minutes), Mode(who="apprentice", minutes=slower))
        return self.add(Activity(id=name, minutes=minutes, modes=modes, **parts))

    def dip(self, name, colour):
        """Add a dip of one of the four a batch takes."""
        modes = tuple(Mode(who=who, minutes=4, bath=VAT) for who in ("maker", "apprentice"))
        dip = Dip(family=f"dye|{colour}" if colour != "russet" else colour, set_up_min=10)
        return self.add(Activity(id=name, minutes=4, modes=modes, dip=dip))

    def dries(self, name, minutes, wet):
        """Add what time does, from the end of what wets it on."""
        self.add(Activity(id=name, minutes=minutes))
        return self.chain(wet, name, 0, 0)

    def add(self, activity):
        """Add a step in the chosen order."""
        parts = {
            f: getattr(activity, f) for f in ("minutes", "modes", "dip", "sitting_min", "soon")
        }
        self.activities.append(Activity(id=activity.id, priority=len(self.activities), **parts))
        return activity.id

    def chain(self, first, then, low=0, high=None):
        """Let one step follow another."""
        self.lags.append(Lag(first=first, then=then, min_lag=low, max_lag=high))
        return then
