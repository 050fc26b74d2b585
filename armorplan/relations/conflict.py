"""Relations that cannot all hold, as few as it takes, and in words."""

from collections.abc import Callable, Iterable, Sequence

from armorplan.kernel.units import about_words
from armorplan.relations.from_back import order_from_back
from armorplan.relations.index import (
    RelationIndex,
    first_and_members,
    index_relations,
    is_plain,
    named_steps,
)
from armorplan.relations.knots import conflict_left
from armorplan.relations.mixing import mix
from armorplan.relations.model import AfterAny, Before, BeforeAll, Force, Relation, Together
from armorplan.relations.settling import settle
from armorplan.relations.weighing import lightest, price_min, weight


def find_conflict(steps: Iterable[str], relations: Iterable[Relation]) -> tuple[Relation, ...]:
    """Return relations that cannot all hold; empty where an order keeps them all.

    All relations given count, whatever their force, but for overruled ones. A shortest ring of
    relations with one member if there is a ring; otherwise a conflict from which no relation can
    be left out. Where the search for an order gives up undecided, it is empty too.
    """
    index = index_relations(steps, relations)
    counted = bytearray(not relation.reason.overruled for relation in index.relations)
    return tuple(index.relations[at] for at in conflict_among(index, counted))


def conflict_among(index: RelationIndex, counted: bytearray) -> tuple[int, ...]:
    """Return the numbers of counted relations that cannot all hold; see ``find_conflict``.

    Args:
        index: steps and relations.
        counted: by relation, 1 where it counts, whatever its force and overruled or not.
    """
    left = index.left_after(())
    active = bytearray(
        count and is_plain(relation)
        for count, relation in zip(counted, index.relations, strict=True)
    )
    found = conflict_left(index, left, active, order_from_back(index, left, active))
    if not found and any(counted[at] for at in index.others):
        for at in index.others:
            active[at] = counted[at]
        found = smallest_core(index, left, settle(mix(index, left, active)).core)
    return found


def smallest_core(
    index: RelationIndex,
    left: bytearray,
    core: Iterable[int],
    *,
    first: int | None = None,
) -> tuple[int, ...]:
    """Leave out of a conflict what it does not take, the lightest first; return the numbers.

    Args:
        index: steps and relations.
        left: by step, 1 where it is still to do.
        core: relations that cannot all hold for the steps left.
        first: a step that is to come next of all, if the conflict is only with that.
    """
    kept = sorted(core)
    for at in sorted(kept, key=lambda r: weight(index.relations[r])):
        fewer = [other for other in kept if other != at]
        if _clash(index, left, fewer, first):
            kept = fewer
    return tuple(kept)


def _clash(
    index: RelationIndex, left: bytearray, numbers: Sequence[int], first: int | None
) -> bool:
    """Tell whether relations cannot all hold, looking only at the steps they name."""
    relations = [index.relations[at] for at in numbers]
    named = {step for relation in relations for step in named_steps(relation)}
    if first is not None:
        named.add(index.steps[first])
    small = index_relations(sorted(named, key=index.number.__getitem__), relations)
    to_do = bytearray(left[index.number[step]] for step in small.steps)
    mixed = mix(small, to_do, bytearray(b"\x01" * len(small.relations)))
    path = () if first is None else mixed.path(small.number[index.steps[first]])
    return bool(settle(mixed, first=path).core)


def conflict_words(conflict: Iterable[Relation], name: Callable[[str], str]) -> str:
    """Tell a conflict in words, with the relation that costs least to give up.

    Args:
        conflict: what ``find_conflict`` returned.
        name: gives a step's title for its id.
    """
    relations = tuple(conflict)
    if not relations:
        return ""
    told = [f"({at}) {_told(r, name)}" for at, r in enumerate(relations, start=1)]
    give_up = lightest(relations)
    at = relations.index(give_up) + 1
    if len(relations) == 1:
        return f"This can never hold: {told[0]} Give it up or change it."
    return (
        f"These {len(relations)} cannot all hold: {' '.join(told)} "
        f"The least to give up is ({at}){_whose(give_up)}: {_strength(give_up)}."
    )


_STRENGTH = {
    Force.CANNOT: "even that one is 'cannot', so one of them must be wrong",
    Force.SPOIL: "breaking it would spoil work, the others are no weaker",
    Force.EASIER: "breaking it only costs time",
    Force.USUAL: "it is only usual practice",
}


def _whose(relation: Relation) -> str:
    own = relation.reason.own_id
    return f", your own relation '{own}'" if own else ""


def _strength(relation: Relation) -> str:
    minutes = price_min(relation)
    if minutes:
        return f"breaking it only costs about {about_words(minutes)}"
    return _STRENGTH[relation.reason.force]


def _told(relation: Relation, name: Callable[[str], str]) -> str:
    def listed(steps: Iterable[str]) -> str:
        return ", ".join(f"'{name(step)}'" for step in sorted(steps)) or "nothing else"

    if isinstance(relation, Before):
        said = f"'{name(relation.first)}' before '{name(relation.then)}'"
    elif isinstance(relation, BeforeAll):
        first, members = first_and_members(relation)
        said = f"'{name(first)}' before the last of {listed(members)}"
    elif isinstance(relation, AfterAny):
        said = f"'{name(relation.then)}' after any of {listed(relation.of - {relation.then})}"
    elif isinstance(relation, Together):
        said = f"{listed(relation.of)} in one go"
    else:
        said = f"{listed(relation.of)} never at once"
    return f"{said} ({relation.reason.force}): {relation.reason.text.rstrip('.')}."
