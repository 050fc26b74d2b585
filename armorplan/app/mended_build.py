"""A build with the ways back that were chosen: their steps among its own, in an order that holds."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from armorplan.app.derived import Derived, waits_among
from armorplan.app.itself import Itself
from armorplan.app.mend_steps import Moved, Refitted, full_id, moved, refitted
from armorplan.app.mending import REFIT, WAY_BACK, Mending, Way
from armorplan.app.same_work import tail
from armorplan.ledger.events import EventKind
from armorplan.ledger.mends import Mend, SetAside, mend_from
from armorplan.ledger.records import StepStatus
from armorplan.ledger.state import LedgerState
from armorplan.orders.sequence import one_order
from armorplan.relations.extending import extended
from armorplan.relations.index import (
    RelationIndex,
    first_and_members,
    index_relations,
    is_plain,
    named_steps,
)
from armorplan.relations.model import Before, Force, Reason, Relation
from armorplan.steps.model import Step, Work
from armorplan.steps.naming import part_name

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
        if way.mend.moves or way.mend.refits:
            found.append(way)
    return tuple(found)


def _as_far_as_done(derived: Derived, way: Way, ledger: LedgerState) -> Mend:
    """Return of a way back what was done of its own; a part that was cut anew is still tried."""
    done = tuple(
        one.move
        if one.is_own and one.step and ledger.record(one.step.id).status is StepStatus.DONE
        else replace(one.move, title="")
        for one in moved(derived, way)
    )
    kept = tuple(move for move in done if move.title)
    return replace(way.mend, moves=kept, set_aside=(), refits=way.mend.refits if kept else ())


@dataclass(frozen=True, slots=True, kw_only=True)
class _Making:
    """What ways back make of a build, while it is put together."""

    ways: tuple[tuple[Way, tuple[Moved, ...], tuple[Refitted, ...]], ...]

    @property
    def leaves_out(self) -> bool:
        """Whether steps of the build are not done at all."""
        return any(one.step is None for _, moves, _ in self.ways for one in moves)

    @property
    def own(self) -> dict[str, Step]:
        """The steps that are there only for a way back, in order."""
        return {
            step.id: step
            for _, moves, refits in self.ways
            for step in (
                *(s for one in moves if one.is_own for s in (one.step, one.wait) if s),
                *(refit.step for refit in refits),
            )
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

    aside = dict(_aside(derived, ways))
    more = tuple(_of_ways(derived, making))
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
            one.step.id: tuple(full_id(derived, each) for each in one.move.clears)
            for _, moves, _ in making.ways
            for one in moves
            if one.move.opens and one.step
        },
        steps={
            way.id: tuple(
                dict.fromkeys(
                    (
                        *(s.id for one in moves for s in (one.step, one.wait) if s),
                        *(refit.step.id for refit in refits),
                    )
                )
            )
            for way, moves, refits in making.ways
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


def _aside(derived: Derived, ways: tuple[Way, ...]) -> Iterator[tuple[int, Relation]]:
    """Yield by identity the relations that a way back does not heed, each as it is set aside."""
    aside = {one: way.mend.title for way in ways for one in way.mend.set_aside}
    firsts = {(one.rule, one.first) for one in aside}
    for relation in derived.relations if aside else ():
        first = tail(relation.first) if is_plain(relation) else ""
        if (relation.reason.rule, first) in firsts:
            title = aside.get(key_of(relation))
            if title is not None:
                yield id(relation), _set_aside(relation, title)


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


def key_of(relation: Relation) -> SetAside:
    """Return what names a relation in the text of a way back."""
    first, of = "", named_steps(relation)
    if is_plain(relation):
        first, of = first_and_members(relation)
    return SetAside(rule=relation.reason.rule, first=tail(first), of=tuple(sorted(map(tail, of))))


def _set_aside(relation: Relation, title: str) -> Relation:
    note = f"Set aside by the way back chosen: {title}."
    return replace(relation, reason=replace(relation.reason, overruled=True, note=note))


def _of_ways(derived: Derived, making: _Making) -> Iterator[Relation]:
    for way, moves, refits in making.ways:
        yield from _in_turn(way, moves)
        for refit in refits:
            yield from _tried(derived, refit)


def _in_turn(way: Way, moves: Sequence[Moved]) -> Iterator[Relation]:
    """Yield what keeps a way back in its order: its own steps as a chain, the others between them."""
    reason = Reason(
        rule=WAY_BACK, text=way.mend.why, force=Force.CANNOT, source="the way back chosen"
    )
    build = way.id.partition("/")[0]
    last, since = "", list[str]()
    for one in moves:
        if one.step is None:
            continue
        for first in (last, *since) if one.is_own else (last,):
            if first:
                yield Before(first=first, then=one.step.id, reason=reason)
        for cleared in one.move.clears if one.move.opens else ():
            yield Before(first=one.step.id, then=f"{build}/{cleared}", reason=reason)
        if one.is_own:
            last, since = one.ends, []
        else:
            since.append(one.step.id)
        if one.wait:
            yield _at_once(one.step, one.wait)


def _at_once(step: Step, wait: Step) -> Relation:
    reason = Reason(
        rule="drying-starts-at-once",
        text="The wait runs by itself from the moment the step is done.",
        force=Force.CANNOT,
        source="follows from the step itself",
    )
    return Before(first=step.id, then=wait.id, reason=reason, max_lag_min=0)


def _tried(derived: Derived, refit: Refitted) -> Iterator[Relation]:
    """Yield what a changed part needs before it is tried, and what waits for that."""
    name = part_name(derived.assembly, refit.part)
    made = _refit_reason(refit, f"{name} is tried as it will be: this comes before its trial.")
    held = _refit_reason(
        refit,
        f"{name} is another than was tried before. What is fixed before it was tried with its "
        "neighbours stays as it is.",
    )
    for first in refit.after:
        yield Before(first=first, then=refit.step.id, reason=made)
    for then in refit.before:
        yield Before(first=refit.step.id, then=then, reason=held)


def _refit_reason(refit: Refitted, text: str) -> Reason:
    return Reason(
        rule=REFIT,
        text=text,
        force=Force.SPOIL,
        source="common practice, no source",
        about=(refit.part,),
    )


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
    number = 0
    for way, moves, refits in making.ways:
        del way
        for at, one in enumerate(moves):
            if not one.is_own or one.step is None:
                continue
            number += 1
            cleared = (full_id(derived, each) for each in one.move.clears)
            later = (m.step.id for m in moves[at:] if m.step and not m.is_own)
            place[one.step.id] = (_first_of(derived, (*cleared, *later)), number)
            if one.wait:
                place[one.wait.id] = (place[one.step.id][0], number)
        for refit in refits:
            number += 1
            place[refit.step.id] = (_first_of(derived, refit.before), number)
    return place


def _first_of(derived: Derived, steps: Iterable[str]) -> float:
    """Return the place before the first of these, and before the trays they are worked with."""
    trays = {derived.work.step(step).tray for step in steps if derived.work.has(step)}
    found = [derived.place[step.id] for step in derived.work.steps if step.tray in trays]
    return min(found, default=len(derived.place)) - _BESIDE
