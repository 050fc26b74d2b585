"""The second question of what dries: how much do its leather and this air count?

The others take one of them, or both, the other way round, or leave the catalogue's time as it stands.
"""

import random
from collections.abc import Iterator
from dataclasses import dataclass
from math import log

from armorplan.app.derived import Derived
from armorplan.app.drills.why_pairs import quoted
from armorplan.kernel.units import span_words
from armorplan.practice.drill import Because, Choice, WhyAsked

_MOST, _FEWEST = 4, 3
_TELLS = 0.1
"""Nearer to 1 than this a factor is no reason for anything."""
_OFF = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """How something dries: by its leather, and by the air.

    Attributes:
        catalogue_min: what the catalogue says, at 23 °C and 50 %.
        times: how many times that it takes by itself.
        pace: how many minutes of the catalogue's one here does.
    """

    catalogue_min: float
    times: float
    pace: float

    @property
    def likely_min(self) -> float:
        """How long it takes."""
        return self.catalogue_min * self.times / self.pace

    def text(self, likely_min: float | None = None) -> str:
        """Say so, with how long it takes."""
        likely = span_words(max(1, round(likely_min or self.likely_min)))
        return f"{self._by_itself}, and {self._by_air}: about {likely}."

    @property
    def _by_itself(self) -> str:
        if abs(log(self.times)) < _TELLS:
            return f"By itself it takes about the catalogue's {self.catalogue}"
        return f"By itself it takes {self.times:.2g} times the catalogue's {self.catalogue}"

    @property
    def _by_air(self) -> str:
        if abs(log(self.pace)) < _TELLS:
            return "in this air it dries about as fast as there"
        fast, more = ("fast", self.pace) if self.pace > 1 else ("slowly", 1 / self.pace)
        return f"in this air it dries {more:.2g} times as {fast} as there"

    @property
    def catalogue(self) -> str:
        """The catalogue's time in words."""
        return span_words(max(1, round(self.catalogue_min)))


def drying_asked(derived: Derived, decides: Because, chance: random.Random) -> WhyAsked | None:
    """Return how it dries, asked; ``None`` where that is not known in numbers, or it never gets there."""
    numbers = {one.name: one.value for one in decides.exact}
    needed, catalogue = numbers.get("needed at the reference"), numbers.get("catalogue")
    pace, likely = numbers.get("pace of this air"), numbers.get("likely")
    if not needed or not catalogue or not pace or not likely:
        return None
    true = Pace(catalogue_min=catalogue, times=needed / catalogue, pace=pace)
    texts = {true.text(likely): ""}
    thickness = numbers.get("times for the thickness", 1.0)
    for one in _turned(true, thickness):
        texts.setdefault(one.text(), _why_not(true, one))
    told = list(texts.items())[:_MOST]
    if len(told) < _FEWEST:
        return None
    chance.shuffle(told)
    ids = [f"reason-{at}" for at in range(1, len(told) + 1)]
    return WhyAsked(
        question=f"How does {quoted(derived, decides.steps[0])} dry here, so that your answer is right?",
        choices=tuple(
            Choice(id=one, title=text, steps=decides.steps)
            for one, (text, _) in zip(ids, told, strict=True)
        ),
        right=next(one for one, (_, wrong) in zip(ids, told, strict=True) if not wrong),
        because=tuple(
            (
                one,
                wrong
                or f"'About {span_words(max(1, round(likely)))}' is right: so it dries here.",
            )
            for one, (_, wrong) in zip(ids, told, strict=True)
        ),
    )


def _turned(true: Pace, thickness: float) -> Iterator[Pace]:
    """Yield how it would dry with the air, the thickness or both the other way round, or neither felt."""
    feels_air, feels_leather = abs(log(true.pace)) >= _TELLS, abs(log(thickness)) >= _TELLS
    pace = 1 / true.pace if feels_air else _OFF
    times = true.times / thickness**2 if feels_leather else true.times
    yield _like(true, pace=pace)
    if feels_leather:
        yield _like(true, times=times)
        yield _like(true, times=times, pace=pace)
    yield _like(true, pace=1.0 if feels_air else 1 / _OFF)


def _like(true: Pace, *, times: float | None = None, pace: float | None = None) -> Pace:
    return Pace(
        catalogue_min=true.catalogue_min,
        times=true.times if times is None else times,
        pace=true.pace if pace is None else pace,
    )


def _why_not(true: Pace, one: Pace) -> str:
    """Say what is wrong with a pace, of the leather first."""
    wrong = []
    if one.times != true.times:
        wrong.append(
            f"by itself it takes {'longer' if true.times > one.times else 'less'} than that"
        )
    if one.pace != true.pace:
        fast = "faster" if true.pace > one.pace else "more slowly"
        wrong.append(f"in this air it dries {fast} than that")
    return (
        f"'About {span_words(max(1, round(one.likely_min)))}' is not right: {' and '.join(wrong)}."
    )
