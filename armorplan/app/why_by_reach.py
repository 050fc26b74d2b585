"""What reach makes of two that no relation orders, as the chosen order has it, and of more of the one."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import inf

from armorplan.app.derived import Derived
from armorplan.app.reach_between import BothWays, both_ways
from armorplan.app.why_between import Answer, Between
from armorplan.geometry.told import listed
from armorplan.kernel.units import about_words
from armorplan.relations.index import first_and_members, is_plain
from armorplan.relations.model import Relation
from armorplan.relations.weighing import price_min
from armorplan.rules.reaching import BY_REACH, LEAST_MIN

_AFTER = (Answer.LATER, Answer.BETTER_LATER)
_LIKE = 3
"""So many more of the one thing's steps are told, the rest is counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ByReach:
    """An answer with what reach says to it.

    Attributes:
        found: the answer; of two that no relation orders the one comes first by choice, where in the
            order chosen it is set in more minutes, or not at all, after the other.
        ways: how what comes first is set before the other and after; ``None``: reach has no say.
        alike: further steps of the one that reach makes dearer as well, the dearest first.
        is_own: the answer rests on reach alone.
    """

    found: Between
    ways: BothWays | None = None
    alike: tuple[BothWays, ...] = ()
    is_own: bool = False

    @property
    def is_out(self) -> bool:
        """In the order chosen no tool gets to it after the other, though nothing forbids that."""
        choice = (Answer.BETTER, Answer.BETTER_LATER)
        return (
            self.found.answer in choice and self.ways is not None and self.ways.dearer_min == inf
        )


def by_reach(derived: Derived, found: Between) -> ByReach:
    """Return an answer with how what comes first, or may, is set before the other and after it."""
    if not _asks_reach(found):
        return ByReach(found=found)
    if found.answer in _AFTER:
        return ByReach(found=found, ways=both_ways(derived, found.then[0], found.firsts))
    if found.answer is not Answer.FREE:
        return ByReach(found=found, ways=both_ways(derived, found.first, found.then))
    return _of_free(derived, found)


def _of_free(derived: Derived, found: Between) -> ByReach:
    """Return what reach says of two that no relation orders, the first way round first."""
    ways = _dearest_first(derived, found.firsts, found.then)
    as_found = ByReach(found=found, ways=ways[0] if ways else None)
    if found.aside:
        return as_found
    if _is_dearer(ways):
        better = replace(found, answer=Answer.BETTER, first=ways[0].step, held=1)
        return _own(derived, better, ways, found.then) or as_found
    back = _dearest_first(derived, found.then, found.firsts)
    if _is_dearer(back):
        later = replace(found, answer=Answer.BETTER_LATER, then=(back[0].step,), held=1)
        return _own(derived, later, back, found.firsts) or as_found
    return as_found


def alike_words(derived: Derived, told: ByReach) -> tuple[str, ...]:
    """Say in one line which further steps of the one reach makes dearer as well, with their numbers."""
    every = [f"'{derived.work.step(each.step).title}'{_ways_words(each)}" for each in told.alike]
    return (f"Likewise: {listed(every, named=_LIKE)}.",) if every else ()


def _ways_words(ways: BothWays) -> str:
    deep = "" if ways.after.way is None else f"{ways.after.way.along_mm:.0f} mm in, "
    if ways.dearer_min == inf:
        return f" ({deep}out of reach afterwards)"
    return f" ({deep}about {about_words(ways.dearer_min)} more)"


def _asks_reach(found: Between) -> bool:
    """Tell whether reach has a say: where something else already forbids the other order it has none."""
    if found.answer not in (Answer.MUST, Answer.LATER):
        return True
    return any(relation.reason.rule in BY_REACH for relation in found.chain)


def _dearest_first(
    derived: Derived, ones: Iterable[str], others: tuple[str, ...]
) -> list[BothWays]:
    found = [ways for step in ones if (ways := both_ways(derived, step, others))]
    return sorted(found, key=lambda each: -round(each.dearer_min, 3))


def _is_dearer(ways: list[BothWays]) -> bool:
    return bool(ways) and ways[0].dearer_min >= LEAST_MIN


def _own(
    derived: Derived, found: Between, ways: list[BothWays], others: tuple[str, ...]
) -> ByReach | None:
    """Return the answer by reach; ``None`` where the maker overruled what reach says there."""
    chain = _relation(derived, ways[0].step, others)
    if any(relation.reason.overruled for relation in chain):
        return None
    return ByReach(
        found=replace(found, chain=chain),
        ways=ways[0],
        alike=tuple(each for each in ways[1:] if each.dearer_min >= LEAST_MIN),
        is_own=True,
    )


def _relation(derived: Derived, step: str, others: tuple[str, ...]) -> tuple[Relation, ...]:
    """Return the dearest relation by reach that has a step before these and others set by then."""
    last, found = max(derived.place[other] for other in others), []
    for relation in derived.index.relations:
        if relation.reason.rule in BY_REACH and is_plain(relation):
            first, members = first_and_members(relation)
            by_then = all(derived.place[member] <= last for member in members)
            if first == step and by_then and not members.isdisjoint(others):
                found.append(relation)
    best = max(found, key=lambda each: (each.reason.binds, price_min(each)), default=None)
    return () if best is None else (best,)
