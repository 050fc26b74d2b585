"""From relations to the demands of a planning problem: lags, 'before the last of', places taken."""

from collections.abc import Iterable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import replace
from itertools import pairwise
from types import MappingProxyType

from armorplan.relations.checking import breaks_of_prefix
from armorplan.relations.index import known_relations, named_steps
from armorplan.relations.model import AfterAny, Apart, Before, BeforeAll, Relation, Together
from armorplan.schedule.activity import Demand
from armorplan.schedule.drying_tables import WINDOW_RULES
from armorplan.schedule.problem import EndsBeforeLast, Lag, Resource


def kept_relations(
    relations: Iterable[Relation], steps: Iterable[str], place: Mapping[str, int]
) -> tuple[Relation, ...]:
    """Return what the plan has to keep: what binds, and what steers where the order keeps it.

    Args:
        relations: overruled ones are left out.
        steps: the steps there are; what relations say of others is passed over.
        place: where each step stands in the chosen order.
    """
    known = [r for r in known_relations(tuple(steps), relations) if not r.reason.overruled]
    steering = [r for r in known if not r.reason.binds and named_steps(r) <= place.keys()]
    order = sorted(place, key=place.__getitem__)
    broken = {b.relation for b in breaks_of_prefix(order, steering)}
    kept = frozenset(steering) - broken
    return tuple(r for r in known if r.reason.binds or r in kept)


def lags_of(
    relations: Iterable[Relation],
    begun: AbstractSet[str],
    place: Mapping[str, int],
    windows: Mapping[tuple[str, str], Lag] = MappingProxyType({}),
) -> tuple[Lag, ...]:
    """Return one lag for each pair of steps, as tight as all their relations together.

    What has begun is history: no demand on its start means anything any more. Relations of
    ``WINDOW_RULES`` have their waits from ``windows``, where it knows the pair.
    """
    found: dict[tuple[str, str], Lag] = {}
    for relation in relations:
        for usual in _own_lags(relation, begun, place):
            told = windows.get((usual.first, usual.then))
            by_air = told is not None and relation.reason.rule in WINDOW_RULES
            lag = replace(told, reason=usual.reason) if told and by_air else usual
            lag = replace(lag, wish=lag.is_window and not relation.reason.binds)
            if lag.then not in begun:
                known = found.get((lag.first, lag.then))
                found[lag.first, lag.then] = _tighter(known, lag) if known else lag
    return tuple(found.values())


def _own_lags(
    relation: Relation, begun: AbstractSet[str], place: Mapping[str, int]
) -> Iterator[Lag]:
    text = relation.reason.text
    if isinstance(relation, Before):
        yield Lag(
            first=relation.first,
            then=relation.then,
            min_lag=relation.lag_min,
            max_lag=relation.max_lag_min,
            reason=text,
        )
    elif isinstance(relation, AfterAny):
        # To wait for one named step keeps 'after any of', if at times more than it asks for: of
        # those not begun the plan could choose another. What has begun ends before any of them.
        others = relation.of - {relation.then}
        for first in sorted(others, key=lambda s: (s not in begun, place.get(s, 0), s))[:1]:
            yield Lag(first=first, then=relation.then, reason=text)
    elif isinstance(relation, Together):
        in_order = sorted(relation.of - begun, key=lambda s: (place.get(s, 0), s))
        yield from (Lag(first=a, then=b, reason=text) for a, b in pairwise(in_order))


def _tighter(one: Lag, other: Lag) -> Lag:
    """Return both demands in one; the reason is that of the longer wait."""
    limits = [lag.max_lag for lag in (one, other) if lag.max_lag is not None]
    longer = other if other.min_lag > one.min_lag else one
    return Lag(
        first=one.first,
        then=one.then,
        min_lag=longer.min_lag,
        max_lag=min(limits, default=None),
        opens=one.opens or other.opens,
        closes=one.closes or other.closes,
        reason=longer.reason,
        wish=all(lag.wish for lag in (one, other) if lag.is_window) and (one.wish or other.wish),
    )


def before_last_of(
    relations: Iterable[Relation], begun: AbstractSet[str]
) -> Iterator[EndsBeforeLast]:
    """Yield 'ends before the last of' over the steps not yet begun; the last is among them."""
    for relation in relations:
        if isinstance(relation, BeforeAll):
            left = relation.of - begun - {relation.first}
            if relation.first not in begun and left:
                yield EndsBeforeLast(first=relation.first, of=left, reason=relation.reason.text)


def places_taken(
    relations: Iterable[Relation],
) -> tuple[tuple[Resource, ...], Mapping[str, tuple[Demand, ...]]]:
    """Return what 'apart' steps share, each a place for one, and by step what it takes of them.

    Relations that name the same thing speak of one and the same.
    """
    takers: dict[str, set[str]] = {}
    for relation in relations:
        if isinstance(relation, Apart):
            for step in relation.of:
                takers.setdefault(step, set()).add(relation.on)
    shared = sorted({thing for things in takers.values() for thing in things})
    demands = {
        step: tuple(Demand(resource=thing, amount=1) for thing in sorted(things))
        for step, things in takers.items()
    }
    return tuple(Resource(id=thing, capacity=1) for thing in shared), demands
