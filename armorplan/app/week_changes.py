"""Bars of the week for baths that are changed: somebody's work, though no step of a build."""

from collections.abc import Iterator

from armorplan.app.lane_names import bath_lane
from armorplan.app.rows import BenchState
from armorplan.app.week_facts import WeekFacts
from armorplan.app.week_rows import BarKind, WeekBar
from armorplan.schedule.changeovers import Changeover, changeovers, family_words


def change_bars(facts: WeekFacts) -> Iterator[WeekBar]:
    """Yield a bar for each change that somebody is free for, in the lane of who that is.

    By bath the change is drawn between its batches anyway.
    """
    if facts.problem is None:
        return
    for change in changeovers(facts.problem, facts.placed.values()):
        if change.who is not None:
            yield _bar(facts, change)


def _bar(facts: WeekFacts, change: Changeover) -> WeekBar:
    """Return the bar; it belongs to no build, and no step is chosen by it."""
    key, who = f"{change.then}@change", facts.name(change.who)
    return WeekBar(
        key=key,
        step=key,
        title=f"Change {facts.name(bath_lane(change.bath))} to {family_words(change.family)}",
        kind=BarKind.WORK,
        lane=who,
        who=who,
        start_at=facts.at(change.start_min),
        end_at=facts.at(change.end_min),
        state=BenchState.WAITING,
        family=change.family,
    )
