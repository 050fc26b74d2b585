"""A right order with what binds kept as this order keeps it: pairs of steps, and nothing else.

'Before all of' and the other kinds can be kept in several ways. An order keeps them in one; the
pairs that this asks for make a partial order, and whatever keeps the pairs is right as well. So
steps can be brought together, and states be had that the order itself does not pass through.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from armorplan.relations.index import first_and_members, is_plain, known_relations
from armorplan.relations.model import AfterAny, Relation, Together
from armorplan.relations.weighing import binding

Bits = int
"""A set of steps: bit n stands for the step at place n."""


class SettledOrder:
    """A right order and its pairs.

    Attributes:
        order: the steps, each once.
        place: where a step stands in it.
        before: by place, what has to be done before; ``after``: what has to wait for it.
    """

    def __init__(
        self,
        order: Sequence[str],
        relations: Iterable[Relation],
        *,
        also: Iterable[Relation] = (),
        pairs: Iterable[tuple[str, str]] = (),
    ) -> None:
        """Take an order that keeps all relations that bind.

        Args:
            order: the steps, each once.
            relations: of these what binds is kept as the order keeps it.
            also: others that the order keeps and that are to be kept as well.
            pairs: steps of the order that are to stay as they stand in it, the first one first.
        """
        self.order = tuple(order)
        self.place: Mapping[str, int] = {step: at for at, step in enumerate(self.order)}
        self._direct = direct = [0] * len(self.order)
        kept = (*binding(relations), *also)
        for relation in known_relations(self.place.keys(), kept):
            for first, then in self._pairs(relation):
                direct[then] |= 1 << first
        for one, other in pairs:
            direct[self.place[other]] |= 1 << self.place[one]
        self.before = _closed(direct)
        self.after = self._turned()

    def _pairs(self, relation: Relation) -> Iterator[tuple[int, int]]:
        place = self.place
        if isinstance(relation, Together):
            yield from self._around(sorted(place[step] for step in relation.of))
        elif isinstance(relation, AfterAny):
            others = relation.of - {relation.then}
            yield min(place[step] for step in others), place[relation.then]
        elif is_plain(relation):
            first, members = first_and_members(relation)
            yield place[first], max(place[member] for member in members)

    def _around(self, inside: Sequence[int]) -> Iterator[tuple[int, int]]:
        """Yield that all others stay before or behind what is done in one go."""
        for member in inside:
            yield from ((other, member) for other in range(inside[0]))
            yield from ((member, other) for other in range(inside[-1] + 1, len(self.order)))

    def _turned(self) -> list[Bits]:
        """Return by place what has to wait for it, from what each one waits for straight."""
        after = [0] * len(self.order)
        for then in reversed(range(len(self.order))):
            behind = after[then] | 1 << then
            for first in each(self._direct[then]):
                after[first] |= behind
        return after

    def pair(self, relation: Relation) -> Bits:
        """Return the two steps by which the order keeps a relation; all that are done in one go."""
        if isinstance(relation, Together):
            return self.bits(relation.of)
        return sum(1 << at for pair in self._pairs(relation) for at in pair)

    def bits(self, steps: Iterable[str]) -> Bits:
        """Return steps as a set; each is one of the order's."""
        return sum(1 << self.place[step] for step in set(steps))

    def steps(self, bits: Bits) -> tuple[str, ...]:
        """Return the steps of a set as they stand in the order."""
        return tuple(self.order[at] for at in each(bits))

    def hull(self, bits: Bits) -> Bits:
        """Return the steps with all that has to stand between any two of them."""
        ahead = behind = 0
        for at in each(bits):
            ahead |= self.before[at]
            behind |= self.after[at]
        return bits | (ahead & behind)

    def ahead_of(self, bits: Bits) -> tuple[str, ...]:
        """Return what is done before steps whose hull they are, and nothing that waits for them.

        All that stands before the last of them and does not need any of them; what is left of the
        order comes behind. Done before, the steps and the rest make a right order.
        """
        waits = 0
        for at in each(bits):
            waits |= self.after[at]
        earlier = (1 << bits.bit_length()) - 1
        return self.steps(earlier & ~bits & ~waits)


def each(bits: Bits) -> Iterator[int]:
    """Yield the numbers of a set, the smallest first."""
    while bits:
        low = bits & -bits
        yield low.bit_length() - 1
        bits ^= low


def _closed(direct: Sequence[Bits]) -> list[Bits]:
    """Return by place all that comes before, straight or by what lies between; they only rise."""
    before: list[Bits] = []
    for firsts in direct:
        found = firsts
        for first in each(firsts):
            found |= before[first]
        before.append(found)
    return before
