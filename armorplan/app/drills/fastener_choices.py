"""Which joint is asked about, and which fasteners and posts are offered for it."""

import random
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from armorplan.app.derived import Derived
from armorplan.app.drills.fastener_faults import Fitting, Offer
from armorplan.assembly.model import SidedJoint
from armorplan.geometry.stacks import Post, joint_post
from armorplan.practice.drill import Asked, Level
from armorplan.practice.levels import topics
from armorplan.workshop.shelf import Fastener

_SIZES = {Level.STRAP: 3, Level.ROW: 4, Level.PIECE: 4, Level.HARNESS: 5}
_OTHERS = {Level.STRAP: 0, Level.ROW: 1, Level.PIECE: 2, Level.HARNESS: 2}
"""So many fasteners of another kind are among them, where some do not suit the joint."""
_MOST_RIGHT = 2
_NEAREST = 2
"""So many posts that do not hold are drawn from, on either side: were it one, the right length
would always be the middle one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FastenerCase:
    """A joint, what is offered in the order shown, and the ids of what is right."""

    joint: SidedJoint
    offers: tuple[Offer, ...]
    right: frozenset[str]


def fitting_of(derived: Derived, joint: SidedJoint) -> Fitting:
    """Return what judges offers for a joint."""
    return Fitting(derived.pattern, derived.shelf, joint.joint)


def fastener_case(derived: Derived, asked: Asked, chance: random.Random) -> FastenerCase | None:
    """Return a joint with offers some of which are wrong; ``None`` where no joint gives them.

    Of joints whose stacks are alike one is looked at. What is asked for comes first, if there is one.
    """
    best: FastenerCase | None = None
    for joint in _mixed(_joints(derived, asked), chance):
        case = _Offering(derived, joint, chance).case(asked)
        if case is not None and (not asked.focus or asked.focus in rules_in(derived, case)):
            return case
        best = best or case
    return best


def rules_in(derived: Derived, case: FastenerCase) -> tuple[str, ...]:
    """Return the codes of the reasons by which the wrong offers of a case are wrong, sorted."""
    fitting = fitting_of(derived, case.joint)
    return tuple(sorted({why.rule for one in case.offers for why in fitting.faults(one)}))


def _mixed(
    joints: Iterable[tuple[SidedJoint, Post]], chance: random.Random
) -> Iterator[SidedJoint]:
    """Yield joints in chance's order, each thickness of a stack in its turn.

    Else the length that most stacks of a piece take would soon be known by heart.
    """
    by_mm: dict[float, list[SidedJoint]] = {}
    for joint, post in joints:
        by_mm.setdefault(round(post.pinched_mm), []).append(joint)
    turns = [by_mm[mm] for mm in sorted(by_mm)]
    chance.shuffle(turns)
    for some in turns:
        chance.shuffle(some)
    for row in zip_longest(*turns):
        yield from (joint for joint in row if joint is not None)


def _joints(derived: Derived, asked: Asked) -> Iterator[tuple[SidedJoint, Post]]:
    """Yield joints with their posts, one of each stack and fastener, in the pattern's order."""
    seen = set()
    wanted = _steps_about(derived, asked)
    for joint in derived.assembly.joints:
        step = derived.work.setting(joint.id)
        post = joint_post(derived.pattern, derived.shelf, joint.joint)
        if post is None or step is None or step.id not in wanted:
            continue
        layers = tuple(
            derived.pattern.part(p).thickness_mm
            for p in derived.pattern.stack_parts(joint.joint.id)
        )
        alike = (post.fastener.id, layers, post.stack, joint.joint.motion)
        if alike not in seen:
            seen.add(alike)
            yield joint, post


def _steps_about(derived: Derived, asked: Asked) -> frozenset[str]:
    if asked.part:
        found = topics(derived.assembly, derived.work, asked)
        return frozenset(step for topic in found for step in topic.steps)
    return frozenset(s.id for s in derived.work.steps if asked.piece in ("", s.piece))


class _Offering:
    """What can be offered for one joint."""

    def __init__(self, derived: Derived, joint: SidedJoint, chance: random.Random) -> None:
        self._joint, self._chance = joint, chance
        self._shelf = derived.shelf
        self._fitting = fitting_of(derived, joint)

    def case(self, asked: Asked) -> FastenerCase | None:
        """Return the offers; ``None`` where none is right, or every post of its fastener is."""
        own = self._shelf.fastener(self._joint.joint.fastener)
        if own is None or self._fitting.unsuited(own):
            return None
        posts = [one for one in _offers(own) if self._fitting.is_clear(one)]
        holds = [one for one in posts if not self._fitting.faults(one)]
        off = self._nearest([one for one in posts if one not in holds], holds)
        if not holds or not off:
            return None
        right = self._right(holds, asked.level)
        room = _SIZES[asked.level] - len(right)
        count = max(min(_OTHERS[asked.level], room - 1), room - len(off))
        others = self._others(own, holds[0], asked)[:count]
        lengths = self._chance.sample(off, min(len(off), room - len(others)))
        wrong = [*lengths, *others]
        offers = [*right, *wrong]
        self._chance.shuffle(offers)
        return FastenerCase(
            joint=self._joint,
            offers=tuple(offers),
            right=frozenset(one.id for one in right),
        )

    def _right(self, holds: Sequence[Offer], level: Level) -> list[Offer]:
        """Return the right ones to offer: two, now and then, where two hold."""
        several = len(holds) > 1 and level >= Level.ROW and self._chance.random() < 0.5  # noqa: PLR2004
        count = _MOST_RIGHT if several else 1
        return self._chance.sample(holds, count)

    def _nearest(self, off: Sequence[Offer], holds: Sequence[Offer]) -> list[Offer]:
        """Return of the posts that do not hold the nearest, so many shorter and so many longer."""
        if not holds:
            return []
        short = [one for one in off if one.length_mm < holds[0].length_mm]
        long = [one for one in off if one.length_mm > holds[-1].length_mm]
        return [*short[-_NEAREST:], *long[:_NEAREST]]

    def _others(self, own: Fastener, held: Offer, asked: Asked) -> list[Offer]:
        """Return fasteners that do not suit the joint, at the length nearest to one that holds.

        Those of the joint's own kind come first, and what is asked for before all.
        """
        found = []
        for fastener in self._shelf.fasteners:
            why = self._fitting.unsuited(fastener) if fastener.id != own.id else ()
            if why and (fastener.kind == own.kind or not self._joint.joint.kind.is_permanent):
                rules = {each.rule for each in why}
                found.append((asked.focus not in rules, len(rules), fastener))
        self._chance.shuffle(found)
        found.sort(key=lambda each: each[:2])
        return [self._near(fastener, held) for _, _, fastener in found]

    def _near(self, fastener: Fastener, held: Offer) -> Offer:
        """Return the post of a fastener that would hold, or else the one nearest to what holds."""
        every = _offers(fastener)
        fits = [one for one in every if self._fitting.post(one).fits]
        return min(fits or every, key=lambda one: abs(one.length_mm - held.length_mm))


def _offers(fastener: Fastener) -> list[Offer]:
    return [Offer(fastener=fastener, length_mm=mm) for mm in sorted(fastener.lengths_mm)]
