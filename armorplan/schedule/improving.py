"""Chooses what of a plan to free next, and learns from how each try went."""

from dataclasses import dataclass
from random import Random

from armorplan.schedule.neighbourhoods import KINDS, Grounds
from armorplan.schedule.problem import Placed, Problem

_FIRST_SIZE, _LEAST_SIZE, _MOST_SIZE = 80, 12, 300
_GROWS, _SHRINKS = 1.4, 0.85
_RESTS = 0.9
"""A kind's weight after a try that gained nothing; one that gained counts in full again."""
_LEAST_WEIGHT = 0.15
_RATHER = 0.5
"""How often the kind is taken that a stage asks for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """What to free next: activities, and the kind of neighbourhood they are of."""

    kind: str
    free: frozenset[str]


class Improver:
    """Draws neighbourhoods; the same seed and the same outcomes give the same ones again.

    Kinds that gained lately are drawn more often. Where all was searched through and nothing
    gained the next of that kind is larger, where the time ran out before it is smaller.
    """

    def __init__(self, problem: Problem, seed: int) -> None:
        self._grounds = Grounds(problem)
        self._rng = Random(seed)  # noqa: S311 - which part to free next is no secret.
        self._weights = dict.fromkeys(KINDS, 1.0)
        self._sizes = dict.fromkeys(KINDS, float(_FIRST_SIZE))

    @property
    def many(self) -> int:
        """How many activities may move."""
        return len(self._grounds.movable)

    def seed(self) -> int:
        """Return a seed for the next search."""
        return self._rng.randrange(1, 2**30)

    def chance(self, share: float) -> bool:
        """Tell whether a thing is to be done that is done in this share of all cases."""
        return self._rng.random() < share

    def draw(self, placed: tuple[Placed, ...], rather: str = "") -> Trial:
        """Return what to free of a plan; ``rather`` is a kind that counts as much as all others."""
        kinds = sorted(self._weights)
        (kind,) = self._rng.choices(kinds, [self._weights[k] for k in kinds])
        if rather and self.chance(_RATHER):
            kind = rather
        lies = {p.id: p for p in placed}
        free = KINDS[kind](self._grounds, lies, int(self._sizes[kind]), self._rng)
        return Trial(kind=kind, free=self._grounds.closed(free, lies))

    def learn(self, trial: Trial, *, gained: bool, searched_through: bool) -> None:
        """Take in how a try went.

        Args:
            trial: what was freed.
            gained: the plan got better.
            searched_through: nothing better is left with the rest pinned.
        """
        kind = trial.kind
        weight = 1.0 if gained else self._weights[kind] * _RESTS
        self._weights[kind] = max(_LEAST_WEIGHT, weight)
        if not searched_through:
            self._sizes[kind] = max(_LEAST_SIZE, self._sizes[kind] * _SHRINKS)
        elif not gained:
            self._sizes[kind] = min(_MOST_SIZE, self._sizes[kind] * _GROWS)
