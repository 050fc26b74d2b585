"""What in a shop keeps builds from being planned, told before anybody plans: one finding each."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import timedelta
from types import MappingProxyType

from armorplan.kernel.findings import Finding, Place, Severity
from armorplan.kernel.units import DAY_MIN
from armorplan.schedule.activity import Activity, Mode, Window
from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.hands import NOBODY
from armorplan.schedule.horizon import MOST_DAYS
from armorplan.schedule.problem import Problem
from armorplan.workshop.shop import Shop

_NOWHERE: Mapping[str, Place] = MappingProxyType({})
_ALL_TIME: tuple[Window, ...] = ((0, MOST_DAYS * DAY_MIN),)


def shop_findings(
    builds: Sequence[BuildInHand],
    problem: Problem,
    *,
    places: Mapping[str, Place] = _NOWHERE,
) -> tuple[Finding, ...]:
    """Return what no plan can mend, and what will surprise.

    Args:
        builds: those in hand, of one shop.
        problem: their joined problem.
        places: where people and builds are written (``files.shop_file.ShopFile.places``).
    """
    if not builds:
        return ()
    shop = builds[0].workplace.shop
    return (
        *_nobody_can(problem, places),
        *_no_opening(problem, shop, places),
        *_far_ahead(builds, problem, places),
        *_overdue(builds, problem, places),
        *_horizon_cut(problem, places),
    )


def _nobody_can(problem: Problem, places: Mapping[str, Place]) -> Iterator[Finding]:
    """Tell kinds of step that nobody does, once each, with how many steps wait for it."""
    found: dict[str, list[Activity]] = {}
    for activity in problem.activities:
        if activity.people == (NOBODY,) and activity.fixed_start_min is None:
            found.setdefault(kind_in(activity.id), []).append(activity)
    for kind, waiting in found.items():
        count = "1 step" if len(waiting) == 1 else f"{len(waiting)} steps"
        yield Finding(
            code="nobody-can",
            severity=Severity.ERROR,
            text=f'Nobody in this shop does "{kind}": {count} cannot be planned, the first is '
            f"'{waiting[0].title}'.",
            remedy=f'Add "{kind}" to what somebody can do, or take it out of a cannot.',
            about=tuple(a.id for a in waiting),
            place=places.get("people"),
        )


def kind_in(activity_id: str) -> str:
    """Return the kind of step in an activity's id: ``build/piece/side/kind/subjects``."""
    return activity_id.split("/")[3].replace("-", " ") if activity_id.count("/") > 3 else ""  # noqa: PLR2004 - the fourth of five


def _no_opening(problem: Problem, shop: Shop, places: Mapping[str, Place]) -> Iterator[Finding]:
    """Tell work that fits into no opening of anybody who may do it, the longest of a kind only."""
    openings = _Openings(problem)
    worst: dict[tuple[str, tuple[str, ...]], tuple[int, int, Activity]] = {}
    for activity in problem.activities:
        is_planned = activity.fixed_start_min is None and activity.people
        is_beyond = activity.earliest_min >= problem.horizon_min
        if not is_planned or is_beyond or activity.people == (NOBODY,):
            continue
        rooms = [(openings.room(activity, way), _length(activity, way)) for way in activity.ways]
        if any(length <= room for room, length in rooms):
            continue
        room, length = min(rooms, key=lambda each: each[1] - each[0])
        key = (kind_in(activity.id), activity.also)
        if key not in worst or length > worst[key][1]:
            worst[key] = (room, length, activity)
    for room, length, activity in worst.values():
        yield _no_opening_finding(activity, room, length, (shop, places))


def _no_opening_finding(
    activity: Activity, room: int, length: int, told: tuple[Shop, Mapping[str, Place]]
) -> Finding:
    shop, places = told
    names = {p.id: p.name for p in shop.people} | {w.id: w.name for w in shop.wearers}
    who = " or ".join(names.get(each, each) for each in activity.people)
    beside = " and ".join(names.get(each, each) for each in activity.also)
    together = f" with {beside}" if beside else ""
    there = f"the longest opening of {who}{together} has {room} min"
    return Finding(
        code="no-opening-long-enough",
        severity=Severity.ERROR,
        text=f"'{activity.title}' takes {length} min in one go, and {there}.",
        remedy="Make an appointment as long as that, within somebody's hours."
        if beside
        else "Give somebody longer hours or an evening more, or let somebody quicker do it.",
        about=(activity.id,),
        place=places.get("wearers" if beside else "people"),
    )


def _length(activity: Activity, way: Mode) -> int:
    """Return how long a way takes at a stretch; what may pause needs but one sitting."""
    if activity.sitting_min:
        return min(activity.sitting_min, way.minutes)
    return way.minutes + (activity.dip.set_up_min if activity.dip else 0)


class _Openings:
    """When people and places are there together; each company of them is looked up once."""

    def __init__(self, problem: Problem) -> None:
        self._hours: dict[str, Sequence[Window]] = {w.id: w.windows for w in problem.workers}
        shut = ((r.id, r.windows) for r in problem.resources)
        self._hours |= {name: windows for name, windows in shut if windows is not None}
        self._rooms: dict[tuple[int, tuple[str, ...]], int] = {}

    def room(self, activity: Activity, way: Mode) -> int:
        """Return the longest stretch in which all that a way takes is there at once."""
        demands = (*activity.demands, *way.demands)
        needed = (d.resource for d in demands if d.resource in self._hours)
        names = (*((way.who,) if way.who else ()), *activity.also, *needed)
        key = (activity.earliest_min, names)
        if key not in self._rooms:
            self._rooms[key] = self._longest(*key)
        return self._rooms[key]

    def _longest(self, soonest: int, names: tuple[str, ...]) -> int:
        common: Sequence[Window] = _ALL_TIME
        for name in names:
            common = both(common, self._hours.get(name, ()))
        return max(
            (end - max(start, soonest) for start, end in common if end > soonest), default=0
        )


def both(one: Sequence[Window], other: Sequence[Window]) -> tuple[Window, ...]:
    """Return what lies in windows of both, each ascending and apart."""
    found: list[Window] = []
    at = 0
    for start, end in one:
        while at < len(other) and other[at][1] <= start:
            at += 1
        here = at
        while here < len(other) and other[here][0] < end:
            found.append((max(start, other[here][0]), min(end, other[here][1])))
            here += 1
    return tuple(found)


def place_of(places: Mapping[str, Place], build: str) -> Place | None:
    """Return where a build is written; one of several alike stands with all of them."""
    return places.get(f"builds.{build}") or places.get(f"builds.{build.rpartition('-')[0]}")


def _far_ahead(
    builds: Iterable[BuildInHand], problem: Problem, places: Mapping[str, Place]
) -> Iterator[Finding]:
    end_at = problem.origin_at + timedelta(minutes=problem.horizon_min)
    for build in builds:
        if build.ready_at is not None and build.ready_at >= end_at:
            days = (build.ready_at - problem.origin_at).days
            yield Finding(
                code="too-far-ahead",
                severity=Severity.ERROR,
                text=f"{build.title} may begin only in {days} days; a plan looks "
                f"{MOST_DAYS} days ahead.",
                remedy="Let it begin sooner, or lay it aside until then.",
                about=(build.id,),
                place=place_of(places, build.id),
            )


def _overdue(
    builds: Iterable[BuildInHand], problem: Problem, places: Mapping[str, Place]
) -> Iterator[Finding]:
    for build in builds:
        if build.due_at is not None and build.due_at <= problem.origin_at:
            yield Finding(
                code="due-before-start",
                severity=Severity.WARNING,
                text=f"{build.title} was due on {build.due_at:%d %B %Y}, before this plan begins: "
                "it is late whatever is done.",
                remedy="Promise another day: every minute until it is done counts as late.",
                about=(build.id,),
                place=place_of(places, build.id),
            )


def _horizon_cut(problem: Problem, places: Mapping[str, Place]) -> Iterator[Finding]:
    if problem.horizon_min >= MOST_DAYS * DAY_MIN:
        yield Finding(
            code="horizon-cut",
            severity=Severity.WARNING,
            text=f"All of this one after another may take longer than the {MOST_DAYS} days that a "
            "plan looks ahead.",
            remedy="If no plan is found, lay some builds aside and plan them later.",
            place=places.get("builds"),
        )
