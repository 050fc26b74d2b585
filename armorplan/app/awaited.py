"""Which step a relation makes another one wait for, of every kind of relation."""

from collections.abc import Collection, Mapping
from collections.abc import Set as AbstractSet

from armorplan.relations.model import AfterAny, Before, BeforeAll, Relation, Together

_ONE_FIRST = (Before, BeforeAll)


def awaited(relation: Relation, step: str, done: AbstractSet[str]) -> tuple[str, ...]:
    """Return the steps a relation puts before ``step``, sorted; with 'after any of' one will do.

    Empty where the relation by itself makes this step wait for no other.
    """
    if isinstance(relation, _ONE_FIRST):
        found = frozenset((relation.first,))
    elif isinstance(relation, AfterAny):
        found = relation.of if step == relation.then else frozenset[str]()
    elif isinstance(relation, Together):
        found = frozenset[str]() if step in relation.of else relation.of
    else:
        found = frozenset[str]()
    return tuple(sorted(other for other in found if other != step and other not in done))


def nearest_awaited(
    relations: Collection[Relation],
    step: str,
    done: AbstractSet[str],
    place: Mapping[str, int],
) -> str | None:
    """Return the step to name where one is named for all: it waits for the others in its turn.

    Of 'after any of' that is the first to come; of the others the last.
    """

    def at(other: str) -> int:
        return place.get(other, 0)

    # Nearly all relations put one step first, and they are asked of every step after every tick.
    nearest = {r.first for r in relations if isinstance(r, _ONE_FIRST)} - done - {step}
    for relation in relations:
        if isinstance(relation, _ONE_FIRST):
            continue
        steps = awaited(relation, step, done)
        if steps:
            pick = min if isinstance(relation, AfterAny) else max
            nearest.add(pick(steps, key=at))
    return max(sorted(nearest), key=at, default=None)
