"""What may be done now where 'after any of' or 'together' bind: exact, unless a search gives up.

For one way of settling all choices, ``held_back`` tells of all steps at once which may come next.
What may come next under any settling may come next. So the first settling found offers most steps;
what the clauses alone hold back (``fixed``) is held in any case; and only for the few steps between
the two a search is asked with that step put first. Each answer brings a settling that may offer
more of them. Where that search gives up, the step is not offered: what is offered can be gone on from.
(Only where not even one settling was found within all limits, what the clauses alone allow is.)
"""

from collections.abc import Iterable
from functools import cache

from armorplan.orders.deciding import decide
from armorplan.orders.look_ahead import held_back
from armorplan.orders.setting_aside import StillHolds, binding_after, what_mix_holds
from armorplan.relations.conflict import smallest_core
from armorplan.relations.index import NOBODY, RelationIndex
from armorplan.relations.model import AfterAny, Together
from armorplan.relations.settling import Settled


class MixedStanding:
    """How the work stands after what was done, by number.

    Attributes:
        may: steps after which all the rest can still be completed.
        waits: by step that has to wait, the relations that hold it.
        aside: relations that what was done has broken or made impossible to keep.
    """

    def __init__(self, index: RelationIndex, done: tuple[str, ...]) -> None:
        self._index = index
        self._left = index.left_after(done)
        binds = binding_after(index, done, self._left)
        held = what_mix_holds(index, self._left, binds.active)
        self._mix = held.mixed
        self.aside = (*binds.broken, *held.aside)
        self.may: set[int] = set()
        self.waits: dict[int, tuple[int, ...]] = {}
        inside = self._inside_open()
        todo = [at for at, left in enumerate(self._left) if left]
        for step in todo:
            if step not in inside:
                self.waits[step] = self._open_relations(step)
        self._offer(held.settled, inside)
        self._hold(held.settled, [step for step in inside if step not in self.may])

    def _offer(self, settled: Settled, steps: Iterable[int]) -> None:
        """Offer what may come next under one settling."""
        waits = self._waiting(settled.active, settled.order, steps)
        self.may |= {s for s in steps if waits.keys().isdisjoint(self._mix.path(s))}

    def _hold(self, settled: Settled, steps: list[int]) -> None:
        """Find out of steps not offered yet whether another settling offers them."""
        fixed = self._waiting(self._mix.fixed, settled.order, steps)
        made_by = self._mix.made_by
        for step in steps:
            if step in self.may:
                continue
            holding = {c for one in self._mix.path(step) for c in fixed.get(one, ())}
            if holding:
                self.waits[step] = tuple(sorted({r for c in holding for r in made_by[c]}))
                continue
            found = decide(self._mix, first=self._mix.path(step), order=settled.order)
            if found.possible:
                self.may.add(step)
                self._offer(found, steps)
            else:
                self.waits[step] = self._reasons(step, found)

    def _reasons(self, step: int, found: Settled) -> tuple[int, ...]:
        """Return the relations that speak against a step; all that leave a choice if undecided."""
        if found.decided:
            return smallest_core(self._index, self._left, found.core, first=step)
        return tuple(sorted({r for choice in self._mix.choices for r in choice.made_by}))

    def _waiting(
        self, active: bytes, order: tuple[int, ...], steps: Iterable[int]
    ) -> dict[int, list[int]]:
        """Return what of steps and the blocks around them has to wait, with the clauses it waits by."""
        index, left = self._mix.index, self._mix.left
        live = tuple(
            tuple(m for m in members if left[m]) if counts and left[first] else ()
            for counts, first, members in zip(active, index.firsts, index.members, strict=True)
        )
        waits: dict[int, list[int]] = {}
        several: set[int] = set()
        for at, members in enumerate(live):
            if len(members) == 1:
                waits.setdefault(members[0], []).append(at)
            else:
                several.update(members)
        holds = StillHolds(aside=(), live=live, back=tuple(reversed(order)))
        asked = {one for step in steps for one in self._mix.path(step)} & several
        return waits | held_back(index, holds, asked - waits.keys())

    def _inside_open(self) -> list[int]:
        """Return the steps left in the innermost block that has begun; all where there is none."""
        parents = self._mix.blocks.parents
        block = self._mix.open[-1] if self._mix.open else NOBODY

        @cache
        def is_inside(one: int) -> bool:
            return one == block or (one != NOBODY and is_inside(parents[one]))

        return [at for at, left in enumerate(self._left) if left and is_inside(at)]

    def _open_relations(self, step: int) -> tuple[int, ...]:
        """Return the 'together' relations that have begun, and have to be finished before a step."""
        made_by = {r for block in self._mix.open for r in self._mix.blocks.made_by[block]}
        name, relations = self._index.steps[step], self._index.relations
        begun = [r for r in sorted(made_by) if self._is_begun(r)]
        return tuple(r for r in begun if name not in _together(relations[r])) or tuple(begun)

    def _is_begun(self, at: int) -> bool:
        left = [self._left[self._index.number[s]] for s in _together(self._index.relations[at])]
        return any(left) and not all(left)


def _together(relation: object) -> frozenset[str]:
    return relation.of if isinstance(relation, AfterAny | Together) else frozenset()
