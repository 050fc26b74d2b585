"""The smallest sets of rows that give plates a shape, or shut them round; each asked for once."""

from collections.abc import Callable, Iterable
from functools import lru_cache

from armorplan.geometry.reach.blocking import Atoms, minimal_sets
from armorplan.geometry.reach.lying_flat import Hanging
from armorplan.geometry.reach.model import Row, Shell

MOST_SETS, NEAREST, FEW_SETS = 12, 16, 4
"""So many ways to give plates a shape are told apart, among so many rows nearest to a joint; where
that only makes work harder, so few."""
MANY_ROWS, MANY_TO_SHUT = 48, 8
"""In a shell of more rows fewer ways to shape plates are told apart, or to shut them round."""
Sets = tuple[tuple[Atoms, ...], bool]
"""Sets, and whether there are no others."""
_Parts = tuple[str, ...]


def row_sets(shell: Shell) -> "RowSets":
    """Return the sets of a shell's rows: they do not hang on tools, so benches share them."""
    return _row_sets(shell.rows, shell.formed, shell.closures)


@lru_cache(maxsize=64)
def _row_sets(
    rows: tuple[Row, ...], formed: frozenset[str], closures: tuple[frozenset[str], ...]
) -> "RowSets":
    return RowSets(Hanging(rows, formed, closures), len(rows))


class RowSets:
    """The sets of rows of one shell, by the plates that they shape or shut round.

    Args:
        hanging: its plates and rows.
        rows: how many rows it has.
    """

    def __init__(self, hanging: Hanging, rows: int) -> None:
        self._hanging = hanging
        self._most, self._most_shut = (
            max(2, min(MOST_SETS, MOST_SETS * many // max(1, rows)))
            for many in (MANY_ROWS, MANY_TO_SHUT)
        )
        self._shapes: dict[tuple[_Parts, Atoms, int], Sets] = {}
        self._shut: dict[tuple[_Parts, str, int], Sets] = {}
        self._near: dict[_Parts, list[str]] = {}

    def shaping(self, parts: _Parts, given: Iterable[str], *, few: bool) -> Sets:
        """Return which further rows shape plates, with nothing to spare, once some rows are given."""
        useful = self._nearest(parts)
        known, most = frozenset(given).intersection(useful), self._at_most(self._most, few=few)
        key = (parts, known, most)
        if key not in self._shapes:
            self._shapes[key] = self._shaping_sets(parts, known, most)
        return self._shapes[key]

    def shutting(self, parts: _Parts, own: str, *, few: bool) -> Sets:
        """Return which rows but its own shut plates round, with nothing to spare."""
        most = self._at_most(self._most_shut, few=few)
        key = (parts, own, most)
        if key not in self._shut:
            self._shut[key] = self._shutting_sets(parts, own, most)
        return self._shut[key]

    @staticmethod
    def _at_most(most: int, *, few: bool) -> int:
        return min(most, FEW_SETS) if few else most

    def _nearest(self, parts: _Parts) -> list[str]:
        if parts not in self._near:
            self._near[parts] = self._hanging.nearest_first(parts)
        return self._near[parts]

    def _shutting_sets(self, parts: _Parts, own: str, most: int) -> Sets:
        hanging = self._hanging
        near = hanging.enclosing(parts, own)
        some = _enough(near, lambda rows: hanging.is_enclosed(parts, rows))
        if some is None:
            return (), True
        found = minimal_sets(
            reversed(some),
            lambda rows: hanging.is_enclosed(parts, rows),
            most=most,
            hint=lambda rows: hanging.shutting(parts, rows),
        )
        return found.sets, found.complete and len(some) == len(near)

    def _shaping_sets(self, parts: _Parts, given: Atoms, most: int) -> Sets:
        hanging = self._hanging
        near = [row for row in self._nearest(parts) if row not in given]
        some = _enough(near, lambda rows: hanging.is_shaped(parts, given.union(rows)))
        if some is None:
            return (), True
        found = minimal_sets(
            reversed(some),
            lambda more: hanging.is_shaped(parts, given | more),
            most=most,
            hint=lambda more: hanging.shaping(parts, given | more),
        )
        bent_at_once = found.sets == (frozenset(),)
        return found.sets, found.complete and (bent_at_once or len(some) == len(near))


def _enough(near: list[str], does: Callable[[list[str]], bool]) -> list[str] | None:
    """Return the nearest rows, no fewer than usual, that do; ``None`` where all of them do not."""
    if not does(near):
        return None
    many = NEAREST
    while many < len(near) and not does(near[:many]):
        many *= 2
    return near[:many]
