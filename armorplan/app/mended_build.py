"""A build with the ways back that were chosen: their steps among its own, in an order that holds."""

from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from armorplan.app.derived import Derived, waits_among
from armorplan.app.itself import Itself
from armorplan.app.mend_relations import Made, relations_of, set_aside_by
from armorplan.app.mend_steps import is_wait, moved
from armorplan.app.mending import Mending, Way
from armorplan.app.trials import full_id, refitted
from armorplan.ledger.events import EventKind
from armorplan.ledger.mends import Mend, MendMove, mend_from
from armorplan.ledger.records import StepStatus
from armorplan.ledger.state import LedgerState
from armorplan.orders.sequence import one_order
from armorplan.relations.extending import extended
from armorplan.relations.index import (
    RelationIndex,
    index_relations,
)
from armorplan.relations.model import Relation
from armorplan.steps.model import Step, Work

NOTHING = MendMove(title="")
"""Stands for a move of a way back given up that was not done."""
_BESIDE = 0.5
"""So much before the first step that waits for it a step of a way back would like to stand."""


def mended(derived: Derived, ledger: LedgerState) -> Derived:
    """Return a build with the ways back that its ledger tells; itself where it tells none.

    A pure function of both; what was asked lately is kept.
    """
    told = ledger.said(EventKind.MEND)
    if not told or derived.mending is not None or not derived.order:
        return derived
    ways = ways_of(derived, ledger)
    return _mended(Itself(derived), ways) if ways else derived


def ways_of(derived: Derived, ledger: LedgerState) -> tuple[Way, ...]:
    """Return the ways back chosen; of one given up what was done of it, if anything was."""
    found = []
    for told in ledger.said(EventKind.MEND):
        mend = mend_from(told.text)
        if mend is None:
            continue
        way = Way(id=told.step, mend=mend, told=told.id)
        if told.given_up:
            way = replace(way, mend=_as_far_as_done(derived, way, ledger))
        if any(move is not NOTHING for move in way.mend.moves) or way.mend.refits:
            found.append(way)
    return tuple(found)


def _as_far_as_done(derived: Derived, way: Way, ledger: LedgerState) -> Mend:
    """Return of a way back what was done of its own; a part that was cut anew is still tried."""
    done = {
        id(one.move)
        for one in moved(derived, way)
        if one.is_own and one.step and ledger.record(one.step.id).status is StepStatus.DONE
    }
    kept = tuple(_kept(way.mend.moves, done))
    is_any = any(move is not NOTHING for move in kept)
    return replace(way.mend, moves=kept, set_aside=(), refits=way.mend.refits if is_any else ())


def _kept(moves: Iterable[MendMove], done: Container[int]) -> Iterator[MendMove]:
    """Yield the moves done with their waits, each at its number: its step is named by that."""
    stands = False
    for move in moves:
        stands = id(move) in done or (stands and is_wait(move))
        yield move if stands else NOTHING


@dataclass(frozen=True, slots=True, kw_only=True)
class _Making:
    """What ways back make of a build, while it is put together."""

    ways: tuple[Made, ...]

    @property
    def leaves_out(self) -> bool:
        """Whether steps of the build are not done at all."""
        return any(one.step is None for _, moves, _ in self.ways for one in moves)

    @property
    def own(self) -> dict[str, Step]:
        """The steps that are there only for a way back, in order."""
        return {
            step.id: step
            for _, moves, _ in self.ways
            for one in moves
            for step in (one.step if one.is_own else None, one.wait)
            if step
        }

    @property
    def otherwise(self) -> dict[str, Step]:
        """The steps of the build that are done otherwise, by id."""
        return {
            one.step.id: one.step
            for _, moves, _ in self.ways
            for one in moves
            if one.step and not one.is_own
        }


@lru_cache(maxsize=16)
def _mended(build: Itself, ways: tuple[Way, ...]) -> Derived:
    derived = build.derived
    making = _Making(
        ways=tuple((way, moved(derived, way), tuple(refitted(derived, way))) for way in ways)
    )
    left_out = frozenset(_left_out(derived, making))
    own, otherwise = making.own, making.otherwise

    def with_ways(work: Work) -> Work:
        return Work(
            steps=(
                *(otherwise.get(s.id, s) for s in work.steps if s.id not in left_out),
                *own.values(),
            )
        )

    aside = dict(set_aside_by(derived, ways))
    more = tuple(relations_of(derived, making.ways))
    work = with_ways(derived.work)
    relations = (*(aside.get(id(r), r) for r in derived.relations), *more)
    index = _index(derived, (work, left_out), (relations, more), aside)
    order = _order(derived, making, index)
    return replace(
        derived,
        work=work,
        flat_work=with_ways(derived.flat_work),
        relations=relations,
        index=index,
        sequence=replace(derived.sequence, order=order),
        place={step: at for at, step in enumerate(order)},
        waits=waits_among(index),
        mending=_mending(derived, making, left_out),
    )


def _mending(derived: Derived, making: _Making, left_out: frozenset[str]) -> Mending:
    own = making.own
    return Mending(
        ways=tuple(way for way, _, _ in making.ways),
        opens={
            one.step.id: tuple(full_id(derived, each) for each in one.opens)
            for _, moves, _ in making.ways
            for one in moves
            if one.opens and one.step
        },
        steps={
            way.id: tuple(dict.fromkeys(s.id for one in moves for s in (one.step, one.wait) if s))
            for way, moves, _ in making.ways
        },
        own=frozenset(own),
        left_out=left_out,
        part={refit.step.id: refit.part for _, _, refits in making.ways for refit in refits},
    )


def _left_out(derived: Derived, making: _Making) -> Iterator[str]:
    """Yield the steps that are not done, with what would follow them or serve them."""
    work = derived.work
    for _, moves, _ in making.ways:
        for one in moves:
            if one.step is None:
                step = full_id(derived, one.move.step)
                casing = work.casing_for(step)
                yield step
                yield from (following.id for following in work.following(step))
                if casing is not None:
                    yield casing.id


def _index(
    derived: Derived,
    steps: tuple[Work, frozenset[str]],
    relations: tuple[tuple[Relation, ...], tuple[Relation, ...]],
    aside: Mapping[int, Relation],
) -> RelationIndex:
    """Return the relations by step; where no step is left out, those of the build stay as they are."""
    (work, left_out), (every, more) = steps, relations
    if left_out:
        return index_relations((step.id for step in work.steps), every)
    index = derived.index
    found = enumerate(index.relations) if aside else ()
    instead = {at: aside[id(r)] for at, r in found if id(r) in aside}
    new = (step.id for step in work.steps if step.id not in index.number)
    return extended(index, new, more, instead=instead)


def _order(derived: Derived, making: _Making, index: RelationIndex) -> tuple[str, ...]:
    """Return an order with the steps of the ways back, as near to the build's own as holds."""
    place = _places(derived, making)
    # The build's own order keeps its relations: only what the ways back add has to be looked at.
    nearest = tuple(sorted(index.steps, key=place.__getitem__))
    stands = {step: at for at, step in enumerate(nearest)}
    known = 0 if making.leaves_out else len(derived.index.relations)
    new = range(known, len(index.relations))
    if all(_is_kept(index, at, stands) for at in new if index.binds[at]):
        return nearest
    binding = tuple(relation for relation in index.relations if relation.reason.binds)
    # Where a way back contradicts the rest, its steps stand where they would like to.
    return one_order(index.steps, binding, key=place.__getitem__).order or nearest


def _is_kept(index: RelationIndex, at: int, stands: Mapping[str, int]) -> bool:
    first = stands[index.steps[index.firsts[at]]]
    return any(stands[index.steps[member]] > first for member in index.members[at])


def _places(derived: Derived, making: _Making) -> dict[str, tuple[float, int]]:
    """Return where each step would like to stand: one of a way back before what waits for it."""
    place = {step: (float(at), 0) for step, at in derived.place.items()}
    trials = {r.step.id: r.before for _, _, refits in making.ways for r in refits}
    number = 0
    for way, moves, _ in making.ways:
        rest = tuple(full_id(derived, each) for each in way.mend.before)
        wanted, soonest = dict[int, float](), float(len(derived.place))
        for at in reversed(range(len(moves))):
            one = moves[at]
            if one.is_own and one.step is not None:
                cleared = (full_id(derived, each) for each in one.opens)
                later = (m.step.id for m in moves[at:] if m.step and not m.is_own)
                held = trials.get(one.step.id, ()) or (rest if one.saves else ())
                soonest = min(soonest, _first_of(derived, (*cleared, *later, *held)))
                wanted[at] = soonest
        reached = -_BESIDE
        for at, one in enumerate(moves):
            if one.step is None:
                continue
            number += 2
            reached = max(reached, wanted.get(at, derived.place.get(one.step.id, reached)))
            if one.is_own:
                place[one.step.id] = (reached, number)
            if one.wait:
                place[one.wait.id] = (reached, number + 1)
    return place


def _first_of(derived: Derived, steps: Iterable[str]) -> float:
    """Return the place before the first of these, and before the trays they are worked with."""
    trays = {derived.work.step(step).tray for step in steps if derived.work.has(step)}
    found = [derived.place[step.id] for step in derived.work.steps if step.tray in trays]
    return min(found, default=len(derived.place)) - _BESIDE
