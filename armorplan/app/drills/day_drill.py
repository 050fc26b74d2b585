"""'Plan the day': real steps around two drying windows, one person, the shop's own hours.

Right is whatever keeps order, waits, windows, hours and one thing at a time, and is done in time; the
independent checker of plans says so (``schedule.checker``).
"""

import re
from collections.abc import Sequence

from armorplan.app.derived import Derived
from armorplan.app.drills.day_making import GRID_MIN, Day, day_of
from armorplan.app.drills.day_words import (
    Faults,
    air_words,
    clock,
    hours_words,
    wait_words,
)
from armorplan.app.drills.reasons import cautions_of, met_by, rules_of
from armorplan.app.drills.source import DrillSource
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.units import HOUR_MIN
from armorplan.practice.day_plan import Starts, nearest_day, placed_at
from armorplan.practice.drill import (
    Answer,
    AnswerForm,
    Asked,
    Choice,
    DayAsked,
    DayRow,
    Drill,
    Judged,
    Solved,
)
from armorplan.practice.levels import chance_of
from armorplan.schedule.checker import violations
from armorplan.steps.model import Step

_TIME = re.compile(r"([01]?\d|2[0-3]):([0-5]\d)")
_HINT = (
    "While one thing dries the hands are free for another. What has a latest time is only made wet "
    "when somebody can come back to it in time, and nothing goes on over closed hours."
)


class DayDrills:
    """Makes, judges and solves days to plan."""

    def make(self, source: DrillSource, asked: Asked) -> Drill | None:
        """Return a day to plan; ``None`` where no two waits of this build fit one day."""
        day = day_of(source.derived, asked)
        return None if day is None else _drill(source.derived, asked, day)

    def judge(self, source: DrillSource, drill: Drill, answer: Sequence[str]) -> Judged:
        """Return what a plan is worth.

        Its credit is the share of steps that may stay where they are: the fewest that need another
        time for a right plan are found by trying (``practice.day_plan.nearest_day``).

        Raises:
            ArmorplanError: a time is missing, or told of something else.
        """
        derived, day = source.derived, _day(source, drill)
        starts = _starts(drill, answer)
        found = violations(day.problem, placed_at(day.problem, starts))
        faults = Faults(derived, day, starts)
        broken = faults.broken(found)
        met = met_by((link.relation for link in day.links), (link.relation for link in broken))
        if not found:
            return Judged(
                right=True,
                sentence=f"Right: all is done by {clock(_end(day, starts))}, and nothing waits too long.",
                because=tuple(faults.kept(link) for link in day.waits),
                nearest=tuple(answer),
                credit=1.0,
                met=met,
            )
        because = faults.told(found)
        nearest = nearest_day(day.problem, starts, grid_min=GRID_MIN)
        if nearest is None:  # It was made with a right plan.
            raise ArmorplanError("No plan of this day is right.")
        return Judged(
            right=False,
            sentence=f"Not yet: {faults.first_words(found)}",
            because=because,
            nearest=_answer(drill, nearest.starts),
            moved=nearest.changed,
            distance=len(nearest.changed),
            credit=1.0 - len(nearest.changed) / len(starts),
            met=met,
        )

    def solve(self, source: DrillSource, drill: Drill) -> Solved:
        """Return the plan that ends soonest."""
        day = _day(source, drill)
        faults = Faults(source.derived, day, day.best)
        return Solved(
            answer=_answer(drill, day.best),
            others=f"With times in steps of {GRID_MIN} min none is done before {clock(day.best_min)}. "
            f"Every plan is right that keeps the "
            f"waits and the hours and is done by {clock(day.ends_by_min)}.",
            because=tuple(faults.kept(link) for link in day.waits),
        )


def _day(source: DrillSource, drill: Drill) -> Day:
    found = day_of(source.derived, drill.asked)
    if found is None or _drill(source.derived, drill.asked, found) != drill:
        raise ArmorplanError("This build holds no such day any more. Ask for another exercise.")
    return found


def _drill(derived: Derived, asked: Asked, day: Day) -> Drill:
    shown = list(day.steps)
    chance_of(asked).shuffle(shown)
    ids = [step.id for step in day.steps]
    return Drill(
        asked=asked,
        title=derived.pattern.name,
        question=f"When does each step begin, so that all is done by {clock(day.ends_by_min)}?",
        choices=tuple(_choice(day, step) for step in shown),
        form=AnswerForm.TIMES,
        given=_given(derived, day),
        done=day.done,
        parts=tuple(dict.fromkeys(part for step in day.steps for part in step.parts)),
        rules=rules_of(link.relation for link in day.waits),
        cautions=cautions_of(derived, ids),
        hint=_HINT,
        day=_asked_day(derived, day, shown),
    )


def _choice(day: Day, step: Step) -> Choice:
    return Choice(
        id=step.id,
        title=step.title,
        detail=f"{day.minutes(step.id)} min",
        steps=(step.id,),
        parts=step.parts,
        joints=step.joints,
    )


def _given(derived: Derived, day: Day) -> tuple[str, ...]:
    return (
        hours_words(day),
        "One person does it all, one thing at a time, each step in one go; what dries, dries by itself.",
        air_words(derived.shop.room),
        *(wait_words(derived, link) for link in day.waits),
    )


def _asked_day(derived: Derived, day: Day, shown: Sequence[Step]) -> DayAsked:
    hours = day.hours
    work = [
        DayRow(title=step.title, minutes=day.minutes(step.id), choice=step.id) for step in shown
    ]
    waits = [
        DayRow(
            title=derived.work.step(link.waits).title
            if link.waits
            else f"Until '{derived.work.step(link.then).title}' may begin",
            minutes=link.least_min,
            latest_min=link.most_min,
            after=link.first,
            before=link.then,
            attended=False,
        )
        for link in day.waits
    ]
    return DayAsked(
        from_at=hours.at(day.from_min),
        to_at=hours.at(hours.windows[-1][1]),
        ends_by_at=hours.at(day.ends_by_min),
        zone=derived.shop.zone,
        rows=(*work, *waits),
        closed=tuple(
            (hours.at(shut), hours.at(opens))
            for shut, opens in hours.closed
            if opens > day.from_min
        ),
        grid_min=GRID_MIN,
    )


def _starts(drill: Drill, answer: Sequence[str]) -> dict[str, int]:
    """Return by step the minute of the day it begins at."""
    known = {choice.id for choice in drill.choices}
    starts: dict[str, int] = {}
    for one in answer:
        name, _, time = one.rpartition("=")
        told = _TIME.fullmatch(time)
        if name not in known or told is None:
            raise ArmorplanError(
                f"'{one}' is no time of a step of this day. Write a time of day behind each: A=09:15."
            )
        if name in starts:
            raise ArmorplanError(
                f"'{drill.choice(name).title}' has two times. Give each step one."
            )
        starts[name] = int(told[1]) * HOUR_MIN + int(told[2])
    for choice in drill.choices:
        if choice.id not in starts:
            raise ArmorplanError(f"'{choice.title}' has no time yet. Give each step one.")
    return starts


def _answer(drill: Drill, starts: Starts) -> Answer:
    return tuple(f"{choice.id}={clock(starts[choice.id])}" for choice in drill.choices)


def _end(day: Day, starts: Starts) -> int:
    return max(starts[name] + day.minutes(name) for name in starts)


MAKER = DayDrills()
