"""What in a shop keeps builds from being planned, told before anybody plans: one finding each."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
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
from armorplan.workshop.skill_how import SkillHow

NOBODY_CAN = "nobody-can"
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
        *_nobody_can(problem, shop, places),
        *_no_opening(problem, shop, places),
        *_far_ahead(builds, problem, places),
        *_overdue(builds, problem, places),
        *_horizon_cut(builds, problem, places),
    )


def _nobody_can(problem: Problem, shop: Shop, places: Mapping[str, Place]) -> Iterator[Finding]:
    """Tell kinds of step that nobody does, once each, with how many steps wait for it."""
    found: dict[str, list[Activity]] = {}
    for activity in problem.activities:
        if activity.people == (NOBODY,) and activity.fixed_start_min is None:
            found.setdefault(kind_in(activity.id), []).append(activity)
    for kind, waiting in found.items():
        alone = " alone" if any(person.does_beside(kind) for person in shop.people) else ""
        is_said = any(person.is_said(kind) for person in shop.people)
        count = "1 step" if len(waiting) == 1 else f"{len(waiting)} steps"
        yield Finding(
            code=NOBODY_CAN,
            severity=Severity.ERROR,
            text=f'Nobody in this shop does "{kind}"{alone}: {count} cannot be planned, the first is '
            f"'{waiting[0].title}'.",
            remedy=_said_remedy(shop, kind) if is_said else _filed_remedy(shop, kind),
            about=tuple(a.id for a in waiting),
            place=None if is_said else places.get("people"),
        )


def _filed_remedy(shop: Shop, kind: str) -> str:
    learning = [person.name for person in shop.people if person.does_beside(kind)]
    where = f"the beside of {' and '.join(learning)}" if learning else "a cannot"
    return f'Add "{kind}" to what somebody can do, or take it out of {where}.'


def _said_remedy(shop: Shop, kind: str) -> str:
    """Say what helps where a word at the bench goes before the shop's file."""
    able = [p.name for p in shop.people if p.is_said(kind) and p.how_filed(kind) is SkillHow.ALONE]
    back = f" Or take back what was said of {' and '.join(able)} there." if able else ""
    return (
        f'What was signed off at the bench counts before the shop file: have "{kind}" signed off for '
        f"somebody as done alone (Practice, Signed off).{back}"
    )


def kind_in(activity_id: str) -> str:
    """Return the kind of step in an activity's id: ``build/piece/side/kind/subjects``."""
    return activity_id.split("/")[3].replace("-", " ") if activity_id.count("/") > 3 else ""  # noqa: PLR2004 - the fourth of five


@dataclass(frozen=True, slots=True, kw_only=True)
class _TooLong:
    """Work that fits into no opening.

    Attributes:
        length_min: what it takes at a stretch.
        room_min: the longest opening of all that it needs.
        is_beside: it would fit if nobody had to be there beside whoever works.
    """

    activity: Activity
    length_min: int
    room_min: int
    is_beside: bool


def _no_opening(problem: Problem, shop: Shop, places: Mapping[str, Place]) -> Iterator[Finding]:
    """Tell work that fits into no opening of anybody who may do it: the longest, and how many."""
    openings = _Openings(problem)
    found = [each for a in problem.activities if (each := _too_long(a, problem, openings))]
    for is_beside in (False, True):
        mine = [each for each in found if each.is_beside is is_beside]
        if mine:
            yield _no_opening_finding(mine, shop, places)


def _too_long(activity: Activity, problem: Problem, openings: "_Openings") -> _TooLong | None:
    """Return by how much an activity is too long for every opening; ``None``: it fits into one."""
    is_planned = activity.fixed_start_min is None and activity.people
    is_beyond = activity.earliest_min >= problem.horizon_min
    if not is_planned or is_beyond or activity.people == (NOBODY,):
        return None
    lengths = [(way, _length(activity, way)) for way in activity.ways]
    rooms = [(openings.room(activity, way), length) for way, length in lengths]
    if any(length <= room for room, length in rooms):
        return None
    room, length = min(rooms, key=lambda each: each[1] - each[0])
    alone = replace(activity, also=())
    is_beside = bool(activity.also) and any(n <= openings.room(alone, w) for w, n in lengths)
    return _TooLong(activity=activity, length_min=length, room_min=room, is_beside=is_beside)


def _no_opening_finding(
    found: Sequence[_TooLong], shop: Shop, places: Mapping[str, Place]
) -> Finding:
    """Return one finding of all that is too long, told by the longest that is done in one go."""
    worst = max(found, key=lambda each: (not each.activity.sitting_min, each.length_min))
    activity, is_beside = worst.activity, worst.is_beside
    names = {p.id: p.name for p in shop.people} | {w.id: w.name for w in shop.wearers}
    who = " or ".join(names.get(each, each) for each in activity.alone or activity.people)
    beside = " and ".join(names.get(each, each) for each in activity.also if is_beside)
    together = f" with {beside}" if beside else ""
    others = len({each.activity.id for each in found}) - 1
    more = f" {others} more step{' is' if others == 1 else 's are'} too long for it."
    return Finding(
        code="no-opening-long-enough",
        severity=Severity.ERROR,
        text=f"'{activity.title}' takes {worst.length_min} min in one go, and the longest opening "
        f"of {who}{together} has {worst.room_min} min.{more if others else ''}",
        remedy="Make an appointment as long as that, within somebody's hours."
        if beside
        else "Give somebody longer hours or an evening more, or let somebody quicker do it.",
        about=tuple(dict.fromkeys(each.activity.id for each in found)),
        place=places.get("wearers" if beside else "people"),
    )


def _length(activity: Activity, way: Mode) -> int:
    """Return how long a way takes at a stretch; what may pause needs but one sitting."""
    if activity.sitting(way):
        return min(activity.sitting(way), way.minutes)
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
        names = (*activity.there(way), *needed)
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


def _is_far(build: BuildInHand, problem: Problem) -> bool:
    end_at = problem.origin_at + timedelta(minutes=problem.horizon_min)
    return build.ready_at is not None and build.ready_at >= end_at


def _far_ahead(
    builds: Iterable[BuildInHand], problem: Problem, places: Mapping[str, Place]
) -> Iterator[Finding]:
    for build in builds:
        if build.ready_at is not None and _is_far(build, problem):
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


def _horizon_cut(
    builds: Iterable[BuildInHand], problem: Problem, places: Mapping[str, Place]
) -> Iterator[Finding]:
    is_told = any(_is_far(build, problem) for build in builds)
    if problem.horizon_min >= MOST_DAYS * DAY_MIN and not is_told:
        yield Finding(
            code="horizon-cut",
            severity=Severity.WARNING,
            text=f"All of this one after another may take longer than the {MOST_DAYS} days that a "
            "plan looks ahead.",
            remedy="If no plan is found, lay some builds aside and plan them later.",
            place=places.get("builds"),
        )
