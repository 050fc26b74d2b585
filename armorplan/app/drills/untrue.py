"""The reason that decides, told with a number that is not true, so that nothing would follow from it."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from armorplan.geometry.covers.areas import COVERED_PCT
from armorplan.geometry.reach.words import unlike_mm
from armorplan.kernel.units import about_words, span_words
from armorplan.practice.drill import Because
from armorplan.rules.reaching import LEAST_MIN, NEEDS

_NEAR_BY = 0.8
_FAR_OFF = 1.5
_DAY_STEP_MIN = 15
_TAKES = re.compile(r"of ([^,.]+?) that it takes")


@dataclass(frozen=True, slots=True, kw_only=True)
class Untrue:
    """A reason that is not true, and the sentence that says so with the true number."""

    text: str
    why_not: str


def untrue(because: Because) -> Untrue | None:
    """Return a reason with one number changed; ``None`` where none of its numbers decides it.

    The changed number lies on the other side of what it is held against: a joint that a tool would
    reach, a head that hardly anything lies over, minutes too few to keep an order for.
    """
    numbers = {number.name: number.value for number in because.exact}
    found = (make(because.text, numbers) for make in _MADE)
    return next((each for each in found if each is not None), None)


_Numbers = Mapping[str, float]


def _too_far(text: str, numbers: _Numbers) -> Untrue | None:
    """Of what no tool gets to: so near that the longest would."""
    least_mm, reach_mm = numbers.get(NEEDS), numbers.get("reach")
    if least_mm is None or reach_mm is None or "costs more" in numbers or least_mm <= reach_mm:
        return None
    least, reach = unlike_mm(least_mm, reach_mm)
    near = f"{max(_NEAR_BY * reach_mm, 1.0):.0f}"
    why = (
        f"Not true: a straight tool has to get in at least {least} mm here. Were it {near} mm, one "
        f"of {reach} mm would get there, and this joint could wait."
    )
    return _changed(text, (least, near), why)


def _covered(text: str, numbers: _Numbers) -> Untrue | None:
    """Of a head that something lies over: by so little that the setter has its place."""
    covered_pct = numbers.get("head covered")
    if covered_pct is None:
        return None
    true, little = f"{covered_pct:.0f}", f"{COVERED_PCT / 2:.0f}"
    why = (
        f"Not true: {true} % of the head is covered. Were it {little} %, the setter would have its "
        f"place: up to {COVERED_PCT:g} % is no cover."
    )
    return _changed(text, (f"{true} %", f"{little} %"), why)


def _price(text: str, numbers: _Numbers) -> Untrue | None:
    """Of what only costs more afterwards: so little that nobody would keep to an order for it."""
    more_min = numbers.get("costs more")
    if more_min is None:
        return None
    true, little = about_words(more_min), about_words(LEAST_MIN / 2)
    why = (
        f"Not true: it costs about {true} more. For {little} nobody would keep to an order: less "
        f"than {60 * LEAST_MIN:.0f} seconds is no reason for one."
    )
    return None if true == little else _changed(text, (true, little), why)


def _dose(text: str, numbers: _Numbers) -> Untrue | None:
    """Of what dries: what it takes lies on the other side of what has passed."""
    takes_min, passed_min = (
        numbers.get("needed at the reference"),
        numbers.get("passed at the reference"),
    )
    said = _TAKES.search(text)
    if takes_min is None or passed_min is None or said is None:
        return None
    other_min = passed_min * (_NEAR_BY if takes_min > passed_min else _FAR_OFF)
    false = span_words(max(round(other_min), 1))
    why = f"Not true: it takes {said[1]} there. Were it {false}, the answer would be another one."
    if false == said[1]:
        return None
    return Untrue(text=text.replace(said[0], f"of {false} that it takes"), why_not=why)


def _wait(text: str, numbers: _Numbers) -> Untrue | None:
    """Of a wait that a plan keeps: longer than the plan waits."""
    waited_min, least_min = numbers.get("wait in this plan"), numbers.get("least wait")
    if waited_min is None or least_min is None or not 0 < least_min <= waited_min:
        return None
    true, false = f"{least_min:g} min", f"{waited_min + _DAY_STEP_MIN:g} min"
    if true == f"{waited_min:g} min":
        return None
    why = f"Not true: {true} are asked for. Were it {false}, this plan would not keep the wait."
    return _changed(text, (true, false), why)


_MADE: tuple[Callable[[str, _Numbers], Untrue | None], ...] = (
    _too_far,
    _covered,
    _price,
    _dose,
    _wait,
)


def _changed(text: str, numbers: tuple[str, str], why_not: str) -> Untrue | None:
    """Return a text with a number changed wherever it stands; ``None`` where it does not stand in it."""
    true, false = numbers
    pattern = rf"(?<![\d.]){re.escape(true)}(?![\d.]*\d)"
    changed, count = re.subn(pattern, false, text)
    return Untrue(text=changed, why_not=why_not) if count and changed != text else None
