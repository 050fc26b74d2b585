"""Which step a relation makes another one wait for, of every kind of relation."""

from collections.abc import Callable, Collection, Mapping

from armorplan.relations.model import AfterAny, Before, BeforeAll, Relation, Together


def awaited(relation: Relation, step: str, is_done: Callable[[str], bool]) -> tuple[str, ...]:
    """Return the steps a relation puts before ``step``, sorted; with 'after any of' one will do.

    Empty where the relation by itself makes this step wait for no other.
    """
    if isinstance(relation, Before | BeforeAll):
        found = {relation.first}
    elif isinstance(relation, AfterAny):
        found = set(relation.of) if step == relation.then else set()
    elif isinstance(relation, Together):
        found = set() if step in relation.of else set(relation.of)
    else:
        found = set()
    return tuple(other for other in sorted(found - {step}) if not is_done(other))


def nearest_awaited(
    relations: Collection[Relation],
    step: str,
    is_done: Callable[[str], bool],
    place: Mapping[str, int],
) -> str | None:
    """Return the step to name where one is named for all: it waits for the others in its turn.

    Of 'after any of' that is the first to come; of the others the last.
    """
    found = set()
    for relation in relations:
        steps = awaited(relation, step, is_done)
        pick = min if isinstance(relation, AfterAny) else max
        if steps:
            found.add(pick(steps, key=lambda s: place.get(s, 0)))
    return max(found, key=lambda s: place.get(s, 0), default=None)
