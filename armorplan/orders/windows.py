"""Steps that wait for a window: what is damped is taken only once its shaping waits for nothing else."""

from collections.abc import Iterable, Iterator

from armorplan.relations.model import Before, Force, Reason, Relation

WINDOW = Reason(
    rule="window",
    text="What has to follow within minutes begins once nothing else stands before what follows.",
    force=Force.USUAL,
    source="follows from the most minutes between the two steps",
)
"""The reason of such wishes; nobody reads it, since they are part of how an order is chosen."""


def windows(relations: Iterable[Relation]) -> tuple[Before, ...]:
    """Return wishes that let a window open only when all else before its second step is done.

    Where the second step has to follow the first within so many minutes, whatever goes before the
    second is to go before the first too. A list knows no minutes: without these wishes it damps
    leather, and then has the maker do first what its shaping waits for.

    One of several steps after another in windows opens the first of them when all else is done.
    """
    plain = [r for r in relations if isinstance(r, Before) and r.reason.binds]
    known = {(r.first, r.then) for r in plain}
    return tuple(
        Before(first=first, then=then, reason=WINDOW)
        for first, then in _pairs(plain)
        if (first, then) not in known
    )


def _pairs(plain: list[Before]) -> Iterator[tuple[str, str]]:
    before: dict[str, dict[str, None]] = {}
    opens: dict[str, list[str]] = {}
    for relation in plain:
        before.setdefault(relation.then, {})[relation.first] = None
        if relation.max_lag_min is not None:
            opens.setdefault(relation.then, []).append(relation.first)
    todo = [
        (one, step, opener) for step in opens for opener in opens[step] for one in before[step]
    ]
    seen: set[tuple[str, str]] = set()
    while todo:
        one, step, opener = todo.pop()
        if one == opener or one in opens[step] or (one, opener) in seen:
            continue
        seen.add((one, opener))
        yield one, opener
        todo += [(one, opener, earlier) for earlier in opens.get(opener, ())]
