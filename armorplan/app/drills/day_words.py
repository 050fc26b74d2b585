"""What a planned day is told in: its hours, its waits, and what is wrong with a plan of it."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from armorplan.app.derived import Derived
from armorplan.app.drills.day_hours import WEEKDAYS
from armorplan.app.drills.day_links import Link
from armorplan.app.drills.day_making import Day
from armorplan.app.drills.reasons import because_of
from armorplan.drying.days import usual_days
from armorplan.kernel.units import HOUR_MIN
from armorplan.practice.day_plan import Starts
from armorplan.practice.drill import Because
from armorplan.relations.model import Quantity
from armorplan.schedule.violation import Violation
from armorplan.workshop.air import Room, mean_air

HANDS = "one-thing-at-a-time"
HOURS = "within-hours"
IN_TIME = "done-in-time"
"""Rules of a day, not of the leather: results are not kept by them."""
_OF_WAITS = ("too soon", "too long after")


def clock(minute: int) -> str:
    """Return a minute of the day as the clock shows it."""
    return f"{minute // HOUR_MIN:02}:{minute % HOUR_MIN:02}"


def hours_words(day: Day) -> str:
    """Say which day it is, whose, and when it is open."""
    hours = day.hours
    open_words = " and ".join(
        f"{clock(opens)} to {clock(closes)}" for opens, closes in hours.windows
    )
    late = ""
    if day.from_min > hours.windows[0][0]:
        late = f" You come to the bench at {clock(day.from_min)}."
    return f"A {WEEKDAYS[hours.weekday]}; {hours.person.name} works {open_words}.{late}"


def air_words(room: Room) -> str:
    """Say in which air the waits of a day are told."""
    mean = mean_air(usual_days(room))
    steady = "at" if len(set(usual_days(room))) == 1 else "on average"
    return (
        f"Waits are those of a usual day in this room: {steady} {mean.temperature_c:g} °C and "
        f"{mean.humidity_pct:g} % humidity."
    )


def wait_words(derived: Derived, link: Link) -> str:
    """Say what one step waits for behind another, in minutes."""
    first, then = (derived.work.step(name).title for name in (link.first, link.then))
    if link.most_min is None:
        return f"'{then}' begins {link.least_min} min after '{first}' ends, or later."
    return f"'{then}' begins {link.least_min} to {link.most_min} min after '{first}' ends."


class Faults:
    """Tells what a plan of a day breaks, the first in time first.

    Args:
        derived: the build.
        day: what was asked.
        starts: when each step begins by the plan.
    """

    def __init__(self, derived: Derived, day: Day, starts: Starts) -> None:
        self._derived = derived
        self._day = day
        self._starts = starts

    def told(self, violations: Sequence[Violation]) -> tuple[Because, ...]:
        """Return each fault with its reason."""
        ordered = sorted(violations, key=self._turn)
        return tuple(dict.fromkeys(self._because(violation) for violation in ordered))

    def first_words(self, violations: Sequence[Violation]) -> str:
        """Return the first fault in time, without its reason."""
        first = min(violations, key=self._turn)
        text = self._because(first).text
        if first.kind not in _OF_WAITS:
            return text
        reason = because_of(self._derived, self._day.link(*first.about).relation).text
        return text.removesuffix(reason).rstrip()

    def broken(self, violations: Sequence[Violation]) -> tuple[Link, ...]:
        """Return the waits that are not kept."""
        pairs = {v.about for v in violations if v.kind in _OF_WAITS}
        return tuple(link for link in self._day.links if (link.first, link.then) in pairs)

    def kept(self, link: Link) -> Because:
        """Return the reason of a wait that is kept, with the minutes of this plan."""
        waited = self._waited(link)
        said = f"'{self._title(link.then)}' begins {waited} min after '{self._title(link.first)}'"
        return self._told_of(link, f"{said}; {_asked_words(link)}.")

    def _turn(self, violation: Violation) -> tuple[int, str, tuple[str, ...]]:
        begins = max((self._starts[name] for name in violation.about), default=0)
        return begins, violation.kind, violation.about

    def _because(self, violation: Violation) -> Because:
        tells: dict[str, Callable[[Violation], Because]] = {
            "too soon": self._too_soon,
            "too long after": self._too_late_after,
            "two at once": self._two_at_once,
            "outside hours": self._outside,
            "too late": self._not_in_time,
        }
        return tells[violation.kind](violation)

    def _too_soon(self, violation: Violation) -> Because:
        link = self._day.link(*violation.about)
        waited = self._waited(link)
        begins = f"'{self._title(link.then)}' at {self._clock(link.then)}"
        if waited < 0:
            ends = clock(self._ends(link.first))
            said = f"{begins} begins before '{self._title(link.first)}' is done, at {ends}."
        else:
            said = (
                f"{begins} begins {waited} min after '{self._title(link.first)}' ends; it has to "
                f"wait {link.least_min} min."
            )
        return self._told_of(link, said)

    def _too_late_after(self, violation: Violation) -> Because:
        link = self._day.link(*violation.about)
        said = (
            f"'{self._title(link.then)}' at {self._clock(link.then)} begins {self._waited(link)} min "
            f"after '{self._title(link.first)}' ends; after {link.most_min} min it is too late."
        )
        return self._told_of(link, said)

    def _two_at_once(self, violation: Violation) -> Because:
        one, other = sorted(violation.about, key=self._starts.__getitem__)
        text = (
            f"'{self._title(other)}' begins at {self._clock(other)}, while '{self._title(one)}' goes "
            f"on till {clock(self._ends(one))}: one pair of hands does one thing at a time."
        )
        return self._of_the_day(HANDS, "One thing at a time", text, (one, other))

    def _outside(self, violation: Violation) -> Because:
        step = violation.about[0]
        open_words = " and ".join(
            f"{clock(opens)}–{clock(closes)}"
            for opens, closes in self._day.problem.workers[0].windows
        )
        text = (
            f"'{self._title(step)}' would go on from {self._clock(step)} to {clock(self._ends(step))}; "
            f"the bench is worked at {open_words}, and a step is done in one go."
        )
        return self._of_the_day(HOURS, "Within the shop's hours", text, (step,))

    def _not_in_time(self, violation: Violation) -> Because:
        step = violation.about[0]
        text = (
            f"'{self._title(step)}' ends at {clock(self._ends(step))}; all is to be done by "
            f"{clock(self._day.ends_by_min)}, and can be by {clock(self._day.best_min)}."
        )
        return self._of_the_day(IN_TIME, "Done in time", text, (step,))

    def _told_of(self, link: Link, said: str) -> Because:
        told = because_of(self._derived, link.relation)
        exact = [Quantity(name="wait in this plan", value=self._waited(link), unit="min")]
        exact.append(Quantity(name="least wait", value=link.least_min, unit="min"))
        if link.most_min is not None:
            exact.append(Quantity(name="most wait", value=link.most_min, unit="min"))
        return replace(
            told,
            text=f"{said} {told.text}",
            numbers=tuple(f"{number.name} {number.value:g} min" for number in exact),
            exact=tuple(exact),
            steps=(link.first, link.then),
        )

    def _of_the_day(self, rule: str, name: str, text: str, steps: tuple[str, ...]) -> Because:
        return Because(rule=rule, name=name, text=text, steps=steps)

    def _title(self, step: str) -> str:
        return self._derived.work.step(step).title

    def _clock(self, step: str) -> str:
        return clock(self._starts[step])

    def _ends(self, step: str) -> int:
        return self._starts[step] + self._day.minutes(step)

    def _waited(self, link: Link) -> int:
        return self._starts[link.then] - self._ends(link.first)


def _asked_words(link: Link) -> str:
    if link.most_min is None:
        return f"{link.least_min} min are asked for"
    return f"{link.least_min} to {link.most_min} min are right"
