"""Which joint is asked about, and which fasteners and posts are offered for it."""

import random
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from armorplan.app.derived import Derived
from armorplan.app.drills.about import steps_about
from armorplan.app.drills.fastener_faults import Fitting, Offer
from armorplan.assembly.model import SidedJoint
from armorplan.geometry.stacks import Post, joint_post
from armorplan.practice.drill import Asked, Level
from armorplan.workshop.shelf import Fastener

_SIZES = {Level.STRAP: 3, Level.ROW: 4, Level.PIECE: 4, Level.HARNESS: 5}
_OTHERS = {Level.STRAP: 0, Level.ROW: 1, Level.PIECE: 2, Level.HARNESS: 2}
"""So many fasteners at most that do not suit the joint are among them, where there are any."""
_MOST_RIGHT = 2
_POSTS_OF_ONE = 2
_ANOTHER = 0.5
"""So often another fastener that would do as well may be among what is right."""
_DRAWN_FROM = 4
"""So many posts of a fastener that does not suit are drawn from, whether they would hold or not."""
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
    wanted = steps_about(derived, asked)
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
        right = self._right([*holds, *self._alike(own, asked)], asked.level)
        room = _SIZES[asked.level] - len(right)
        others = self._others(own, asked, room)
        lengths = self._chance.sample(off, min(len(off), room - len(others)))
        offers = [*right, *lengths, *others]
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

    def _alike(self, own: Fastener, asked: Asked) -> list[Offer]:
        """Return a post of another fastener that would do as well, now and then, where there is one."""
        if not _OTHERS[asked.level] or self._chance.random() >= _ANOTHER:
            return []
        suits = [
            fastener
            for fastener in self._shelf.fasteners
            if fastener.id != own.id and not self._fitting.unsuited(fastener)
        ]
        holds = [
            one
            for fastener in suits
            for one in _offers(fastener)
            if self._fitting.is_clear(one) and self._fitting.post(one).fits
        ]
        return [self._chance.choice(holds)] if holds else []

    def _nearest(self, off: Sequence[Offer], holds: Sequence[Offer]) -> list[Offer]:
        """Return of the posts that do not hold the nearest, so many shorter and so many longer."""
        if not holds:
            return []
        short = [one for one in off if one.length_mm < holds[0].length_mm]
        long = [one for one in off if one.length_mm > holds[-1].length_mm]
        return [*short[-_NEAREST:], *long[:_NEAREST]]

    def _others(self, own: Fastener, asked: Asked, room: int) -> list[Offer]:
        """Return posts of fasteners that do not suit the joint: of each one or two, as chance has it.

        Were it always one of each, the fastener with several lengths would always be the right one.
        Fasteners of the joint's own kind come first, and what is asked for before all.
        """
        if not _OTHERS[asked.level]:
            return []
        found = []
        for fastener in self._shelf.fasteners:
            why = self._fitting.unsuited(fastener) if fastener.id != own.id else ()
            if why and (fastener.kind == own.kind or not self._joint.joint.kind.is_permanent):
                rules = {each.rule for each in why}
                found.append((asked.focus not in rules, len(rules), fastener))
        self._chance.shuffle(found)
        found.sort(key=lambda each: each[:2])
        some = [fastener for *_, fastener in found[: _OTHERS[asked.level]]]
        most = self._chance.randint(1, room)
        posts = [self._near(one, self._chance.randint(1, _POSTS_OF_ONE)) for one in some]
        return [post for row in posts for post in row][:most]

    def _near(self, fastener: Fastener, count: int) -> list[Offer]:
        """Return posts of a fastener among those nearest to what its own stack would take."""
        every = _offers(fastener)
        least, most = self._fitting.post(every[0]).window_mm
        every.sort(key=lambda one: (abs(one.length_mm - (least + most) / 2), one.length_mm))
        near = every[:_DRAWN_FROM]
        return self._chance.sample(near, min(count, len(near)))


def _offers(fastener: Fastener) -> list[Offer]:
    return [Offer(fastener=fastener, length_mm=mm) for mm in sorted(fastener.lengths_mm)]
