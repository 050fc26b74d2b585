"""On which sides of a build what the shapes say of reach holds: where all that it rests on is made."""

from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import NamedTuple

from armorplan.assembly.model import Assembly, Side, SidedJoint
from armorplan.geometry.reach.gathered import Reach, reach_of
from armorplan.pattern.one_side import on_side
from armorplan.pattern.parts import MadeOn
from armorplan.pattern.pattern import Pattern
from armorplan.rules.facts import Facts
from armorplan.workshop.shelf import Shelf

_KEPT = 4
Sides = dict[str, list[SidedJoint]]
_HANDS = {Side.LEFT: MadeOn.LEFT, Side.RIGHT: MadeOn.RIGHT}


class View(NamedTuple):
    """What the shapes say of reach on some sides: of the parts that are made there."""

    reach: Reach
    sides: frozenset[Side]

    def seen(self, sided: Sides, plain: str) -> tuple[SidedJoint, ...]:
        """Return a joint on each side that is looked at."""
        return tuple(joint for joint in sided.get(plain, ()) if joint.side in self.sides)


class _Drawn:
    """A pattern and a shelf, known again as the very same: to compare them by value takes longer."""

    __slots__ = ("pattern", "shelf")

    def __init__(self, pattern: Pattern, shelf: Shelf) -> None:
        self.pattern, self.shelf = pattern, shelf

    def __hash__(self) -> int:
        return hash((id(self.pattern), id(self.shelf)))

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, _Drawn)
            and self.pattern is other.pattern
            and self.shelf is other.shelf
        )


def views_of(facts: Facts) -> tuple[View, ...]:
    """Return what the shapes say of reach: once where both sides are alike, else of each by itself."""
    return _views(_Drawn(facts.assembly.pattern, facts.shelf))


@lru_cache(maxsize=_KEPT)
def _views(drawn: _Drawn) -> tuple[View, ...]:
    pattern, shelf = drawn.pattern, drawn.shelf
    whole = reach_of(pattern, shelf)
    own = {side: on_side(pattern, made_on) for side, made_on in _HANDS.items()}
    if all(each is pattern for each in own.values()):
        return (View(whole, frozenset(Side)),)
    hands = (View(reach_of(each, shelf), frozenset((side,))) for side, each in own.items())
    return (View(whole, frozenset((Side.SINGLE,))), *hands)


def sides_of(facts: Facts) -> Sides:
    """Return by plain id the joints of each side."""
    return sides_in(facts.assembly)


def sides_in(assembly: Assembly) -> Sides:
    """Return by plain id the joints of each side."""
    found: Sides = {}
    for joint in assembly.joints:
        found.setdefault(joint.joint.id, []).append(joint)
    return found


def met_on(sided: Sides, plain: str, side: Side) -> tuple[SidedJoint, ...]:
    """Return a joint as a side meets it: its own and what is made once; what is made once meets all."""
    alike = sided.get(plain, ())
    return tuple(j for j in alike if side is Side.SINGLE or j.side in (side, Side.SINGLE))


def set_on(sided: Sides, plain: str, side: Side, place: Mapping[str, int]) -> int | None:
    """Return the place at which a joint is set, as a side meets it: the last where it meets two.

    Args:
        sided: by plain id.
        plain: the joint.
        side: from where it is looked at.
        place: by sided id of what is ever set.

    Returns:
        ``None`` where it is never set, or not all of what is met.
    """
    met = met_on(sided, plain, side)
    if not met or any(each.id not in place for each in met):
        return None
    return max(place[each.id] for each in met)


def steps_for(
    facts: Facts, sided: Sides, joints: Iterable[str], seat: SidedJoint
) -> frozenset[str] | None:
    """Return the steps that set joints on the side of another; of what is made once, or for it, all.

    ``None`` where they never are all set there: one of them is made on the other side only, on one
    side where the others are on both, or no step sets it.
    """
    found: list[SidedJoint] = []
    sides: set[frozenset[Side]] = set()
    for plain in joints:
        here = met_on(sided, plain, seat.side)
        if not here:
            return None
        sides.add(frozenset(each.side for each in here) - {Side.SINGLE})
        found += here
    steps = {facts.work.setting(each.id) for each in found}
    if len(sides - {frozenset()}) > 1 or None in steps:
        return None
    return frozenset(step.id for step in steps if step)


def is_whole(facts: Facts, reach: Reach, joint: SidedJoint) -> bool:
    """Tell whether all plates of a joint's shell are made on its side: else the shell is another."""
    shell = reach.net.shell_of(joint.joint.id)
    if shell is None:
        return False
    made: dict[str, set[Side]] = {part: set() for part in shell.parts}
    for part in facts.assembly.parts:
        made.get(part.part.id, set()).add(part.side)
    if joint.side is Side.SINGLE:
        return (
            all(made.values()) and len({frozenset(s - {Side.SINGLE}) for s in made.values()}) == 1
        )
    return all({joint.side, Side.SINGLE} & sides for sides in made.values())
