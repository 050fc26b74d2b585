"""Joints of a build one of which cannot wait for the others: which to ask for, and what is done by then."""

import random
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.drills.about import steps_about
from armorplan.app.drills.first_truth import Decided, decided
from armorplan.orders.next_steps import standing
from armorplan.practice.drill import Asked, Level
from armorplan.relations.index import first_and_members, is_plain
from armorplan.relations.model import Force, Relation

SIZES = {Level.STRAP: 3, Level.ROW: 3, Level.PIECE: 4, Level.HARNESS: 5}
"""So many joints are chosen from; where the build offers fewer, fewer."""
LEAST_ASKED_MIN = 1.0
"""What costs less afterwards is asked only of whoever has to meet just that reason."""
_TRIES = 3
_NEAR = 6
"""Joints that stand by are drawn from so many of the nearest."""


_Lead = tuple[str, frozenset[str], str]
"""A step, those before the last of which it comes, and the code of the rule that says so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstCase:
    """Steps to choose from, in the order chosen; what is done before them; which it is, and why."""

    steps: tuple[str, ...]
    done: tuple[str, ...]
    found: Decided


class FirstCases:
    """Looks through a build for joints that cannot wait for others."""

    def __init__(self, derived: Derived, asked: Asked, chance: random.Random) -> None:
        self._derived, self._asked, self._chance = derived, asked, chance
        setting = [step.id for step in derived.work.steps if len(derived.work.sets(step)) == 1]
        self._known: dict[tuple[str, bool], frozenset[str]] = {}
        self._setting = frozenset(setting) & derived.place.keys()
        self._wanted = self._setting & steps_about(derived, asked)
        self._leading = frozenset(step for step, *_ in self._every())

    def first(self) -> FirstCase | None:
        """Return the first that is found, in chance's order: what is asked for, then what tells most."""
        for leads in (list(self._told()), list(self._through_others())):
            tried = (case for lead in self._mixed(leads) for case in self._cases(lead))
            found = next((case for case in tried if case is not None), None)
            if found is not None:
                return found
        return None

    def _mixed(self, leads: list[_Lead]) -> list[_Lead]:
        """Return leads in chance's order, each rule in its turn first; what is asked for before all."""
        self._chance.shuffle(leads)
        rules = sorted({rule for *_, rule in leads})
        self._chance.shuffle(rules)
        seen = Counter[str]()
        turns = []
        for lead in leads:
            turns.append((lead[2] != self._asked.focus, seen[lead[2]], rules.index(lead[2])))
            seen[lead[2]] += 1
        return [
            lead for _, lead in sorted(zip(turns, leads, strict=True), key=lambda each: each[0])
        ]

    def _cases(self, lead: _Lead) -> Iterator[FirstCase | None]:
        step, then, _ = lead
        yield from (self._case(step, then) for _ in range(_TRIES))

    def _told(self) -> Iterator[_Lead]:
        """Yield what a single relation says of steps that are asked about, and is worth asking.

        Where that is of one step alone it would be known by heart, so that all are asked.
        """
        every = [each for each in self._every() if each[0] in self._wanted]
        worth = [each for each in every if self._is_worth(each[2])]
        several = len({step for step, *_ in worth}) > 1
        for step, members, relation in worth if several else every:
            yield step, members, relation.reason.rule

    def _is_worth(self, relation: Relation) -> bool:
        reason = relation.reason
        is_dear = reason.binds or reason.price_min >= LEAST_ASKED_MIN
        return is_dear or reason.rule == self._asked.focus

    def _every(self) -> Iterator[tuple[str, frozenset[str], Relation]]:
        """Yield each relation that puts a step that sets a joint before others that do."""
        for relation in self._derived.index.relations:
            if is_plain(relation) and self._holds(relation):
                step, members = first_and_members(relation)
                if step in self._setting and members and members <= self._setting:
                    yield step, members, relation

    def _through_others(self) -> Iterator[_Lead]:
        """Yield what follows from several relations, by way of steps that set no joint."""
        for step in sorted(self._wanted):
            for then in sorted(self._behind(step) & self._setting):
                yield step, frozenset((then,)), ""

    def _holds(self, relation: Relation) -> bool:
        reason = relation.reason
        steers = reason.force is Force.EASIER and relation not in self._derived.not_kept
        return reason.binds or (steers and not reason.overruled)

    def _case(self, step: str, then: frozenset[str]) -> FirstCase | None:
        """Return a case about a step and those it comes before, with some of them open."""
        size = SIZES[self._asked.level]
        # Room is left for at least one that could be taken for it.
        open_ = self._drawn(then, min(len(then), self._chance.randint(1, max(1, size - 2))))
        made = then - open_
        chosen = frozenset((step, *open_))
        near = self._standing_by(chosen, made)
        while True:
            more = self._drawn(near[:_NEAR], min(len(near), _NEAR, size - len(chosen)))
            case = self._tried(chosen | more, made)
            if case is not None or not more:
                return case
            near = [one for one in near if one not in more]

    def _drawn(self, some: Collection[str], count: int) -> frozenset[str]:
        return frozenset(self._chance.sample(sorted(some), count))

    def _standing_by(self, chosen: frozenset[str], made: frozenset[str]) -> list[str]:
        """Return other joints that may be set now, what could be taken for the answer first.

        Those that have to come before others as well, which are not asked about, and folds; then
        those on the same parts.
        """
        work, place = self._derived.work, self._derived.place
        parts = {part for step in chosen for part in work.step(step).parts}
        pieces = {(work.step(step).piece, work.step(step).side) for step in chosen}
        done = frozenset(self._done(chosen, made))
        late = frozenset[str]().union(*(self._behind(step) for step in chosen))
        found = [
            step
            for step in sorted(self._setting - done - chosen - made - late, key=place.__getitem__)
            if (work.step(step).piece, work.step(step).side) in pieces
        ]
        return sorted(
            found,
            key=lambda step: (not self._could_be(step), parts.isdisjoint(work.step(step).parts)),
        )

    def _could_be(self, step: str) -> bool:
        """Tell whether a joint looks as if it had to be set early."""
        (joint,) = self._derived.work.sets(self._derived.work.step(step))
        is_fold = len(set(self._derived.assembly.joint(joint).parts)) == 1
        return is_fold or step in self._leading

    def _tried(self, chosen: frozenset[str], made: frozenset[str]) -> FirstCase | None:
        """Return the case if it holds: what is done is valid, and just one of the joints cannot wait."""
        done = self._done(chosen, made)
        if len(chosen) < 2 or not made <= frozenset(done):  # noqa: PLR2004 - else there is no choice
            return None
        if standing(done, self._derived.index).set_aside:
            return None
        steps = tuple(sorted(chosen, key=self._derived.place.__getitem__))
        found = decided(self._derived, steps, done)
        if found is None or found.step not in self._wanted:
            return None
        return FirstCase(steps=steps, done=done, found=found)

    def _done(self, chosen: Iterable[str], made: Iterable[str]) -> tuple[str, ...]:
        """Return what is done by then: all before the first of them, and what each of them waits for."""
        order, place = self._derived.order, self._derived.place
        chosen = frozenset(chosen)
        begun = {*order[: min(place[step] for step in chosen)], *made}
        for step in (*chosen, *made):
            begun |= self._before(step)
        late = frozenset[str]().union(*(self._behind(step) for step in chosen))
        return tuple(sorted(begun - chosen - late, key=place.__getitem__))

    def _before(self, step: str) -> frozenset[str]:
        """Return all that has to be done before a step."""
        key = (step, True)
        if key not in self._known:
            self._known[key] = _spread(step, self._ahead)
        return self._known[key]

    def _behind(self, step: str) -> frozenset[str]:
        """Return all that a step has to be done before."""
        key = (step, False)
        if key not in self._known:
            self._known[key] = _spread(step, self._after)
        return self._known[key]

    def _ahead(self, step: str) -> Iterator[str]:
        index = self._derived.index
        for at in index.by_member[index.number[step]]:
            if index.binds[at] and len(index.members[at]) == 1:
                yield index.steps[index.firsts[at]]

    def _after(self, step: str) -> Iterator[str]:
        index = self._derived.index
        for at in index.by_first[index.number[step]]:
            if index.binds[at] and len(index.members[at]) == 1:
                yield index.steps[index.members[at][0]]


def _spread(step: str, onward: Callable[[str], Iterable[str]]) -> frozenset[str]:
    """Return all that is reached from a step, not the step itself."""
    found: set[str] = set()
    front = [step]
    while front:
        fresh = set(onward(front.pop())) - found
        found |= fresh
        front += fresh
    return frozenset(found - {step})
