"""Bars of the week for baths that are changed: somebody's work, though no step of a build."""

from collections.abc import Iterator

from armorplan.app.lane_names import bath_lane
from armorplan.app.rows import BenchState
from armorplan.app.week_facts import WeekFacts
from armorplan.app.week_rows import BarKind, By, WeekBar
from armorplan.schedule.changeovers import Changeover, changeovers, family_words
from armorplan.schedule.sittings import step_of

NOBODY_NEAR = "Nobody in the plan is free for it: somebody who may dip has to be near."


def change_bars(facts: WeekFacts, by: By) -> Iterator[WeekBar]:
    """Yield a bar for each change, in the lane of who is free, of the bath, or of the build.

    By person none for what nobody is free for: its bath shows it.
    """
    if facts.problem is None:
        return
    for change in changeovers(facts.problem, facts.placed.values()):
        if change.who is not None or by is not By.PERSON:
            yield _bar(facts, by, change)


def _bar(facts: WeekFacts, by: By, change: Changeover) -> WeekBar:
    job = facts.job_of.get(change.then)
    build = job.id if job else facts.build
    is_open = facts.is_open(change.then) or job is None
    who, bath = facts.name(change.who) if change.who else "", bath_lane(change.bath)
    lane = {By.PERSON: who, By.PLACE: bath, By.BUILD: build}[by]
    return WeekBar(
        key=f"{change.then}@change",
        step=step_of(change.then),
        title=f"Change {facts.name(bath)} to {family_words(change.family)}",
        kind=BarKind.WORK,
        lane=lane,
        who=who,
        start_at=facts.at(change.start_min),
        end_at=facts.at(change.end_min),
        state=BenchState.WAITING,
        build="" if is_open or job is None else job.id,
        build_title="" if is_open or job is None else job.title or job.id,
        tag=facts.tags.get(build, ""),
        note="" if change.who else NOBODY_NEAR,
        family=change.family,
    )
