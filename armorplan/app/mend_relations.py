"""The relations of ways back: their order, trials of changed parts, and what they do not heed."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from armorplan.app.derived import Derived
from armorplan.app.mend_steps import Moved
from armorplan.app.mending import REFIT, WAY_BACK, Way
from armorplan.app.same_work import tail
from armorplan.app.trials import Refitted
from armorplan.ledger.mends import SetAside
from armorplan.relations.index import first_and_members, is_plain, named_steps
from armorplan.relations.model import Before, Force, Reason, Relation
from armorplan.steps.model import Step
from armorplan.steps.naming import part_name

Made = tuple[Way, tuple[Moved, ...], tuple[Refitted, ...]]
"""A way back with the steps of its moves, and the trials of what it changes."""


def relations_of(derived: Derived, ways: Iterable[Made]) -> Iterator[Relation]:
    """Yield what keeps ways back in their order, and changed parts loose until they are tried."""
    for way, moves, refits in ways:
        yield from _in_turn(way, moves)
        yield from _saved_first(way, moves)
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
        for cleared in one.opens:
            yield Before(first=one.step.id, then=f"{build}/{cleared}", reason=reason)
        if one.is_own or one.wait:
            last, since = one.ends, []
        else:
            since.append(one.step.id)
        if one.wait:
            yield _at_once(one.step, one.wait)


def _saved_first(way: Way, moves: Sequence[Moved]) -> Iterator[Relation]:
    """Yield what usually waits until something is mended; nobody is held to it."""
    reason = Reason(
        rule=WAY_BACK, text=way.mend.why, force=Force.USUAL, source="common practice, no source"
    )
    build = way.id.partition("/")[0]
    for one in moves:
        for step in way.mend.before if one.saves else ():
            yield Before(first=one.ends, then=f"{build}/{step}", reason=reason)


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


def set_aside_by(derived: Derived, ways: tuple[Way, ...]) -> Iterator[tuple[int, Relation]]:
    """Yield by identity the relations that a way back does not heed, each as it is set aside."""
    aside = {one: way.mend.title for way in ways for one in way.mend.set_aside}
    firsts = {(one.rule, one.first) for one in aside}
    for relation in derived.relations if aside else ():
        first = tail(relation.first) if is_plain(relation) else ""
        if (relation.reason.rule, first) in firsts:
            title = aside.get(key_of(relation))
            if title is not None:
                yield id(relation), _set_aside(relation, title)


def key_of(relation: Relation) -> SetAside:
    """Return what names a relation in the text of a way back."""
    first, of = "", named_steps(relation)
    if is_plain(relation):
        first, of = first_and_members(relation)
    return SetAside(rule=relation.reason.rule, first=tail(first), of=tuple(sorted(map(tail, of))))


def _set_aside(relation: Relation, title: str) -> Relation:
    note = f"Set aside by the way back chosen: {title}."
    return replace(relation, reason=replace(relation.reason, overruled=True, note=note))
