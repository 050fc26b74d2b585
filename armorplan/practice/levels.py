"""What an exercise of a level is about, and how long it gets.

One strap: the steps of one strap, keeper or other small part. A row: the steps of the parts that a
row holds, and that row's own. A piece: those of one piece on one side. The whole harness: all. Who
names a part or a row gets that one at any level, and the level decides the size alone.
"""

import random
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from armorplan.assembly.model import Assembly, SidedPart, SidedSeam
from armorplan.pattern.parts import PartKind
from armorplan.practice.drill import MOST_STEPS, Asked, Level
from armorplan.steps.model import Step, Work
from armorplan.steps.naming import part_name, piece_name, with_side

SIZES = {
    Level.STRAP: (3, 4),
    Level.ROW: (5, 6),
    Level.PIECE: (7, 9),
    Level.HARNESS: (10, MOST_STEPS),
}
"""Fewest and most steps of an exercise; a small piece gives less, down to ``FEWEST_STEPS``."""
FEWEST_STEPS = 3
_SMALL_KINDS = frozenset((PartKind.STRAP, PartKind.KEEPER))
_FEW_JOINTS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Topic:
    """A part of the work that an exercise can be about.

    Attributes:
        id: sided id of the part or row; of a piece ``piece/side``; of all the build's id.
        title: as a maker says it: 'Closing strap', 'Left row', 'Cuff (left)'.
        parts: sided ids of the parts it is about, in the pattern's order.
        steps: ids of all its steps, in the pattern's order.
        own: those of them that no other topic of its level has: the joints of a row, what is done
            to a strap alone. In an exercise some of these are to stand.
    """

    id: str
    title: str
    parts: tuple[str, ...]
    steps: tuple[str, ...]
    own: frozenset[str]


def chance_of(asked: Asked) -> random.Random:
    """Return the chance that decides an exercise: the same for the same ``asked``, for ever."""
    words = (asked.kind, asked.seed, int(asked.level), asked.piece, asked.part, asked.focus)
    return random.Random("/".join(map(str, words)))  # noqa: S311 - a drill, not a secret


def topics(assembly: Assembly, work: Work, asked: Asked) -> tuple[Topic, ...]:
    """Return what an exercise can be about, in the pattern's order.

    The level gives way where the piece asked for has nothing of its kind: without a row the parts
    are taken, without a small part all of them. Empty where no such piece, part or row is made.
    """
    finding = _Finding(assembly, work)
    found = tuple(finding.topics(asked))
    if not found and not asked.part:
        found = tuple(finding.pieces(asked.piece))
    return tuple(topic for topic in found if len(topic.steps) >= FEWEST_STEPS)


def mixed_topics(
    assembly: Assembly, work: Work, asked: Asked, chance: random.Random
) -> tuple[Topic, ...]:
    """Return the same in chance's order: the first that gives an exercise is taken."""
    found = list(topics(assembly, work, asked))
    chance.shuffle(found)
    return tuple(found)


class _Finding:
    def __init__(self, assembly: Assembly, work: Work) -> None:
        self._assembly = assembly
        self._work = work

    def topics(self, asked: Asked) -> Iterator[Topic]:
        """Yield what its level is about."""
        if asked.part:
            yield from self._named(asked)
        elif asked.level is Level.HARNESS:
            yield from self._whole(asked.piece)
        elif asked.level is Level.PIECE:
            yield from self.pieces(asked.piece)
        elif asked.level is Level.ROW:
            yield from self._rows(asked.piece)
        else:
            yield from self._small(asked.piece)

    def _named(self, asked: Asked) -> Iterator[Topic]:
        """Yield the part or row of an id, with its side or on every side."""
        for part in self._parts(asked.piece):
            if asked.part in (part.id, part.part.id):
                yield self._part(part)
        for seam in self._seams(asked.piece):
            if asked.part in (seam.id, seam.seam.id):
                yield self._row(seam)

    def _parts(self, piece: str) -> list[SidedPart]:
        return [p for p in self._assembly.parts if piece in ("", p.part.piece)]

    def _seams(self, piece: str) -> list[SidedSeam]:
        return [seam for seam in self._assembly.seams if piece in ("", seam.piece)]

    def _small(self, piece: str) -> Iterator[Topic]:
        parts = self._parts(piece)
        small = [p for p in parts if p.part.kind in _SMALL_KINDS or self._holds_little(p)]
        yield from map(self._part, small or parts)

    def _holds_little(self, part: SidedPart) -> bool:
        return 0 < len(self._assembly.joints_of(part.id)) <= _FEW_JOINTS

    def _rows(self, piece: str) -> Iterator[Topic]:
        seams = self._seams(piece)
        if not seams:
            yield from map(self._part, self._parts(piece))
        yield from map(self._row, seams)

    def _part(self, part: SidedPart) -> Topic:
        steps = self._work.touching(part.id)
        return Topic(
            id=part.id,
            title=part_name(self._assembly, part.id),
            parts=(part.id,),
            steps=_ids(steps),
            own=frozenset(s.id for s in steps if self._work.sets(s) or s.parts == (part.id,)),
        )

    def _row(self, seam: SidedSeam) -> Topic:
        joints = [self._assembly.joint(joint) for joint in seam.joints]
        parts = tuple(dict.fromkeys(part for joint in joints for part in joint.parts))
        of_row = frozenset(seam.joints)
        touching = {step.id for part in parts for step in self._work.touching(part)}
        setting = frozenset(s.id for j in seam.joints if (s := self._work.setting(j)))
        return Topic(
            id=seam.id,
            title=with_side(seam.seam.name, seam.side),
            parts=parts,
            steps=_ids(s for s in self._work.steps if s.id in touching or of_row & {*s.joints}),
            own=setting,
        )

    def pieces(self, piece: str) -> Iterator[Topic]:
        """Yield the piece of an id on each of its sides; empty: every one."""
        sides = dict.fromkeys((s.piece, s.side) for s in self._work.steps)
        for name, side in sides:
            if piece in ("", name):
                steps = [s for s in self._work.steps if (s.piece, s.side) == (name, side)]
                yield self._of_steps(
                    f"{name}/{side.value}", piece_name(self._assembly, name, side), steps
                )

    def _whole(self, piece: str) -> Iterator[Topic]:
        if piece:
            yield from self.pieces(piece)
        elif self._work.steps:
            pattern = self._assembly.pattern
            yield self._of_steps(self._assembly.build, pattern.name, self._work.steps)

    def _of_steps(self, name: str, title: str, steps: Sequence[Step]) -> Topic:
        touched = {part for step in steps for part in step.parts}
        return Topic(
            id=name,
            title=title,
            parts=tuple(p.id for p in self._assembly.parts if p.id in touched),
            steps=_ids(steps),
            own=frozenset(_ids(steps)),
        )


def _ids(steps: Iterable[Step]) -> tuple[str, ...]:
    return tuple(step.id for step in steps)
