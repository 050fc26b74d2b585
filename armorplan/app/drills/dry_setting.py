"""Choosing what is asked of drying: where the catalogue's time may mislead, and nothing is a toss-up.

One thing looked at and how far it is (one strap); two, and which is ready first (a row); several, and
which may go on (a piece, the whole harness).
"""

import random
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, product

from armorplan.app.derived import Derived
from armorplan.app.drills.about import steps_of_part
from armorplan.app.drills.day_links import DayLinks, links_of
from armorplan.app.drills.dry_airs import DrillAir, airs_of
from armorplan.app.drills.dry_cases import DryCase, cases_of
from armorplan.app.drills.dry_looks import Look
from armorplan.app.drills.dry_misled import is_misled, is_off, is_ready
from armorplan.app.drills.dry_race import (
    BOTH,
    all_agree,
    are_level,
    are_near,
    first_likely,
    first_ready,
    first_told,
)
from armorplan.app.drills.last_made import keeping_last
from armorplan.kernel.units import DAY_MIN, HOUR_MIN
from armorplan.practice.drill import Asked, Level
from armorplan.practice.levels import chance_of

LASTS_MIN = (
    *(5, 8, 10, 12, 15, 18, 20, 25, 30, 35, 40, 45, 50, 60, 75, 90, 105, 120, 150, 180, 210, 240),
    *(300, 360, 420, 480, 540, 600, 720, 840, 960, 1080, 1200, 1320, 1440, 1560, 1680, 1800, 1980),
    *(2160, 2400, 2640, 2880, 3240, 3600, 4320),
)
"""How long something has dried, in minutes as one says them."""
_APART_MIN = (0, 15, 30, 45, 60, 90, 120, 150, 180, 240, 300, 360, 420, 480)
_WET_H = (8, 17)
"""The full hours between which something is made wet."""
_OPEN_H, _SHUT_H = 7, 21
"""The hours at which somebody is about to look at it."""
_DAYS_BACK = 3
_NOW_H = (10, 11, 12, 14, 15, 16)
_SEVERAL = {Level.PIECE: (3, 4), Level.HARNESS: (4, 6)}
_FEWEST = 2
_LEAST_RUNGS = 3
_TRIES = 12
_NEAR = 0.3
_ALIKE = 3
_MISLED = 0.75
"""How often the catalogue's time misleads about one of several; about one of them it always does."""
_AS_TOLD, _FAR_OFF = 0.38, 0.55
"""Up to here, of chance, the catalogue is right about one thing; from there to here it is two rungs off."""
_LOOKED_AT = 16
"""Of so many things it is tried whether the catalogue is two rungs off."""
_LEVEL_SHARE = 0.3
"""How often two are ready at about the same time."""
_LEVEL_APART_MIN = range(0, 485, 5)


@dataclass(frozen=True, slots=True, kw_only=True)
class DrySet:
    """What is asked.

    Attributes:
        level: as it came out: 'one strap' looks at one thing, 'a row' at which of two is first.
        right: of one thing its rung; of two the step that is ready first, or ``BOTH``; of several all
            ready ones.
    """

    level: Level
    looks: tuple[Look, ...]
    right: tuple[str, ...]


@keeping_last
def set_of(derived: Derived, asked: Asked) -> DrySet | None:
    """Return what an exercise asks; ``None`` where nothing in this build dries by a law of the air.

    The level gives way to the rule that is asked for.
    """
    setting = _Setting(derived, asked)
    ways = (setting.one, setting.two, setting.several)[: min(asked.level, Level.PIECE)]
    found: DrySet | None = None
    for way in reversed(ways):
        made = way()
        found = found or made
        if made is not None and asked.focus in {"", *(look.case.rule for look in made.looks)}:
            return made
    return found


class _Setting:
    def __init__(self, derived: Derived, asked: Asked) -> None:
        self._derived = derived
        self._asked = asked
        self._chance = chance_of(asked)
        about = steps_of_part(derived, asked)
        cases = [
            c
            for c in cases_of(derived, piece=asked.piece, focus=asked.focus)
            if about is None or c.step.id in about
        ]
        self._chance.shuffle(cases)
        cases.sort(key=lambda case: case.rule != asked.focus)
        self._cases = cases
        self._airs = _mixed(airs_of(derived.shop.room), self._chance)

    def one(self) -> DrySet | None:
        """Return one thing to look at: the catalogue is right of it, or off by a rung, or by two."""
        roll = self._chance.random()
        wanted = (0, 1, 2) if roll < _AS_TOLD else (2, 1, 0) if roll < _FAR_OFF else (1, 2, 0)
        cases = [case for case in self._cases if len(case.rungs) >= _LEAST_RUNGS]
        of_focus = [case for case in cases if case.rule == self._asked.focus]
        for some, off in product(filter(None, (of_focus, cases)), wanted):
            for case, air in product(some[: _LOOKED_AT if off > 1 else None], self._airs):
                found = self._one(case, air, off)
                if found is not None:
                    return found
        return None

    def _one(self, case: DryCase, air: DrillAir, off: int) -> DrySet | None:
        by_rung: dict[str, list[Look]] = {}
        for look in _looks(case, air, _starts(self._chance)):
            rung = look.rung()
            if rung is not None and is_off(look, rung, off):
                by_rung.setdefault(rung, []).append(look)
        if not by_rung:
            return None
        rung = self._chance.choice(sorted(by_rung))
        look = self._chance.choice(by_rung[rung])
        return DrySet(level=Level.STRAP, looks=(look,), right=(rung,))

    def two(self) -> DrySet | None:
        """Return two things wet at once: of one treatment, unlike in thickness, or of two.

        Now and then both are ready at about the same time, though they were made wet at two, or are
        unlike in thickness. Else the catalogue's time names the wrong one, or both at once, in half.
        """
        links = links_of(self._derived)
        wants_level = self._chance.random() < _LEVEL_SHARE
        wants_misled = self._chance.random() < 1 / 2
        pairs = [p for p in combinations(self._cases, 2) if _is_pair(*p) and _are_apart(links, p)]
        pairs.sort(key=lambda pair: pair[0].entry.id != pair[1].entry.id)
        pairs = [pair for pair in pairs if self._asked.focus in {c.rule for c in pair}] or pairs
        level = [None] if wants_level else []
        for misled in (*level, wants_misled, not wants_misled):
            for pair, air in product(pairs, self._airs):
                found = self._race(pair, air, misled=misled)
                if found is not None:
                    return found
        return None

    def _race(
        self, pair: tuple[DryCase, DryCase], air: DrillAir, *, misled: bool | None
    ) -> DrySet | None:
        if misled is None:
            return self._level(pair, air)
        found: dict[str, list[DrySet]] = {}
        for looks in self._pairs(pair, air, _APART_MIN):
            first = first_likely(*looks) if all(look.would_dry for look in looks) else None
            if first is None or all_agree(*looks, first):
                continue
            if (first != first_told(*looks)) is misled and first_ready(*looks) is not None:
                found.setdefault(first, []).append(self._row(looks, first))
        return self._chance.choice(found[self._chance.choice(sorted(found))]) if found else None

    def _level(self, pair: tuple[DryCase, DryCase], air: DrillAir) -> DrySet | None:
        found = [
            looks
            for looks in self._pairs(pair, air, _LEVEL_APART_MIN)
            if all(look.would_dry for look in looks)
            if are_level(*looks) and not all_agree(*looks, None)
        ]
        return self._row(self._chance.choice(found), BOTH) if found else None

    def _row(self, looks: tuple[Look, Look], right: str) -> DrySet:
        mixed = looks if self._chance.random() < 1 / 2 else looks[::-1]
        return DrySet(level=Level.ROW, looks=mixed, right=(right,))

    def _pairs(
        self, pair: tuple[DryCase, DryCase], air: DrillAir, aparts: Iterable[int]
    ) -> Iterator[tuple[Look, Look]]:
        """Yield looks at two made wet so long apart, either first, that are worth comparing."""
        base = HOUR_MIN * self._chance.randint(*_WET_H)
        for apart, (one, other) in product(aparts, (pair, pair[::-1])):
            now = base + apart
            looks = _look(one, air, base, now), _look(other, air, now, now)
            if now // HOUR_MIN < _SHUT_H and are_near(*looks):
                yield looks

    def several(self) -> DrySet | None:
        """Return several things looked at at one time, some that may go on and some that may not."""
        links = links_of(self._derived)
        low, high = _SEVERAL[self._asked.level]
        for air in self._airs:
            for _ in range(_TRIES):
                now = DAY_MIN * _DAYS_BACK + HOUR_MIN * self._chance.choice(_NOW_H)
                chosen = self._apart(links, self._chance.randint(low, high))
                looks = [look for case in chosen if (look := self._sure(case, air, now))]
                ready = tuple(look.case.step.id for look in looks if is_ready(look))
                if 0 < len(ready) < len(looks) and any(is_misled(look) for look in looks):
                    self._chance.shuffle(looks)
                    return DrySet(level=self._asked.level, looks=tuple(looks), right=ready)
        return None

    def _apart(self, links: DayLinks, count: int) -> list[DryCase]:
        """Return cases that may be wet at one time, one of the rule that is asked for among them."""
        mixed = list(self._cases)
        self._chance.shuffle(mixed)
        mixed.sort(key=lambda case: case.rule != self._asked.focus)
        chosen: list[DryCase] = []
        for case in mixed:
            if len(chosen) < count and all(_are_apart(links, (case, c)) for c in chosen):
                chosen.append(case)
        return chosen if len(chosen) > _FEWEST else []

    def _sure(self, case: DryCase, air: DrillAir, now_min: int) -> Look | None:
        """Return a look at something of which it is sure whether it may go on."""
        found = [
            look
            for lasts in LASTS_MIN
            if _is_worth(case, lasts) and _is_open(start := now_min - lasts)
            if (look := _look(case, air, start, now_min)).would_dry and look.rung() is not None
        ]
        misled = [look for look in found if is_misled(look)]
        by_ready = {ready: [f for f in found if is_ready(f) is ready] for ready in (False, True)}
        wanted = by_ready[self._chance.random() < 1 / 2] or found
        if misled and self._chance.random() < _MISLED:
            wanted = misled
        return self._chance.choice(wanted) if wanted else None


def _mixed(airs: tuple[DrillAir, ...], chance: random.Random) -> tuple[DrillAir, ...]:
    """Return the shop's own air first in one of two exercises, then the others in chance's order."""
    own = [air for air in airs if air.is_own]
    others = [air for air in airs if not air.is_own]
    chance.shuffle(others)
    return (*own, *others) if chance.random() < 1 / 2 else (*others, *own)


def _starts(chance: random.Random) -> tuple[int, ...]:
    half_hours = range(2 * _WET_H[0], 2 * _WET_H[1] + 1)
    return (chance.choice(half_hours) * HOUR_MIN // 2,)


def _looks(case: DryCase, air: DrillAir, starts: Sequence[int]) -> Iterator[Look]:
    """Yield looks at one thing within the hours at which somebody is about."""
    for start, lasts in product(starts, LASTS_MIN):
        look = _look(case, air, start, start + lasts)
        if _OPEN_H * HOUR_MIN <= look.now_min % DAY_MIN <= _SHUT_H * HOUR_MIN and look.would_dry:
            yield look


def _look(case: DryCase, air: DrillAir, start_min: int, now_min: int) -> Look:
    return Look(case=case, air=air, start_min=start_min, now_min=now_min)


def _is_open(minute: int) -> bool:
    return minute >= 0 and _OPEN_H * HOUR_MIN <= minute % DAY_MIN < (_SHUT_H - 2) * HOUR_MIN


def _are_apart(links: DayLinks, pair: tuple[DryCase, DryCase]) -> bool:
    one, other = pair
    return links.is_apart(one.wet.id, (other.wet.id,))


def _is_worth(case: DryCase, lasts: int) -> bool:
    """Tell whether a look so long after is near enough to a stage to be asked."""
    edges = [case.catalogue_min(rung.stage) for rung in case.rungs if rung.stage]
    return _NEAR * min(edges) <= lasts <= max(edges) / _NEAR


def _is_pair(one: DryCase, other: DryCase) -> bool:
    """Tell whether it is worth asking which of two is ready first.

    Of one treatment, where they wait for the same stage and differ in thickness, faces or dipping:
    what dries at its surface is ready at one time in spite of that. Of two, where they take about as
    long by the catalogue.
    """
    if one.entry.id == other.entry.id:
        return one.body != other.body and one.goal == other.goal
    minutes = sorted(
        case.catalogue_min(rung.stage)
        for case in (one, other)
        for rung in case.rungs
        if rung.id == case.goal and rung.stage
    )
    return minutes[-1] <= _ALIKE * minutes[0]
