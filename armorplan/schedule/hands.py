"""Who may do a step in a shop, how long it takes them, where, and who has to be there too."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import product
from math import ceil

from armorplan.pattern.wearing import CheckTime
from armorplan.schedule.activity import Demand, Mode
from armorplan.steps.model import Step, StepKind
from armorplan.workshop.places import Station
from armorplan.workshop.shop import Person, Shop, Wearer

NOBODY = "nobody"
"""Does what nobody in the shop can do, and never has time."""
PAUSABLE = frozenset(
    (
        StepKind.LAY_OUT,
        StepKind.CUT,
        StepKind.FREE,
        StepKind.CHAR,
        StepKind.NUMBER,
        StepKind.BEVEL,
        StepKind.SKIVE,
        StepKind.PUNCH,
        StepKind.PREPARE_STRAP,
        StepKind.BURNISH,
        StepKind.STITCH,
        StepKind.LACE,
    )
)
"""Work that may stop at closing and go on where it was left; nothing in it dries or cools."""
LEAST_SITTING_MIN = 15
"""Nobody takes up such work for less (common practice, no source)."""


_BESIDE = "+"
"""Stands in the name of a way before the id of who is beside."""

Pair = tuple[Person, Person]
"""Who does something, and who is beside them."""
Team = tuple[Person, tuple[Person, ...]]
"""Who does something, and everybody who has to be beside them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hands:
    """The people of a shop as they are asked for steps.

    Attributes:
        wearer: who the build is fitted on; ``None``: fits need nobody beside the maker.
    """

    shop: Shop
    wearer: Wearer | None = None
    _known: dict[str, tuple[Person, ...]] = field(default_factory=dict, repr=False, compare=False)

    def people_for(self, kind: str) -> tuple[Person, ...]:
        """Return who does a kind of step, in the shop's order; a way back, where nobody is named, all."""
        if kind not in self._known:
            found = tuple(p for p in self.shop.people if p.does(kind))
            self._known[kind] = found or (self.shop.people if kind == StepKind.MEND else ())
        return self._known[kind]

    def people_at(self, step: Step) -> tuple[Person, ...]:
        """Return who does a step: who tries a piece on looks it over, so a check at a fit is theirs.

        Where nobody who does the trial also checks, who does the trial.
        """
        trial = trial_of(step)
        people = self.people_for(step.kind)
        if trial is None:
            return people
        trying = self.people_for(trial)
        return tuple(p for p in people if p in trying) or trying or people

    def pairs_at(self, step: Step) -> tuple[Pair, ...]:
        """Return who does a step only with somebody beside, each with everybody that may be.

        Whoever is beside does it alone. A check at a trial is again for who tries the piece on,
        be it with somebody beside.
        """
        trial = trial_of(step)
        kinds = (step.kind,) if trial is None else (step.kind, trial)
        learning = tuple(p for p in self.shop.people if _does_only_beside(p, kinds))
        pairs = product(learning, self.people_at(step) if learning else ())
        return tuple((person, other) for person, other in pairs if person.id != other.id)

    def teams_at(self, step: Step) -> tuple[Team, ...]:
        """Return everybody who does a step, each with who has to be beside; who does it alone first.

        The order settles which way a first plan takes where several are as soon done.
        """
        alone = tuple((person, ()) for person in self.people_at(step))
        return (*alone, *((person, (other,)) for person, other in self.pairs_at(step)))

    def names_for(self, step: Step) -> tuple[str, ...]:
        """Return the ids of who does a step alone; ``NOBODY`` where there is none."""
        return tuple(p.id for p in self.people_at(step)) or (NOBODY,)

    def ways(self, step: Step, minutes: int) -> tuple[Mode, ...]:
        """Return the ways to do a step where people or places differ; empty where they do not."""
        teams, places = self.teams_at(step), self.stations_for(step.kind)
        same_pace = all(p.pace_at(step.kind) == 1 and not beside for p, beside in teams)
        if not teams or (same_pace and len(places) <= 1):
            return ()
        return tuple(self._ways(step.kind, minutes, teams, places))

    def _ways(
        self, kind: str, minutes: int, teams: tuple[Team, ...], places: tuple[Station, ...]
    ) -> Iterator[Mode]:
        several = places if len(places) > 1 else (None,)
        for (person, beside), place in product(teams, several):
            yield Mode(
                who=person.id,
                minutes=at_pace(person, kind, minutes),
                name=way_name(place.id if place else "", beside),
                demands=(Demand(resource=place.id, amount=1),) if place else (),
                also=tuple(other.id for other in beside),
            )

    def stations_for(self, kind: str) -> tuple[Station, ...]:
        """Return the places where alone a kind of step is done."""
        return tuple(place for place in self.shop.stations if kind in place.kinds)

    def demands(self, kind: str) -> tuple[Demand, ...]:
        """Return the place that a kind of step takes, where there is one and no other."""
        places = self.stations_for(kind)
        return (Demand(resource=places[0].id, amount=1),) if len(places) == 1 else ()

    def also(self, step: Step) -> tuple[str, ...]:
        """Return who has to be there beside whoever works: the wearer at a fit."""
        if self.wearer is None:
            return ()
        at_fit = trial_of(step) is StepKind.FIT
        kind = StepKind.FIT if at_fit else step.kind
        return (self.wearer.id,) if kind in self.wearer.comes_for else ()

    def sitting_min(self, step: Step) -> int:
        """Return how long a stretch of pausable work is at the least; 0: it is done in one go."""
        is_pausable = self.shop.is_detailed and step.kind in PAUSABLE
        return LEAST_SITTING_MIN if is_pausable and not self.also(step) else 0


def way_name(place: str, beside: Iterable[Person] = ()) -> str:
    """Return what tells a way of somebody from their others: where, and who is beside them."""
    return "".join((place, *(f"{_BESIDE}{other.id}" for other in beside)))


def beside_named(mode: str) -> tuple[str, ...]:
    """Return who is beside in a way of this name, by their ids; see ``way_name``."""
    return tuple(mode.split(_BESIDE)[1:])


def place_named(mode: str) -> str:
    """Return the part of a way's name that tells where; see ``way_name``."""
    return mode.partition(_BESIDE)[0]


def quicker_together(modes: tuple[Mode, ...]) -> tuple[Mode, ...]:
    """Return the ways without those beside somebody who alone needs no longer for it there.

    Such a pair never helps a plan: the other by themselves at the same time, in as much room, is
    as good for all that is asked of it, and leaves two hands free.
    """
    alone: dict[tuple[str | None, str, tuple[Demand, ...]], int] = {}
    for way in modes:
        if not way.also:
            alone[way.who, way.bath, way.demands] = way.minutes
    longest = max((way.minutes for way in modes), default=0)
    return tuple(
        way
        for way in modes
        if all(
            way.minutes < alone.get((who, way.bath, way.demands), longest + 1) for who in way.also
        )
    )


def _does_only_beside(person: Person, kinds: tuple[str, ...]) -> bool:
    """Tell whether somebody does work of all these kinds, and of some only beside another."""
    does = all(person.does(kind) or person.does_beside(kind) for kind in kinds)
    return does and any(person.does_beside(kind) for kind in kinds)


_TRIALS = {
    CheckTime.MOCK_UP: StepKind.MOCK_UP,
    CheckTime.DRY_FIT: StepKind.DRY_FIT,
    CheckTime.FIT: StepKind.FIT,
}


def trial_of(step: Step) -> StepKind | None:
    """Return at which trial a step is checked; ``None`` for what is no check."""
    if step.kind is not StepKind.CHECK:
        return None
    return next((kind for when, kind in _TRIALS.items() if step.tray.endswith(f":{when}")), None)


def at_pace(person: Person, kind: str, minutes: int) -> int:
    """Return how long a person takes for what is reckoned with so many minutes."""
    return max(1, ceil(round(minutes * person.pace_at(kind), 6)))


def wearer_of(shop: Shop, named: str) -> Wearer | None:
    """Return who a build is fitted on: the one named, else the only one."""
    if named:
        return next((w for w in shop.wearers if w.id == named), None)
    return shop.wearers[0] if len(shop.wearers) == 1 else None
