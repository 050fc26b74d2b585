"""Invented problems in the shape of the trade, for tests and benches of the planner."""

from datetime import UTC, datetime
from itertools import pairwise

from armorplan.schedule.activity import Activity, Demand
from armorplan.schedule.calendars import worker_windows
from armorplan.schedule.problem import EndsBeforeLast, Lag, Problem, Resource, Worker
from armorplan.workshop.shop import Person, usual_hours

MONDAY_AT = datetime(2025, 3, 3, 8, 0, tzinfo=UTC)
HORIZON_MIN = 60 * 24 * 60
_WET = (("set", 0, 720), ("dye", 12, 240), ("finish", 10, 180))
_ROW = 6


def wardrobe(steps, *, seed=1, rack=14, people=1):
    """Gores cut, cased and damp-formed, dyed, finished, then riveted in rows; so many steps.

    Twelve steps a gore up to its last drying on the rack; the rest is riveting in rows of a cup,
    each row's last before the last of the two that follow it.
    """
    names = tuple(f"maker{n}" for n in range(people))
    laid = _Steps(seed, names)
    ready = [laid.gore(f"gore{n:02}") for n in range(max(1, steps // 20))]
    fit = laid.add("fit", 40)
    for last in ready:
        laid.chain(last, fit)
    laid.rows(fit, steps - len(laid.activities) - 1)
    return Problem(
        origin_at=MONDAY_AT,
        horizon_min=HORIZON_MIN,
        activities=tuple(laid.activities),
        lags=tuple(laid.lags),
        before_last=tuple(laid.rules),
        resources=(Resource(id="rack", capacity=rack),),
        workers=tuple(_maker(name) for name in names),
    )


def _maker(name):
    person = Person(id=name, name=name, hours=usual_hours())
    return Worker(id=name, windows=worker_windows(person, "UTC", MONDAY_AT, HORIZON_MIN))


class _Steps:
    def __init__(self, seed, people):
        self.people = people
        self.activities, self.lags, self.rules = [], [], []
        self._turn = seed

    def between(self, least, most):
        """A duration that varies from step to step, the same for the same seed."""
        self._turn = (self._turn * 7919 + 104729) % 1000003
        return least + self._turn % (most - least + 1)

    def add(self, name, minutes, *, drying=False):
        """Add a step by hand, or a drying on the rack."""
        self.activities.append(
            Activity(
                id=name,
                minutes=minutes,
                people=() if drying else self.people,
                demands=(Demand(resource="rack", amount=1),) if drying else (),
                priority=len(self.activities),
            )
        )
        return name

    def chain(self, first, then, low=0, high=None):
        """Let one step follow another."""
        reason = f"{first} comes first"
        self.lags.append(Lag(first=first, then=then, min_lag=low, max_lag=high, reason=reason))
        return then

    def gore(self, name):
        """Add one gore; return its last drying."""
        last = self.add(f"{name}.cut", self.between(8, 20))
        for work in ("bevel", "punch"):
            last = self.chain(last, self.add(f"{name}.{work}", self.between(5, 15)))
        case = self.chain(last, self.add(f"{name}.case", 5))
        last = self.chain(case, self.add(f"{name}.form", self.between(10, 25)), 10, 60)
        for work, minutes, drying in _WET:
            if minutes:
                last = self.chain(last, self.add(f"{name}.{work}", minutes))
            last = self.chain(last, self.add(f"{name}.{work}.dry", drying, drying=True), 0, 0)
        return last

    def rows(self, fit, count):
        """Add rivets in rows and the inspection."""
        rivets = [
            self.chain(fit, self.add(f"rivet{n:03}", self.between(2, 6))) for n in range(count)
        ]
        for number, (one, two) in enumerate(pairwise(rivets), start=1):
            if number % _ROW:
                self.chain(one, two)
        ends = rivets[_ROW - 1 :: _ROW]
        for first, *others in zip(ends, ends[1:], ends[2:], strict=False):
            rule = EndsBeforeLast(first=first, of=frozenset(others), reason="the cup closes")
            self.rules.append(rule)
        inspect = self.add("inspect", 15)
        for last in (*ends, *rivets[-1:], fit):
            self.chain(last, inspect)
