"""What sentences about a problem call people, places and minutes."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from armorplan.kernel.units import DAY_MIN
from armorplan.schedule.activity import Window
from armorplan.schedule.lag_cycle import title
from armorplan.schedule.problem import Problem

_WEEK_MIN = 7 * DAY_MIN


@dataclass(frozen=True, slots=True, kw_only=True)
class Naming:
    """Names for ids, and the local time.

    Attributes:
        names: of people, places and baths; what is not there is called by its id.
        builds: of builds, by their own ids: a build and its wearer may both be ``anna``.
        zone: IANA time zone name.
        written: where the shop file tells of them, as '[people.mate] in shop.toml, line 12'; of a
            build by ``builds.ID``.
        beside, signed: people and kinds of step: what the file says is done with somebody beside,
            and of what a word at the bench counts instead of the file.
    """

    names: Mapping[str, str] = field(default_factory=dict)
    builds: Mapping[str, str] = field(default_factory=dict)
    written: Mapping[str, str] = field(default_factory=dict)
    beside: frozenset[tuple[str, str]] = frozenset()
    signed: frozenset[tuple[str, str]] = frozenset()
    zone: str = "UTC"

    def of(self, an_id: str) -> str:
        """Return what something is called."""
        return self.names.get(an_id) or an_id

    def build(self, an_id: str) -> str:
        """Return what a build is called."""
        return self.builds.get(an_id) or an_id

    def at(self, problem: Problem, minute: int) -> datetime:
        """Return the local instant of a minute from the origin."""
        return (problem.origin_at + timedelta(minutes=minute)).astimezone(ZoneInfo(self.zone))

    def moment(self, problem: Problem, minute: int) -> str:
        """Return a minute as 'Tuesday 13:00', with the date where more than a week is planned."""
        at = self.at(problem, minute)
        if abs(minute) < _WEEK_MIN:
            return f"{at:%A %H:%M}"
        return f"{at:%a} {at.day} {at:%b %H:%M}"

    def span(self, problem: Problem, window: Window) -> str:
        """Return a stretch as 'Tuesday 13:00–17:00' or 'Monday 17:30 to Tuesday 09:00'."""
        start_at, end_at = (self.at(problem, minute) for minute in window)
        if start_at.time() == end_at.time() == time.min:
            return self._days(problem, window)
        if start_at.date() == end_at.date():
            return f"{self.moment(problem, window[0])}–{end_at:%H:%M}"
        return f"{self.moment(problem, window[0])} to {self.moment(problem, window[1])}"

    def _days(self, problem: Problem, window: Window) -> str:
        """Return whole days as 'all Tuesday' or 'Tuesday to Thursday'."""
        first, last = (
            self.moment(problem, minute).rsplit(" ", 1)[0] for minute in (window[0], window[1] - 1)
        )
        return f"all {first}" if first == last else f"{first} to {last}"


def called(problem: Problem, activity: str) -> str:
    """Return what sentences call an activity, in quotes; with its build where there are several."""
    name = title(problem, activity)
    if len(problem.jobs) > 1:
        job = next((job for job in problem.jobs if activity in job.activities), None)
        if job is not None and job.title:
            return f"{name} of {job.title}"
    return name
