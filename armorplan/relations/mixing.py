"""All kinds of relation brought to one shape, with choices: the ways in which each can be kept.

Steps and blocks (see ``blocks``) become the steps of a plain index. What lies in the same block,
or in none, stands side by side, and every clause of the index ties things that stand side by side:
the first of them comes before the last of its members. So each block is a small order of its own.

- 'First before the last of members' is kept where some member follows: in the innermost block that
  holds both, or in a larger one. Each such level is a way to keep it; without blocks there is one.
- 'After any of' is kept by any one of its steps; each is a way.
- A series of parts runs this way or the other.

A relation with one way is a clause; with several it is a choice, and ``settling`` makes it. What
was done before only takes ways away: a block that has begun goes on until it is finished.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from armorplan.relations.blocks import Blocks, lay_blocks, no_blocks
from armorplan.relations.index import NOBODY, Clause, RelationIndex, index_clauses
from armorplan.relations.model import AfterAny, Relation, Together


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """The ways to keep something, each as clauses that hold together, and what it comes from."""

    ways: tuple[tuple[int, ...], ...]
    made_by: frozenset[int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mix:
    """Relations of all kinds in one shape.

    Attributes:
        index: steps and blocks, and the clauses as relations.
        blocks: how they lie in each other.
        left: by step or block, 1 where it has not begun.
        fixed: by clause, 1 where there is no other way.
        choices: what is to be settled.
        steering: by relation not counted yet, its choice; ``None`` where it holds in any case.
        made_by: by clause, the relations it follows from.
        open: blocks that have begun and are not finished, outer ones first.
        clash: relations that leave no way at all; empty where there is one, as far as is known.
    """

    index: RelationIndex
    blocks: Blocks
    left: bytes
    fixed: bytes
    choices: tuple[Choice, ...]
    steering: dict[int, Choice | None]
    made_by: tuple[frozenset[int], ...]
    open: tuple[int, ...]
    clash: frozenset[int] = frozenset()

    def path(self, step: int) -> list[int]:
        """Return a step and the blocks around it that have not begun, the innermost first."""
        found, parents = [step], self.blocks.parents
        while parents[found[-1]] != NOBODY and self.left[parents[found[-1]]]:
            found.append(parents[found[-1]])
        return found

    def steps_of(self, order: Iterable[int], count: int) -> list[int]:
        """Return the steps in the order that one of steps and blocks stands for.

        Args:
            order: what has not begun, in an order that holds.
            count: how many steps there are; the numbers from there on are blocks.
        """
        inside: dict[int, list[int]] = {}
        for one in (*self.open, *order):
            inside.setdefault(self.blocks.parents[one], []).append(one)
        todo, found = inside.get(NOBODY, [])[::-1], []
        while todo:
            one = todo.pop()
            if one < count:
                found.append(one)
            else:
                todo.extend(inside.get(one, [])[::-1])
        return found


def mix(
    index: RelationIndex, left: bytearray, active: bytearray, *, steering: Iterable[int] = ()
) -> Mix:
    """Bring relations to one shape, for the steps left.

    Args:
        index: steps and relations.
        left: by step, 1 where it is still to do.
        active: by relation of any kind, 1 where it counts. No 'together' that something has come
            between may count.
        steering: relations whose ways are prepared, but which do not count yet; no 'together'.
    """
    blocks = lay_blocks(len(index.steps), _groups(index, left, active))
    if isinstance(blocks, frozenset):
        return _Mixer(index, left, no_blocks(len(index.steps))).mixed(clash=blocks)
    mixer = _Mixer(index, left, blocks)
    for at, relation in enumerate(index.relations):
        if active[at]:
            mixer.need(at, relation)
    for series in blocks.series:
        mixer.need_series(series.parts, series.made_by)
    for at in steering:
        mixer.prepare(at, index.relations[at])
    return mixer.mixed()


def _groups(index: RelationIndex, left: bytearray, active: bytearray) -> dict[int, frozenset[int]]:
    """Return the steps done in one go by relation, where some of them are left."""
    groups = {}
    for at in index.others:
        relation = index.relations[at]
        if active[at] and isinstance(relation, Together):
            group = frozenset(index.number[step] for step in relation.of)
            if any(left[step] for step in group):
                groups[at] = group
    return groups


class _Mixer:
    def __init__(self, index: RelationIndex, left: bytearray, blocks: Blocks) -> None:
        self._index = index
        self._blocks = blocks
        self._steps_left = left
        self._state = _begun(blocks, left)
        self._clauses: list[Clause] = []
        self._made_by: list[frozenset[int]] = []
        self._fixed: list[int] = []
        self._choices: list[Choice] = []
        self._steering: dict[int, Choice | None] = {}
        self._clash = frozenset[int]()

    def need(self, number: int, relation: Relation) -> None:
        """Make a relation count."""
        first, parents = self._index.firsts[number], self._blocks.parents
        members = self._index.members[number]
        if first != NOBODY and all(parents[one] == NOBODY for one in (first, *members)):
            # Nearly all relations are of this kind: steps in no block, and one way to keep it.
            ahead = tuple(m for m in members if self._steps_left[m])
            if self._steps_left[first] and ahead:
                self._fixed.append(len(self._clauses))
                self._clauses.append((first, ahead))
                self._made_by.append(frozenset((number,)))
                return
        self._count(self._choice(number, relation))

    def need_series(self, parts: Sequence[int], made_by: frozenset[int]) -> None:
        """Make parts follow each other one way or the other."""
        there: list[Clause] = [(a, (b,)) for a, b in pairwise(parts)]
        back: list[Clause] = [(b, (a,)) for a, b in pairwise(parts)]
        self._count(self._laid([there, back], made_by))

    def prepare(self, number: int, relation: Relation) -> None:
        """Lay out the ways of a relation that does not count yet."""
        self._steering[number] = self._choice(number, relation)

    def mixed(self, *, clash: frozenset[int] = frozenset()) -> Mix:
        """Return what was laid out."""
        blocks, state = self._blocks, self._state
        steps = len(self._index.steps)
        names = (*self._index.steps, *(f"block {at}" for at in range(steps, len(state))))
        fixed = bytearray(len(self._clauses))
        for at in self._fixed:
            fixed[at] = 1
        return Mix(
            index=index_clauses(
                names, self._clauses, [self._index.relations[min(by)] for by in self._made_by]
            ),
            blocks=blocks,
            left=bytes(one == _TO_DO for one in state),
            fixed=bytes(fixed),
            choices=tuple(self._choices),
            steering=self._steering,
            made_by=tuple(self._made_by),
            open=tuple(at for at in range(steps, len(state)) if state[at] == _OPEN),
            clash=clash or self._clash,
        )

    def _count(self, choice: Choice | None) -> None:
        if choice is None:
            return
        if not choice.ways:
            self._clash = self._clash or choice.made_by
        elif len(choice.ways) == 1:
            self._fixed.extend(choice.ways[0])
        else:
            self._choices.append(choice)

    def _choice(self, number: int, relation: Relation) -> Choice | None:
        """Return the ways to keep a relation; ``None`` where nothing left can break it."""
        if isinstance(relation, AfterAny):
            return self._after_any(number, relation)
        first, left = self._index.firsts[number], self._steps_left
        if first == NOBODY or not left[first]:
            return None
        members = [m for m in self._index.members[number] if left[m]]
        made_by = {number}
        levels: dict[int, set[int]] = {}
        for member in members:
            mine, other = self._side_by_side(first, member, made_by)
            levels.setdefault(mine, set()).add(other)
        ways = [[(mine, tuple(sorted(found)))] for mine, found in levels.items()]
        return self._laid(ways, frozenset(made_by))

    def _after_any(self, number: int, relation: AfterAny) -> Choice | None:
        then = self._index.number[relation.then]
        others = sorted(self._index.number[step] for step in relation.of - {relation.then})
        if not self._steps_left[then] or not all(self._steps_left[step] for step in others):
            return None
        made_by = {number}
        pairs = dict.fromkeys(self._side_by_side(step, then, made_by) for step in others)
        return self._laid([[(a, (b,))] for a, b in pairs], frozenset(made_by))

    def _side_by_side(self, one: int, other: int, made_by: set[int]) -> tuple[int, int]:
        """Return what the two lie in, or are, where they stand side by side; add why to the set."""
        parents = self._blocks.parents
        if parents[one] == parents[other]:
            return one, other
        around = {}
        at = one
        while at != NOBODY:
            around[parents[at]] = at
            at = parents[at]
        at = other
        while parents[at] not in around:
            at = parents[at]
            made_by |= self._blocks.made_by[at]
        mine = around[parents[at]]
        inner = one
        while inner != mine:
            inner = parents[inner]
            made_by |= self._blocks.made_by[inner]
        return mine, at

    def _laid(self, ways: Iterable[list[Clause]], made_by: frozenset[int]) -> Choice | None:
        open_to: list[list[Clause]] = []
        for way in ways:
            clauses = [self._still_to_keep(clause) for clause in way]
            if any(clause is not None and not clause[1] for clause in clauses):
                continue
            asked = [clause for clause in clauses if clause is not None]
            if not asked:
                return None
            open_to.append(asked)
        numbered = []
        for way in open_to:
            at = len(self._clauses)
            self._clauses.extend(way)
            self._made_by.extend([made_by] * len(way))
            numbered.append(tuple(range(at, at + len(way))))
        return Choice(ways=tuple(numbered), made_by=made_by)

    def _still_to_keep(self, clause: Clause) -> Clause | None:
        """Return what is left of a clause; ``None`` where it is kept, no member where it cannot be."""
        first, members = clause
        ahead = tuple(m for m in members if self._state[m] == _TO_DO)
        if self._state[first] == _DONE or (self._state[first] == _OPEN and ahead):
            return None
        return first, () if self._state[first] == _OPEN else ahead


_TO_DO, _OPEN, _DONE = range(3)


def _begun(blocks: Blocks, left: bytearray) -> list[int]:
    """Return by step and block whether it is still to do, has begun, or is done."""
    state = [_TO_DO if todo else _DONE for todo in left]
    state += [_TO_DO] * (len(blocks.parents) - len(left))
    found: list[set[int]] = [set() for _ in blocks.parents]
    # Inner blocks have the higher numbers, steps the lowest: a block comes after all in it.
    for at in (*range(len(left)), *range(len(state) - 1, len(left) - 1, -1)):
        if at >= len(left):
            state[at] = found[at].pop() if len(found[at]) == 1 else _OPEN
        if blocks.parents[at] != NOBODY:
            found[blocks.parents[at]].add(state[at])
    return state
