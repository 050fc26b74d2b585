"""Does one thing have to be done before another: the nearest relations, or what it would cost."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from armorplan.app.derived import Derived
from armorplan.app.named_work import NamedWork
from armorplan.assembly.model import Side
from armorplan.geometry.told import begun
from armorplan.kernel.errors import ArmorplanError
from armorplan.relations.conflict import conflict_among
from armorplan.relations.implying import stricter
from armorplan.relations.index import (
    RelationIndex,
    first_and_members,
    index_relations,
    is_plain,
)
from armorplan.relations.model import Before, Force, Reason, Relation
from armorplan.relations.weighing import price_min, weight
from armorplan.rules.reaching import ALONG


class Answer(StrEnum):
    """Whether the one has to come first."""

    MUST = "it has to come first"
    BETTER = "it comes first by choice"
    FREE = "either may come first"
    LATER = "it has to come after"
    BETTER_LATER = "it comes after by choice"


@dataclass(frozen=True, slots=True, kw_only=True)
class Between:
    """What is known of two things, and which of them comes first.

    Attributes:
        first: the step of the first thing that is looked at; of several the one most tightly held.
        firsts: all steps of the first thing.
        then: the steps of the other; with several the last of them is meant.
        side: on which side of the wearer both are looked at.
        chain: the relations it follows from, as few as it takes, the earliest step first; of
            ``LATER`` and ``BETTER_LATER`` those that put the other first. Empty where nothing
            forces it.
        held: of how many of the first thing's steps the answer is true.
        of: how many steps the first thing has.
        given_up: the relations with a price that the other order gives up, of each step and rule the
            dearest; none where it cannot be had.
        aside: relations that would force it but are overruled, or that the order does not keep.
        is_first: the chosen order has the first before the last of the other.
    """

    first: str
    firsts: tuple[str, ...]
    then: tuple[str, ...]
    side: Side
    answer: Answer
    chain: tuple[Relation, ...] = ()
    held: int = 0
    of: int = 1
    given_up: tuple[Relation, ...] = ()
    aside: tuple[Relation, ...] = ()
    is_first: bool = True

    @property
    def price_min(self) -> float:
        """Minutes that the other order costs by the relations it gives up."""
        return sum(map(price_min, self.given_up))

    @property
    def force(self) -> Force | None:
        """How strongly it holds: as strongly as the weakest of its relations; ``None``: not at all."""
        return min(self.chain, key=weight).reason.force if self.chain else None


def why_between(derived: Derived, one: NamedWork, other: NamedWork) -> Between:
    """Return whether one thing has to be done before the other is, on the first side both are on.

    Raises:
        ArmorplanError: both are the same work, they are made on different sides, or no order keeps
            all relations.
    """
    side, firsts, thens = _on_one_side(one, other)
    if not derived.order:
        message = "No order keeps all relations, so nothing can be asked of it. See 'check' first."
        raise ArmorplanError(message)
    return _Asked(derived, firsts, thens).answered(side)


def _on_one_side(
    one: NamedWork, other: NamedWork
) -> tuple[Side, tuple[str, ...], tuple[str, ...]]:
    shared = [side for side in one.by_side if side in other.by_side]
    pairs = [(side, side) for side in shared]
    pairs += [(a, b) for a in one.by_side for b in other.by_side if Side.SINGLE in (a, b)]
    if not pairs:
        message = (
            f"{begun(one.name)} is made on the {'/'.join(one.by_side)}, {other.name} on the "
            f"{'/'.join(other.by_side)}: neither waits for the other side. Name two of one side."
        )
        raise ArmorplanError(message)
    here, there = pairs[0]
    firsts, thens = one.by_side[here], other.by_side[there]
    both = frozenset(firsts) & frozenset(thens)
    # What does both belongs to the one that is nothing else, or to neither.
    if both != frozenset(firsts):
        firsts = tuple(step for step in firsts if step not in both)
    if both != frozenset(thens):
        thens = tuple(step for step in thens if step not in both)
    if both == frozenset(firsts) == frozenset(thens):
        message = f"{begun(one.name)} and {other.name} are done in one step. Name two done in different ones."
        raise ArmorplanError(message)
    return here if here is not Side.SINGLE else there, firsts, thens


def in_mm(relation: Relation) -> float:
    """Return how far in a joint lies along the leather, as a relation by reach tells it; else 0."""
    return max((n.value for n in relation.reason.numbers if n.name == ALONG), default=0.0)


_ASKED = Reason(rule="", text="", force=Force.CANNOT, source="")
_Core = tuple[int, ...]


class _Asked:
    """The relations of a build, with the other order of two things beside them to be tried."""

    def __init__(self, derived: Derived, firsts: tuple[str, ...], thens: tuple[str, ...]) -> None:
        self._derived, self._firsts, self._thens = derived, firsts, thens
        known = derived.index.relations
        asked = [Before(first=b, then=a, reason=_ASKED) for a in firsts for b in thens]
        asked += [Before(first=a, then=b, reason=_ASKED) for a in firsts for b in thens]
        self._index: RelationIndex = index_relations(derived.index.steps, (*known, *asked))
        self._known = len(known)
        self._binding = [r.reason.binds for r in known]
        self._kept = [not r.reason.overruled and r not in derived.not_kept for r in known]
        self._stricter = sorted(stricter(known))

    def answered(self, side: Side) -> Between:
        """Return the answer, the strongest that is true."""
        firsts, thens = self._firsts, self._thens
        for counted, answers in (
            (self._binding, (Answer.MUST, Answer.LATER)),
            (self._kept, (Answer.BETTER, Answer.BETTER_LATER)),
        ):
            for answer, ones, others in (
                (answers[0], firsts, thens),
                (answers[1], thens, firsts),
            ):
                cores = {one: c for one in ones if (c := self._core(one, others, counted))}
                if cores:
                    return self._found(side, answer, cores, others)
        return Between(
            first=firsts[0],
            firsts=firsts,
            then=thens,
            side=side,
            answer=Answer.FREE,
            of=len(firsts),
            aside=self._aside(firsts[0]),
            is_first=self._comes_first(firsts[0]),
        )

    def _found(
        self, side: Side, answer: Answer, cores: dict[str, _Core], others: tuple[str, ...]
    ) -> Between:
        place, told = self._derived.place, self._index.relations
        one = min(cores, key=lambda s: (len(cores[s]), -in_mm(told[cores[s][0]]), place[s]))
        later = answer in (Answer.LATER, Answer.BETTER_LATER)
        first = self._firsts[0] if later else one
        steers = answer in (Answer.BETTER, Answer.BETTER_LATER)
        return Between(
            first=first,
            firsts=self._firsts,
            then=self._thens if not later else (one,),
            side=side,
            answer=answer,
            chain=self._chain(cores[one]) + self._likewise(one, cores),
            held=len(cores),
            of=len(self._thens if later else self._firsts),
            given_up=self._given_up_by(one, cores, others) if steers else (),
            aside=() if not later else self._aside(first),
            is_first=self._comes_first(first),
        )

    def _comes_first(self, first: str) -> bool:
        place = self._derived.place
        return place[first] < max(place[then] for then in self._thens)

    def _core(self, one: str, others: Iterable[str], counted: Sequence[bool]) -> _Core:
        """Return the relations by which one comes before the last of others; empty: by none.

        Where a wider relation does, a stricter one that it follows from is not told.
        """
        wide = list(counted)
        for at in self._stricter:
            wide[at] = False
        for some in (wide, counted):
            if direct := self._direct(one, others, some):
                return direct
        return self._core_of(one, others, wide) or self._core_of(one, others, counted)

    def _direct(self, one: str, others: Iterable[str], counted: Sequence[bool]) -> _Core:
        """Return the gravest relation that says it of the two by itself; empty: none does.

        What only leads there through a third thing is not what was asked.
        """
        wanted, found = frozenset(others), list[int]()
        for at, relation in enumerate(self._index.relations[: self._known]):
            if counted[at] and is_plain(relation) and self._index.firsts[at] == self._number(one):
                _, members = first_and_members(relation)
                if wanted.issuperset(members):
                    found.append(at)
        told = self._index.relations
        best = max(found, key=lambda at: (weight(told[at]), in_mm(told[at]), -at), default=None)
        return () if best is None else (best,)

    def _number(self, step: str) -> int:
        return self._index.number[step]

    def _core_of(self, one: str, others: Iterable[str], counted: Sequence[bool]) -> _Core:
        active = bytearray(len(self._index.relations))
        active[: self._known] = bytes(counted)
        wanted = frozenset(others)
        for at in range(self._known, len(active)):
            added = self._index.relations[at]
            if isinstance(added, Before):
                active[at] = added.then == one and added.first in wanted
        return tuple(at for at in conflict_among(self._index, active) if at < self._known)

    def _chain(self, core: _Core) -> tuple[Relation, ...]:
        index, place = self._index, self._derived.place
        named = {at: [index.firsts[at]] if index.firsts[at] >= 0 else [] for at in core}
        key = {at: min((place[index.steps[s]] for s in named[at]), default=0) for at in core}
        return tuple(index.relations[at] for at in sorted(core, key=lambda at: (key[at], at)))

    def _likewise(self, one: str, cores: dict[str, _Core]) -> tuple[Relation, ...]:
        """Return what says the same of the other steps, where a single relation says it of one."""
        if len(cores[one]) > 1:
            return ()
        relations, (at,) = self._index.relations, cores[one]
        others = [cores[step] for step in sorted(cores, key=self._derived.place.__getitem__)]
        rule = relations[at].reason.rule
        alike = [core[0] for core in others if len(core) == 1 and core != cores[one]]
        return tuple(relations[at] for at in alike if relations[at].reason.rule == rule)

    def _given_up_by(
        self, one: str, cores: dict[str, _Core], others: tuple[str, ...]
    ) -> tuple[Relation, ...]:
        """Return what the other order gives up: of all steps, where a single relation says it of each."""
        every = cores if len(cores[one]) == 1 else (one,)
        return tuple(lost for step in every for lost in self._given_up(step, others))

    def _given_up(self, one: str, others: tuple[str, ...]) -> tuple[Relation, ...]:
        """Return the steering relations with a price that the other order gives up."""
        counted = list(self._kept)
        lost: dict[tuple[int, str], Relation] = {}
        while core := self._core(one, others, counted):
            steering = [at for at in core if not self._binding[at]]
            direct = any(price_min(each) for each in lost.values())
            if not steering or (direct and len(core) > 1):
                break
            at = min(steering, key=lambda at: weight(self._index.relations[at]))
            counted[at] = False
            relation = self._index.relations[at]
            # A step that was dearer after any of a row is so but once.
            key = (self._index.firsts[at], relation.reason.rule)
            if price_min(relation) > (price_min(lost[key]) if key in lost else 0.0):
                lost[key] = relation
        return tuple(lost.values())

    def _aside(self, one: str) -> tuple[Relation, ...]:
        """Return the relations not reckoned with, each of which alone would force it."""
        found: list[Relation] = []
        for at, relation in enumerate(self._index.relations[: self._known]):
            if self._kept[at] or self._index.firsts[at] != self._index.number[one]:
                continue
            counted = list(self._binding)
            counted[at] = True
            if at in self._core(one, self._thens, counted):
                found.append(relation)
        return tuple(found)
