"""What relations ask of a stretch of an order when everything around it stays where it is."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace

from armorplan.relations.checking import comes_between
from armorplan.relations.model import AfterAny, Before, BeforeAll, Relation, Together


def relations_within(
    stretch: Collection[str],
    relations: Iterable[Relation],
    *,
    before: Sequence[str],
    after: Collection[str],
) -> tuple[Relation, ...]:
    """Return relations among the steps of a stretch that say what the given ones ask of it.

    What is settled by the steps around it, kept or broken, is left out.
    """
    here = frozenset(stretch)
    seen = Around(here=here, before=tuple(before), after=frozenset(after))
    return tuple(found for relation in relations for found in seen.asked(relation))


class Around:
    """What is done before a stretch and after it."""

    def __init__(
        self, *, here: frozenset[str], before: tuple[str, ...], after: frozenset[str]
    ) -> None:
        self._here = here
        self._before = before
        self._done = frozenset(before)
        self._after = after

    def asked(self, relation: Relation) -> Iterator[Relation]:
        """Yield what one relation asks of the steps of the stretch."""
        if isinstance(relation, Before):
            if {relation.first, relation.then} <= self._here:
                yield relation
        elif isinstance(relation, BeforeAll):
            # A member that comes after the stretch is behind everything in it.
            yield from self._of_several(relation, relation.first, self._after)
        elif isinstance(relation, AfterAny):
            yield from self._of_several(relation, relation.then, self._done)
        elif isinstance(relation, Together):
            yield from self._in_one_go(relation)

    def _of_several(
        self, relation: BeforeAll | AfterAny, one: str, settling: frozenset[str]
    ) -> Iterator[Relation]:
        members = relation.of & self._here - {one}
        if one in self._here and members and settling.isdisjoint(relation.of):
            yield replace(relation, of=members)

    def _in_one_go(self, relation: Together) -> Iterator[Relation]:
        """Yield that the steps stand together, at the end where others of them lie beyond it."""
        members = relation.of & self._here
        others = self._here - members
        goes_on = not self._after.isdisjoint(relation.of)
        began = not self._done.isdisjoint(relation.of)
        if not members or (began and comes_between(self._before, relation.of) is not None):
            return
        if began and goes_on and others:
            return
        if len(members) > 1:
            yield replace(relation, of=members)
        for one in sorted(members) if began or goes_on else ():
            for other in sorted(others):
                first, then = (one, other) if began else (other, one)
                yield Before(first=first, then=then, reason=relation.reason)
